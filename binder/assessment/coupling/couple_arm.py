"""What turns two weighings, bars on and bars off, into the couple of the bars."""

from binder.assessment.coupling.loads import coupling_key
from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.weights.supports import supports_of
from binder.assessment.wording import Wording
from binder.calculations.weights.axle_loads import couple_arm
from binder.models.load import Profile
from binder.models.rig import Coupling, Rig
from binder.quantities import Quantity

_RULE = "What the bars put on the front axle, times this, is the couple they apply."
_UNKNOWN = "Not known: a place of the coupling or of an axle is not."


def assess_couple_arms(profile: Profile, ledger: Ledger) -> None:
    """Enter the arm of each coupling with weight-distribution bars."""
    wording = Wording(profile.rig.units)
    for coupling in profile.rig.couplings:
        if coupling.distribution is None:
            continue
        lengths = _lengths(profile.rig, coupling)
        arm = couple_arm(*lengths) if lengths else None
        names = ("ball to the trailer's axles", "rear axle to the ball", "wheelbase")
        inputs = tuple(
            Input(name, wording.length(length, "nearest"), "rig.yaml couplings and axles")
            for name, length in zip(names, lengths or (), strict=False)
        )
        key, source = f"{coupling_key(coupling)}.couple_arm", "statics"
        ledger.add(Figure(key, arm, "calculated", _RULE if lengths else _UNKNOWN, source, inputs))


def _lengths(rig: Rig, coupling: Coupling) -> tuple[Quantity, Quantity, Quantity] | None:
    ahead, behind = supports_of(rig, coupling.ahead), supports_of(rig, coupling.behind)
    first, rear, ball, axles = ahead.first, ahead.second, behind.first, behind.second
    if coupling.at is None or first is None or rear is None or ball is None or axles is None:
        return None
    return axles - ball, coupling.at - rear, rear - first
