"""This rig on this trip, assessed: every figure and finding, entered once."""

from datetime import date
from typing import NamedTuple

from binder.assessment.body.dimensions import assess_dimensions
from binder.assessment.body.equipment import assess_equipment
from binder.assessment.body.strangers import assess_for_strangers
from binder.assessment.coupling.equipment import assess_coupling_equipment
from binder.assessment.coupling.loads import assess_couple_arms, assess_coupling_loads, assess_down_share
from binder.assessment.entries.plausibility import assess_plausibility
from binder.assessment.ledger import GRADES, Figure, Finding, Key, Ledger
from binder.assessment.log.log import assess_log
from binder.assessment.road.clearances import assess_clearance_needed
from binder.assessment.road.grades import assess_grades
from binder.assessment.route.route import assess_route
from binder.assessment.service.service import assess_service
from binder.assessment.spares.spares import assess_spares
from binder.assessment.supplies.supplies import assess_supplies
from binder.assessment.supplies.walk import walked_trip
from binder.assessment.supplies.water_question import assess_water_question
from binder.assessment.tires.pressures import assess_tires
from binder.assessment.tires.register import assess_register, assess_spare_tires
from binder.assessment.weights.alone import assess_alone
from binder.assessment.weights.limits import assess_label_use, assess_weight_law
from binder.assessment.weights.loads import StateLoads, loads_in_states
from binder.assessment.weights.tickets import assess_ticket_gaps
from binder.assessment.weights.weights import assess_weights, walked_states
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.quantities import Quantity


class Assessment(NamedTuple):
    """The profile, the effective date, and every figure and finding made from them.

    ``states`` holds what every axle is summed up of in every state, for whoever checks it by hand.
    """

    profile: Profile
    on: date
    ledger: Ledger
    states: tuple[StateLoads, ...] = ()

    @property
    def rig(self) -> Rig:
        """The rig of the profile."""
        return self.profile.rig

    @property
    def trip(self) -> Trip | None:
        """The trip plan, where there is one."""
        return self.profile.trip

    @property
    def findings(self) -> list[Finding]:
        """All findings in the order they matter: grade first, then the list of ten, then as found."""
        return sorted(self.ledger.findings, key=lambda found: (GRADES.index(found.grade), found.kind.order))

    def known(self, key: Key) -> Figure | None:
        """Give the figure entered under a key, or None where there is none."""
        return self.ledger.known(key)

    def quantity(self, key: Key) -> Quantity | None:
        """Give the quantity entered under a key."""
        return self.ledger.quantity(key)


def assess(profile: Profile, on: date, states: tuple[StateLoads, ...] | None = None) -> Assessment:
    """Assess a rig, on a trip where there is one; ``states`` are those of any other day, where known."""
    ledger = Ledger()
    walk = walked_trip(profile)
    if states is None:
        states = loads_in_states(profile.rig, walked_states(profile, walk))
    assess_tires(profile, on, states, ledger)
    assess_register(profile, on, states, ledger)
    assess_spare_tires(profile, on, ledger)
    assess_weights(profile, on, states, ledger)
    assess_alone(profile, states, ledger)
    assess_ticket_gaps(profile, states, ledger)
    assess_coupling_loads(profile, states, ledger)
    assess_down_share(profile, states, ledger)
    assess_couple_arms(profile, ledger)
    assess_label_use(profile, ledger)
    assess_weight_law(profile, states, ledger)
    assess_dimensions(profile, on, ledger)
    assess_clearance_needed(profile, ledger)
    assess_route(profile, on, ledger)
    assess_grades(profile, ledger)
    assess_coupling_equipment(profile, ledger)
    assess_equipment(profile, on, ledger)
    assess_for_strangers(profile, ledger)
    assess_service(profile, on, ledger)
    assess_spares(profile, on, ledger)
    assess_plausibility(profile, states, ledger)
    assess_supplies(profile, walk, ledger)
    assess_water_question(profile, on, ledger)
    if profile.log:
        assess_log(profile, ledger)
    return Assessment(profile, on, ledger, states)
