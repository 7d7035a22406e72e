"""Page "Supplies along the trip": what each tank holds at each stop, and how far it goes."""

from collections.abc import Iterator
from dataclasses import dataclass

from binder.assessment.assess import Assessment
from binder.assessment.ledger import Figure, FigureKind, Subject
from binder.assessment.route.days import trip_days
from binder.assessment.supplies import kinds
from binder.assessment.supplies.kinds import MOVED, OF_THE_TANK, AtMoments
from binder.assessment.supplies.rate_kinds import OF_THE_LOG, PLANNED, PLANNED_SHARE, SHARE, USE
from binder.cards.blocks import Block, Heading, Note, Page, Picture, small_table
from binder.cards.drawings import TankStrip, TankStrips
from binder.cards.rig_words import reason_of, words_of
from binder.quantities import is_quantity
from binder.wording.measures import LEAST_VOLUME, NEEDED_VOLUME
from binder.wording.numbers import BLANK
from binder.wording.record import origin_words
from binder.wording.sums import moves_told
from binder.wording.words import Words, procedure_constant, procedure_number, town

_FIXED = (
    ("exhaust fluid freezes", "freezes at"),
    ("exhaust fluid air", "air to leave in its tank below that"),
    ("exhaust fluid carried", "commonly carried"),
)
_DISTANCES = (
    (kinds.FLUID_RANGE, "range, from full to the reserve"),
    (kinds.CONTAINER_WORTH, "the carried container is worth"),
)
_WRONG = (
    "Blue cap. Wrong fluid in either tank: do not turn the key; have it drained. Keep a clean funnel and "
    "container for it alone: a little fuel or dust spoils it."
)


def exhaust_fluid_tank(assessment: Assessment) -> Subject | None:
    """Find the tank that the figures of the exhaust fluid are of: its vehicle and its name."""
    figure = next(assessment.ledger.of_kind(kinds.CONTAINER_WORTH), None)
    return figure.key.subject if figure else None


def exhaust_fluid(assessment: Assessment) -> Page | None:
    """Make the page of what the exhaust fluid's numbers rest on."""
    tank, words = exhaust_fluid_tank(assessment), words_of(assessment)
    if tank is None:
        return None
    rows = [
        (name, text, _why(figure, words))
        for name, text, figure in _rows(assessment, tank, words)
        if figure is not None
    ]
    for name, told in _FIXED:
        constant = procedure_constant(name)
        why = f"{constant.reason} {origin_words(constant.source)}."
        rows.append((told, procedure_number(name, words.style), why))
    blocks = small_table("", ("exhaust fluid", "", "why"), rows, _WRONG)
    return Page("exhaust_fluid", "Exhaust fluid", "", tuple(blocks))


def _rows(assessment: Assessment, tank: Subject, words: Words) -> Iterator[tuple[str, str, Figure | None]]:
    def own(kind: FigureKind) -> Figure | None:
        return assessment.known(kind.of(*tank))

    low, high = (assessment.quantity(kind.of(*tank)) for kind in (kinds.USE_LOW, kinds.USE_HIGH))
    most = words.text(high, kinds.USE_HIGH.measure)
    band = most if low == high else f"{words.text(low, LEAST_VOLUME)} to {most}"
    yield "used on this trip", band, own(kinds.USE_HIGH)
    for kind, name in _DISTANCES:
        yield name, words.text(assessment.quantity(kind.of(*tank)), kind.measure), own(kind)
    yield "topped up", words.value(own(kinds.TOP_UP)), own(kinds.TOP_UP)
    life, ends = own(kinds.SHELF_LIFE), own(kinds.SHELF_LIFE_ENDS)
    yield "keeps, stored that warm", words.value(life, f"{BLANK} months"), life
    yield "the container's date", words.value(ends), ends


def _why(figure: Figure, words: Words) -> str:
    reason = reason_of("", words.told(figure))
    return f"{reason.text} {reason.source}."


def logged_rate(assessment: Assessment, tank: Subject) -> Figure | None:
    """Find the rate of a tank that is the log's in place of the plan's."""
    rates = (assessment.known(kind.of(*tank)) for kind in (USE, SHARE))
    return next((one for one in rates if one and one.case in OF_THE_LOG), None)


_NAME = "supplies_along_trip"
_INTRO = (
    "What is to be expected with the plan's own figures: levels down, waste up to the next whole unit. The "
    "gauge and the log are the better judges; where they differ from this page, plan the next fill by them. "
    "Range: down to the reserve."
)
_ORDER = ("diesel", "gasoline", "exhaust fluid", "fresh water", "gray water", "black water", "propane")
_ENDS = ("arriving", "leaving")
_MAY_SPILL = (
    "A waste tank is over full at the mean use, where the table below says spilled: dump before it, or use "
    "no water until the tank is dumped."
)


@dataclass(frozen=True)
class _Store:
    """A tank or the house battery as a column: whose it is, its name, what it holds, and its levels."""

    subject: tuple[str, str]
    words: str
    holds: str
    level: AtMoments

    @property
    def is_waste(self) -> bool:
        return self.holds in kinds.WASTE


@dataclass(frozen=True)
class _Moment:
    """Reaching or leaving a stop, 0 where the day starts, and the words of a row."""

    day: int
    stop: int
    end: str
    words: str


def supplies_along_trip(assessment: Assessment) -> Page | None:
    """Make the page of supplies along the trip."""
    stores = _stores(assessment)
    moments = _moments(assessment, stores)
    if not stores or not moments:
        return None
    blocks = (
        *_rates(assessment, stores),
        *_chart(assessment, stores, moments),
        *_levels(assessment, stores, moments),
        *_short(assessment),
        *_moved(assessment, stores, moments),
    )
    return Page(_NAME, "Supplies along the trip", _INTRO, tuple(blocks))


def _rates(assessment: Assessment, stores: tuple[_Store, ...]) -> Iterator[Block]:
    """Say which rates are the log's in place of the plan's."""
    words, told = words_of(assessment), []
    for store in stores:
        if rate := logged_rate(assessment, store.subject):
            planned = words.given(rate, PLANNED) or words.given(rate, PLANNED_SHARE)
            instead = f", where the plan says {planned.text}" if planned and rate.case != "alone" else ""
            told.append(f"{store.words} {words.value(rate)}, {words.slack(rate)}{instead}")
    if told:
        yield Note(f"By the log: {'; '.join(told)}.")


def _stores(assessment: Assessment) -> tuple[_Store, ...]:
    found: list[tuple[int, _Store]] = []
    for vehicle, entry in assessment.rig.vehicles.items():
        for words, tank in entry.tanks.items():
            store = _Store((vehicle, words), words, tank.holds, kinds.level_of(tank.holds))
            if assessment.ledger.known(_extreme(store).of(*store.subject)):
                found.append((_ORDER.index(tank.holds), store))
    ordered = [store for _, store in sorted(found, key=lambda pair: pair[0])]
    batteries = [
        _Store((str(vehicle), str(bank)), "battery", "charge", kinds.CHARGE)
        for (vehicle, bank, *moment) in assessment.ledger.by_kind.get(kinds.CHARGE.at_stop, ())
        if moment == [1, 1, "arriving"]
    ]
    return (*ordered, *batteries)


def _extreme(store: _Store) -> FigureKind:
    return kinds.HIGHEST if store.is_waste else kinds.LOWEST


def _moments(assessment: Assessment, stores: tuple[_Store, ...]) -> tuple[_Moment, ...]:
    moments = []
    for day in trip_days(assessment.profile):
        if day.start:
            start = _Moment(day.number, 0, "", f"leaving {town(day.start.place)}")
            moments += [start] if any(_level_of(assessment, store, start) for store in stores) else []
        for number, leg, _ in day.legs():
            for end, words in zip(_ENDS, ("reaching", "leaving"), strict=True):
                moments.append(_Moment(day.number, number, end, f"{words} {town(leg.to.place)}"))
    return tuple(moments)


def _level_of(assessment: Assessment, store: _Store, moment: _Moment) -> Figure | None:
    return assessment.known(store.level.of(store.subject, moment.day, moment.stop, moment.end))


def _levels(
    assessment: Assessment, stores: tuple[_Store, ...], moments: tuple[_Moment, ...]
) -> Iterator[Block]:
    words = words_of(assessment)
    has_range = _range_left(assessment, stores[0], moments[-1]) is not None
    over = (f"range, {words.unit(kinds.RANGE_LEFT.at_stop.measure)}",) if has_range else ()
    named = (f"{store.words}, {words.unit(store.level.at_stop.measure)}" for store in stores)
    headers = ("expected", *named, *over)
    rows: list[tuple[str, ...]] = []
    day = 0
    for moment in moments:
        if moment.day != day:
            day = moment.day
            rows.append((_day_row(assessment, day), *("" for _ in headers[1:])))
        cells = [_cell(_level_of(assessment, store, moment), words) for store in stores]
        if has_range:
            cells.append(_range(_range_left(assessment, stores[0], moment), words))
        rows.append((moment.words, *cells))
    yield from small_table("Levels, and share of the full tank", headers, rows)


def _day_row(assessment: Assessment, day: int) -> str:
    nights = assessment.known(kinds.NIGHTS.of(day))
    return f"Day {day}, nights {words_of(assessment).value(nights)}" if nights else f"Day {day}"


def _cell(level: Figure | None, words: Words) -> str:
    share = words.given(level, OF_THE_TANK)
    return f"{words.bare(level)} · {share.text}" if share else words.bare(level)


def _range_left(assessment: Assessment, store: _Store, moment: _Moment) -> Figure | None:
    return assessment.known(kinds.RANGE_LEFT.of(store.subject, moment.day, moment.stop, moment.end))


def _range(figure: Figure | None, words: Words) -> str:
    left = figure.quantity if figure else None
    if left is None:
        return BLANK if figure else ""
    return "UNDER RESERVE" if left.m < 0 else words.bare(figure)


def _short(assessment: Assessment) -> Iterator[Block]:
    """Say in words where a reserve is crossed, a tank spills or ends."""
    found = [one for one in assessment.findings if one.kind.card == _NAME]
    words = words_of(assessment)
    bad = [words.found(one) for one in found if one.grade == "attention"]
    missing = [words.found(one) for one in found if one.grade == "missing"]
    if bad:
        yield Heading("Past a reserve, empty, over full or not as stated")
    yield from (Note(f"{one.text} {one.helps}") for one in bad)
    if missing:
        yield Note("Not judged, since not known: " + " ".join(one.text for one in missing))
    if _spills(assessment):
        yield Note(_MAY_SPILL)
    elif not bad and not missing:
        yield Note("As planned no leg crosses a reserve, nothing ends before it is filled, nothing spills.")


def _spills(assessment: Assessment) -> bool:
    """Tell whether a tank spills anywhere, also where the plan states a level and no fault is found."""
    return any(figure.given(MOVED["spilled"]) for figure in assessment.ledger.entered)


def _moved(
    assessment: Assessment, stores: tuple[_Store, ...], moments: tuple[_Moment, ...]
) -> Iterator[Block]:
    rows = []
    for before, moment in zip((None, *moments), moments, strict=False):
        amounts = [(store, _amounts(assessment, store, before, moment)) for store in stores]
        told = {what: ", ".join(f"{s.words} {of[what]}" for s, of in amounts if what in of) for what in MOVED}
        if any(told.values()):
            done = [f"{what} {told[what]}" for what in MOVED if what != "used" and told[what]]
            rows.append((f"Day {moment.day}, {moment.words}", "; ".join(done), told["used"]))
    headers = ("since the moment before", "filled, dumped, spilled", "used")
    yield from small_table("Filled, dumped and used", headers, rows)


def _amounts(
    assessment: Assessment, store: _Store, before: _Moment | None, moment: _Moment
) -> dict[str, str]:
    """What moved in or out of a tank: what is told of it leads from one printed level to the next."""
    words, level = words_of(assessment), _level_of(assessment, store, moment)
    given = {what: one for what, kind in MOVED.items() if (one := level.given(kind) if level else None)}
    # What flows into a waste tank is the water used, told there.
    kept = {what: one for what, one in given.items() if not (store.is_waste and what == "filled")}
    last = _level_of(assessment, store, before) if before else None
    known = {what: one.value for what, one in kept.items() if is_quantity(one.value)}
    if store.is_waste or last is None or last.quantity is None or level is None or level.quantity is None:
        return {what: words.text(value, NEEDED_VOLUME) for what, value in known.items()}
    measure = level.kind.measure
    return moves_told(last.quantity, level.quantity, known, measure, words.style)


def _chart(
    assessment: Assessment, stores: tuple[_Store, ...], moments: tuple[_Moment, ...]
) -> Iterator[Block]:
    rows = tuple(_strip(assessment, store, moments) for store in stores)
    days = tuple(
        (number, f"day {moment.day}")
        for number, moment in enumerate(moments)
        if number == 0 or moments[number - 1].day != moment.day
    )
    told = "; ".join(f"{row.name}: {row.words}" for row in rows)
    yield Picture(TankStrips(rows, days, f"Each tank's share along the trip. {told}."))
    if any(row.reserve is not None for row in rows):
        yield Note("Each strip from empty to full; its stops stand at equal distances. Dashed: the reserve.")


def _strip(assessment: Assessment, store: _Store, moments: tuple[_Moment, ...]) -> TankStrip:
    levels = [_level_of(assessment, store, moment) for moment in moments]
    shares = tuple(_share(figure) for figure in levels)
    words, reserve = "", None
    if store.holds != "charge":
        amount = words_of(assessment).value(assessment.known(_extreme(store).of(*store.subject)), "")
        reserve = _share(assessment.known(kinds.RESERVE.of(*store.subject)))
        words = f"{'most' if store.is_waste else 'least'} {amount}" if amount else ""
    return TankStrip(store.words, shares, reserve, words)


def _share(figure: Figure | None) -> float | None:
    """Share of the full tank, to the percent."""
    share = figure.given(OF_THE_TANK) if figure else None
    return min(round(share.value * 100) / 100, 1.0) if share and isinstance(share.value, float) else None
