"""How a trailer stands on its coupling: its share there, and the arm by which bars move weight ahead."""

from typing import NamedTuple

from binder.assessment.coupling import kinds
from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.supports import CARRYING, supports_of
from binder.calculations.weights.axle_loads import couple_arm
from binder.models.load import Profile
from binder.models.rig import Coupling, Rig
from binder.quantities import Quantity, registry

BANDS = {"ball": (10, 15), "fifth wheel": (15, 25), "gooseneck": (15, 25)}
"""Percent of the loaded trailer (practice, from memory; the trailer's manual overrides)."""


class _Share(NamedTuple):
    """Percent of the loaded trailer, and the title of the state."""

    percent: float
    moment: Phrase

    @property
    def facts(self) -> dict[str, Fact]:
        return {"share": self.percent, "moment": self.moment}


def assess_down_share(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the share of each trailer that stands on its coupling, and find what is outside its band."""
    for coupling in profile.rig.couplings:
        # A dolly is no trailer: how far its axle stands from what it carries is its maker's matter.
        if coupling.how in CARRYING and profile.rig.vehicles[coupling.behind].kind != "dolly":
            _assess_share(coupling, states, ledger)


def _assess_share(coupling: Coupling, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    key = kinds.DOWN_SHARE.of(coupling.ahead, coupling.behind)
    least, most = BANDS[coupling.how]
    band: dict[str, Fact] = {"least": least, "most": most}
    case = "bars" if coupling.distribution is not None and coupling.distribution.couple is not None else ""
    shares = _shares(coupling, states)
    if not shares:
        ledger.enter(Figure(key, None, case=case, facts=band))
        ledger.find(Finding(kinds.SHARE_UNKNOWN, key))
        return
    low, high = (chosen(shares, key=lambda share: share.percent) for chosen in (min, max))
    # The end that is nearer to leaving its band is the one to know; too little is the worse of the two.
    worst = low if low.percent - least <= most - high.percent else high
    inputs = (
        Input(kinds.LEAST_SHARE, low.percent, low.moment),
        Input(kinds.GREATEST_SHARE, high.percent, high.moment),
    )
    ends = tuple(Phrase(kinds.SHARE, {"share": share.percent}) for share in (low, high))
    slack = Phrase(kinds.SHARES, {"shares": ends, **band})
    value = registry.Quantity(worst.percent, "percent")
    ledger.enter(Figure(key, value, inputs, case, band, slack))
    if low.percent < least:
        ledger.find(Finding(kinds.SHARE_LOW, key, {**band, **low.facts}))
    if high.percent > most:
        ledger.find(Finding(kinds.SHARE_HIGH, key, {**band, **high.facts}))


def _shares(coupling: Coupling, states: tuple[StateLoads, ...]) -> list[_Share]:
    shares = []
    for state in states:
        load = state.vehicles[coupling.behind]
        if load.total is not None and load.total.m > 0 and load.down is not None and load.down.m > 0:
            ratio: Quantity = load.down / load.total
            shares.append(_Share(float(ratio.to("percent").m), state.state.title))
    return shares


def assess_couple_arms(profile: Profile, ledger: Ledger) -> None:
    """Enter the arm that turns two weighings, bars on and bars off, into the couple of the bars."""
    for coupling in profile.rig.couplings:
        if coupling.distribution is None:
            continue
        lengths = _lengths(profile.rig, coupling)
        of = (kinds.BALL_TO_AXLES, kinds.REAR_AXLE_TO_BALL, kinds.WHEELBASE)
        inputs = tuple(Input(kind, length) for kind, length in zip(of, lengths or (), strict=False))
        key = kinds.COUPLE_ARM.of(coupling.ahead, coupling.behind)
        arm, case = (couple_arm(*lengths), "") if lengths else (None, "unknown")
        ledger.enter(Figure(key, arm, inputs, case))


def _lengths(rig: Rig, coupling: Coupling) -> tuple[Quantity, Quantity, Quantity] | None:
    ahead, behind = supports_of(rig, coupling.ahead), supports_of(rig, coupling.behind)
    first, rear, ball, axles = ahead.first, ahead.second, behind.first, behind.second
    if coupling.at is None or first is None or rear is None or ball is None or axles is None:
        return None
    return axles - ball, coupling.at - rear, rear - first
