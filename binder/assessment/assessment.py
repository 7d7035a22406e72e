"""This rig on this trip, assessed: what cards and pages read, and nothing they could change."""

from datetime import date
from typing import NamedTuple, overload

from binder.assessment.figures import Figure, Finding, Ledger
from binder.assessment.ledger import GRADES, Key
from binder.assessment.ledger import Figure as Entered
from binder.assessment.ledger import Finding as Reported
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
        grades = ["do not drive", "attention", "missing"]
        return sorted(self.ledger.findings, key=lambda found: (grades.index(found.grade), found.order))

    @property
    def reported(self) -> list[Reported]:
        """All findings in the order they matter: grade first, then the list of ten, then as found."""
        return sorted(self.ledger.reported, key=lambda found: (GRADES.index(found.grade), found.kind.order))

    def figure(self, key: str) -> Figure:
        """Give the figure entered under a key; a key that is not there is a bug."""
        return self.ledger.figures[key]

    @overload
    def known(self, key: Key) -> Entered | None: ...
    @overload
    def known(self, key: str) -> Figure | None: ...
    def known(self, key: Key | str) -> Entered | Figure | None:
        """Give the figure entered under a key, or None where there is none."""
        return self.ledger.figures.get(key) if isinstance(key, str) else self.ledger.known(key)

    def quantity(self, key: Key | str) -> Quantity | None:
        """Give the quantity entered under a key."""
        figure = self.known(key)
        return figure.quantity if figure else None
