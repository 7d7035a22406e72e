"""Which fuel use and which share of exhaust fluid the trip is planned with: the plan's, or the log's.

The log's is taken where it is worse, or at least 5 % better over three intervals: gone through from the first
fill on and in steps, so that a fill seldom changes a card.
"""

from collections import Counter
from collections.abc import Callable, Iterator
from typing import Literal, NamedTuple, TypeAlias

from binder.assessment.ledger import Fact, Figure, Input, Key, Ledger, Phrase
from binder.assessment.supplies import rate_kinds
from binder.assessment.supplies.fills import Fills, Interval, fills_of
from binder.assessment.supplies.tanks import SupplyTank, SupplyTanks, SupplyUses, fuel_use
from binder.calculations.bounds import Band, is_same
from binder.models.load import Profile
from binder.models.log_entries import Entry
from binder.models.trip import Use
from binder.quantities import Quantity, number_in, registry

_LATEST = 6
"""Intervals that are taken together (practice)."""
_BETTER = 1.05
_FUEL_SPAN = (1 / 40.0, 1 / 3.0)
_SHARE_SPAN = (0.005, 0.1)
"""Gallons a mile that an engine can take, and the share of exhaust fluid (practice)."""

Entries: TypeAlias = tuple[Entry, ...]
Why: TypeAlias = Literal["plan", "worse", "better", "alone", ""]


class Rate(NamedTuple):
    """A rate as it is used, why, what was planned, and the intervals it rests on.

    ``of`` is what the gallons a mile are held against: 1 for fuel, the fuel's own use for exhaust fluid.
    """

    tank: SupplyTank
    used: float | None
    why: Why
    planned: float | None
    of: float
    fills: Fills
    rests_on: tuple[Interval, ...]

    @property
    def is_of_log(self) -> bool:
        """Whether the log's is used."""
        return self.why in rate_kinds.OF_THE_LOG

    @property
    def key(self) -> Key:
        """The key of its figure."""
        return (rate_kinds.USE if self.is_fuel else rate_kinds.SHARE).of(*self.tank.subject)

    @property
    def is_fuel(self) -> bool:
        """Whether it is the fuel's, not the exhaust fluid's."""
        return self.tank.tank.holds != "exhaust fluid"

    @property
    def told(self) -> tuple[Interval, ...]:
        """The intervals that are told of it: without a rate of the log the latest."""
        return self.rests_on or tuple(self.fills.sure[-_LATEST:])

    def value(self, number: float | None) -> Quantity | None:
        """A number of it as a quantity."""
        if number is None:
            return None
        if self.is_fuel:
            return registry.Quantity(number, "gallon / mile")
        return registry.Quantity(number * 100, "percent")


class Rates(NamedTuple):
    """What the log says of the fuel and of the exhaust fluid; None: nothing."""

    fuel: Rate | None = None
    share: Rate | None = None


def rates_of(profile: Profile, tanks: SupplyTanks) -> Rates:
    """Choose the rates of an engine with one tank of each: of several the log cannot tell which was drawn."""
    names = tanks.chains.fuel
    fills = profile.logged("fill")
    if not fills or len(names) != 1:
        return Rates()
    use = profile.trip.use if profile.trip else Use()
    planned = _number(fuel_use(use, tanks), "gallon / mile")
    fuel = _fuel_rate(fills, tanks.tanks[names[0]], planned, profile.rig.units)
    used = fuel.used if fuel else planned
    names, dosing = tanks.chains.exhaust_fluid, use.exhaust_fluid
    if len(names) != 1 or used is None:
        return Rates(fuel)
    return Rates(fuel, _share_rate(fills, tanks.tanks[names[0]], dosing.share if dosing else None, used))


def _number(quantity: Quantity | None, unit: str) -> float | None:
    return None if quantity is None or quantity.m <= 0 else number_in(quantity, unit)


def _fuel_rate(entries: Entries, tank: SupplyTank, planned: float | None, units: str) -> Rate | None:
    fills = fills_of(entries, tank, _FUEL_SPAN, planned)
    return _chosen(
        tank, fills, planned, rate_kinds.miles_in_steps if units == "us" else rate_kinds.liters_in_steps
    )


def _share_rate(entries: Entries, tank: SupplyTank, planned: float | None, fuel: float) -> Rate | None:
    span = (_SHARE_SPAN[0] * fuel, _SHARE_SPAN[1] * fuel)
    fills = fills_of(entries, tank, span, None if planned is None else planned * fuel)
    return _chosen(tank, fills, planned, rate_kinds.share_in_steps, fuel)


def _chosen(
    tank: SupplyTank,
    fills: Fills,
    planned: float | None,
    stepped: Callable[[float], float],
    of: float = 1.0,
) -> Rate | None:
    if not fills.intervals:
        return None
    used, rests_on, sure = planned, tuple[Interval, ...](), fills.sure
    for last in range(1, len(sure) + 1):
        latest = tuple(sure[max(last - _LATEST, 0) : last])
        found = sum(one.gallons for one in latest) / sum(one.ends - one.begins for one in latest) / of
        may_help = fills.is_whole and len(latest) >= rate_kinds.FEWEST
        if used is None:
            is_taken = may_help
        else:
            is_taken = found > used or (may_help and found * _BETTER <= used and stepped(found) < used)
        if is_taken:
            used, rests_on = stepped(found), latest
        elif rests_on and last in {rate_kinds.FEWEST, _LATEST}:
            # What it rests on is told anew twice, and not with each fill.
            rests_on = latest
    return Rate(tank, used, _why(used, planned), planned, of, fills, rests_on)


def _why(used: float | None, planned: float | None) -> Why:
    if used is None:
        return ""
    if planned is None:
        return "alone"
    return "plan" if is_same(used, planned) else "worse" if used > planned else "better"


def with_log(uses: SupplyUses, rates: Rates, *, is_frugal: bool) -> SupplyUses:
    """Uses with the log's rates; a frugal walk, which looks for the most weight, takes the lesser use."""

    def used(rate: Rate) -> Quantity | None:
        if is_frugal and rate.planned is not None and rate.used is not None:
            return rate.value(min(rate.planned, rate.used))
        return rate.value(rate.used)

    if rates.fuel:
        uses = uses._replace(uses=uses.uses._replace(fuel=used(rates.fuel)))
    if rates.share and rates.share.is_of_log and (share := used(rates.share)) is not None:
        uses = uses._replace(uses=uses.uses._replace(exhaust_fluid=share), dosing=Band(share, share))
    return uses


_ENTERED = 40
"""Intervals, the latest, that are told one by one."""


def enter_rates(rates: Rates, ledger: Ledger) -> None:
    """Enter the rates that the log has something to say of."""
    if rates.fuel:
        _enter(rates.fuel, ledger)
    if rates.share:
        _enter(rates.share, ledger, rates.fuel)


def _enter(rate: Rate, ledger: Ledger, fuel: Rate | None = None) -> None:
    planned, taken, spread = (
        (rate_kinds.PLANNED, rate_kinds.TAKEN, rate_kinds.SPREAD)
        if rate.is_fuel
        else (rate_kinds.PLANNED_SHARE, rate_kinds.TAKEN_OF_SHARE, rate_kinds.SPREAD_OF_SHARE)
    )
    _enter_intervals(rate, ledger)
    inputs = [Input(planned, rate.value(rate.planned))]
    if not rate.is_fuel:
        inputs.append(Input(rate_kinds.USED, registry.Quantity(rate.of, "gallon / mile"), fuel and fuel.key))
    inputs += [Input(taken, rate.value(one.use / rate.of), facts=_facts(one)) for one in rate.told]
    if len(rate.told) > 1:
        least, *_, most = (rate.value(use / rate.of) for use in sorted(one.use for one in rate.told))
        inputs.append(Input(spread, least, facts={"most": most}))
    count = sum(one.fills for one in rate.told)
    value, slack = rate.value(rate.used), Phrase(rate_kinds.FROM_FILLS[count == 1], {"count": count})
    ledger.enter(
        Figure(rate.key, value, tuple(inputs), rate.why, slack=slack, cautions=tuple(_cautions(rate)))
    )


def _enter_intervals(rate: Rate, ledger: Ledger) -> None:
    kind = rate_kinds.FULL_TO_FULL if rate.is_fuel else rate_kinds.FULL_TO_FULL_SHARE
    for number, one in enumerate(rate.fills.intervals[-_ENTERED:], 1):
        facts = _facts(one)
        inputs = (Input(rate_kinds.OVER, facts=facts), Input(rate_kinds.WENT_IN, facts=facts))
        value = rate.value(one.use / rate.of)
        ledger.enter(Figure(kind.of(*rate.tank.subject, number), value, inputs, one.doubt, facts))


def _facts(interval: Interval) -> dict[str, Fact]:
    begins, ends = (registry.Quantity(at, "mile") for at in (interval.begins, interval.ends))
    amount, at = registry.Quantity(interval.gallons, "gallon"), interval.entry.at
    return {"begins": begins, "ends": ends, "amount": amount, "on": at.date(), "at": at}


def _cautions(rate: Rate) -> Iterator[Phrase]:
    doubts = Counter(one.doubt for one in rate.fills.intervals if one.doubt)
    if doubts:
        why = tuple(Phrase(rate_kinds.DOUBTS[doubt], {"count": count}) for doubt, count in doubts.items())
        yield Phrase(rate_kinds.LEFT_OUT, {"why": why})
    if not rate.fills.is_whole:
        yield Phrase(rate_kinds.NOT_PLACED)
