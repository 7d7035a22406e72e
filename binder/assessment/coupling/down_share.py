"""What share of a loaded trailer stands on its coupling, against the band in which trailers follow well."""

from collections.abc import Iterator

from binder.assessment.coupling.loads import coupling_key
from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.weights.loads import StateLoads
from binder.assessment.weights.supports import CARRYING
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.quantities import Quantity, registry

BANDS = {"ball": (10, 15), "fifth wheel": (15, 25), "gooseneck": (15, 25)}
"""Percent of the loaded trailer (practice, from memory; the trailer's manual overrides)."""

_MANUAL = "The band is common practice, from memory: the trailer's manual overrides it."
BARS_ON = "Loads are with the spring bars on, as the receiver's distributing rating is."


def assess_down_share(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter the share of each trailer that stands on its coupling, and find what is outside its band."""
    for coupling in profile.rig.couplings:
        # A dolly is no trailer: how far its axle stands from what it carries is its maker's matter.
        if coupling.how in CARRYING and profile.rig.vehicles[coupling.behind].kind != "dolly":
            _assess(coupling, states, ledger)


def _assess(coupling: Coupling, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    key = f"{coupling_key(coupling)}.down_share"
    least, most = BANDS[coupling.how]
    shares = _shares(coupling, states)
    low = min(shares, key=lambda pair: pair[0], default=None)
    high = max(shares, key=lambda pair: pair[0], default=None)
    bars = coupling.distribution is not None and coupling.distribution.couple is not None
    # The end that is nearer to leaving its band is the one to know; too little is the worse of the two.
    worst = low if low is None or high is None or low[0] - least <= most - high[0] else high
    ledger.add(
        Figure(
            key,
            None if worst is None else registry.Quantity(worst[0], "percent"),
            "calculated",
            f"Load on the coupling as a share of the loaded trailer, in the state nearest to leaving {least} "
            f"to {most} %; more sways less and presses more.",
            "statics; practice",
            tuple(_inputs(low, high)),
            (_MANUAL, *([BARS_ON] if bars else [])),
            _slack(low, high, (least, most)),
        )
    )
    for finding in _findings(coupling, low, high):
        ledger.find(finding)


_Share = tuple[float, str]
"""Percent, and the title of the state."""


def _shares(coupling: Coupling, states: tuple[StateLoads, ...]) -> list[_Share]:
    shares = []
    for state in states:
        load = state.vehicles[coupling.behind]
        if load.total is not None and load.total.m > 0 and load.down is not None and load.down.m > 0:
            ratio: Quantity = load.down / load.total
            shares.append((float(ratio.to("percent").m), state.state.title))
    return shares


def _inputs(low: _Share | None, high: _Share | None) -> Iterator[Input]:
    for name, share in (("least share", low), ("greatest share", high)):
        if share is not None:
            yield Input(name, f"{share[0]:.1f} %", share[1])


def _slack(low: _Share | None, high: _Share | None, band: tuple[int, int]) -> str:
    if low is None or high is None:
        return ""
    first, last = f"{low[0]:.1f}", f"{high[0]:.1f}"
    return f"{first if first == last else f'{first} to {last}'} %; usual {band[0]} to {band[1]} %"


def _findings(coupling: Coupling, low: _Share | None, high: _Share | None) -> Iterator[Finding]:
    key = f"{coupling_key(coupling)}.down_share"
    name, (least, most) = f"{coupling.ahead} to {coupling.behind}", BANDS[coupling.how]
    if low is None or high is None:
        text = f"{name}: the share of the trailer on the coupling is not known"
        helps = f"weigh the {coupling.behind} and what it presses on its coupling"
        yield Finding("missing", 4, key, text, helps)
        return
    if low[0] < least:
        text = f"{name}: {low[0]:.1f} % of the trailer on the coupling, under the usual {least} % ({low[1]})"
        helps = "move weight ahead of the axles: too little lets a trailer sway; its manual overrides"
        yield Finding("attention", 4, key, text, helps)
    if high[0] > most:
        text = f"{name}: {high[0]:.1f} % of the trailer on the coupling, over the usual {most} % ({high[1]})"
        helps = "move weight behind the axles, within every rating; its manual overrides"
        yield Finding("attention", 4, key, text, helps)
