"""This rig on this trip, assessed: what cards and pages read, and nothing they could change."""

from datetime import date
from typing import NamedTuple

from binder.assessment.ledger import GRADES, Figure, Finding, Key, Ledger
from binder.models.load import Profile
from binder.models.rig import Rig
from binder.models.trip import Trip
from binder.quantities import Quantity


class Assessment(NamedTuple):
    """The profile, the effective date, and every figure and finding made from them."""

    profile: Profile
    on: date
    ledger: Ledger

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
