"""The whole assessment: models wired into calculations once, in the order the data walk."""

from datetime import date

from binder.assessment.assessment import Assessment
from binder.assessment.body.dimensions import assess_dimensions
from binder.assessment.body.equipment import assess_equipment
from binder.assessment.coupling.balance import assess_couple_arms, assess_down_share
from binder.assessment.coupling.equipment import assess_coupling_equipment
from binder.assessment.coupling.loads import assess_coupling_loads
from binder.assessment.entries.plausibility import assess_plausibility
from binder.assessment.ledger import Ledger
from binder.assessment.road.clearances import assess_clearance_needed
from binder.assessment.road.grades import assess_grades
from binder.assessment.route.route import assess_route
from binder.assessment.service.service import assess_service
from binder.assessment.spares.spares import assess_spares
from binder.assessment.supplies.supplies import assess_supplies
from binder.assessment.supplies.water_question import assess_water_question
from binder.assessment.tires.pressures import assess_tires
from binder.assessment.tires.register import assess_register, assess_spare_tires
from binder.assessment.weights.label_use import assess_label_use
from binder.assessment.weights.loads import loads_in_states
from binder.assessment.weights.tickets import assess_ticket_gaps
from binder.assessment.weights.weight_law import assess_weight_law
from binder.assessment.weights.weights import assess_weights, walked_states
from binder.models.load import Profile


def assess(profile: Profile, on: date) -> Assessment:
    """Assess a rig, on a trip where there is one."""
    ledger = Ledger()
    states = loads_in_states(profile.rig, walked_states(profile))
    assess_tires(profile, on, states, ledger)
    assess_register(profile, on, states, ledger)
    assess_spare_tires(profile, on, ledger)
    assess_weights(profile, on, states, ledger)
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
    assess_coupling_equipment(profile, on, ledger)
    assess_equipment(profile, on, ledger)
    assess_service(profile, on, ledger)
    assess_spares(profile, on, ledger)
    assess_plausibility(profile, states, ledger)
    assess_supplies(profile, ledger)
    assess_water_question(profile, on, ledger)
    return Assessment(profile, on, ledger)
