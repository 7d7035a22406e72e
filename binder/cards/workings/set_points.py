"""Page that works out what decides, so that a person can follow it with a pencil: the set-points first."""

from collections.abc import Iterator

from binder.assessment.assess import Assessment
from binder.assessment.tires import kinds
from binder.assessment.tires.axle import TireAxle, rolling_tire_axles
from binder.assessment.weights import kinds as weight_kinds
from binder.assessment.weights.bars import couple_and_arms
from binder.assessment.weights.loads import AxleLoad
from binder.assessment.weights.resting import Supports, supports_of
from binder.assessment.weights.states import ticket_of
from binder.assessment.weights.terms import Worked, end_terms
from binder.cards.blocks import Block, Heading, Note, Page, Reckoning, Table
from binder.cards.rig_words import known_limit, words_of
from binder.cards.workings.of_the_trip import trip_workings
from binder.quantities import Quantity, is_quantity, registry
from binder.wording.measures import COUPLE, FILL, LOAD, PLACE, PRESSURE, PRESSURE_LIMIT, RATING, TERM
from binder.wording.numbers import BLANK
from binder.wording.sums import arm_text, plain, share_number, signed, summed
from binder.wording.words import Words, begun, style_of

_ZERO = registry.Quantity(0.0, "pound")
_INTRO = (
    "Follow the boxes downward: each is the result of its line and the start of the next. Places are behind "
    "the first axle, or left of the center line; terms to a tenth, rounded once at the end. Right: your own."
)
_MISSING = (
    weight_kinds.NO_TICKET,
    weight_kinds.TICKET_ASIDE,
    weight_kinds.AXLES_UNREAD,
    weight_kinds.SHARING_UNKNOWN,
    weight_kinds.AXLE_PLACE_UNKNOWN,
    weight_kinds.AXLE.unknown,
    weight_kinds.AXLE.unrated,
)
"""Findings that say why an axle's load is not known."""


def workings(assessment: Assessment) -> Page | None:
    """Make the page on which what decides is checked by hand; none where no axle rolls on tires."""
    axles = rolling_tire_axles(assessment.rig, assessment.states)
    tires = (block for axle in axles for block in _SetPoint(assessment, axle).blocks())
    blocks = (*tires, *trip_workings(assessment))
    return Page("workings", "Check it by hand", _INTRO, blocks) if blocks else None


class _SetPoint:
    """The working of one axle's set-point."""

    def __init__(self, assessment: Assessment, axle: TireAxle) -> None:
        self._assessment, self._axle = assessment, axle
        self._words: Words = words_of(assessment)
        self._style = style_of(assessment)
        self._lb = self._words.unit(LOAD)
        self._inch = self._words.unit(PLACE)
        self._set = assessment.known(kinds.SET_POINT.of(*axle.subject))

    def blocks(self) -> Iterator[Block]:
        """From what the axle carries to what hangs on its pressure."""
        yield Heading(f"{begun(self._axle.name)}: why {self._filled()}")
        heaviest = self._axle.heaviest
        if heaviest is None or heaviest[1].end is None:
            yield from self._stops()
        else:
            state, load = heaviest
            yield from self._carried(load, self._words.said(state.state.title))
            yield from self._tire(load.end)
            yield from self._row()
        yield from self._fill()
        yield from self._hangs()

    def _filled(self) -> str:
        pressure = self._set.quantity if self._set else None
        limit = None if self._set is None else known_limit(self._assessment, self._set.key)
        return f"{self._words.fill(pressure, limit)} {self._words.unit(FILL)}"

    def _load(self, quantity: Quantity | None) -> str:
        return self._words.text(quantity, LOAD)

    def _pressure(self, quantity: object, meaning: str = FILL) -> str:
        return self._words.text(quantity if is_quantity(quantity) else None, meaning)

    def _stops(self) -> Iterator[Block]:
        """Why no load is known, and a blank for it."""
        vehicle = self._axle.vehicle_name
        for finding in self._assessment.findings:
            if finding.kind in _MISSING and finding.about.subject in ((vehicle,), self._axle.subject):
                yield Note(f"Missing: {self._words.found(finding).text}")
        yield Reckoning("", "load on one tire, not known =", f"{BLANK} {self._lb}")

    def _carried(self, load: AxleLoad, moment: str) -> Iterator[Block]:
        worked = load.worked
        if worked is None:
            yield from self._stops_at_rating(load)
            return
        supports = supports_of(self._assessment.rig, self._axle.vehicle_name)
        if worked.terms:
            yield from self._bars(worked, supports)
            yield self._axle_table(load, worked, moment, self._share_formula(supports))
        else:
            yield Reckoning("", f"on the scale, {self._ticket()}, {moment} =", self._load(load.load))
        yield from self._end(load, worked)

    def _stops_at_rating(self, load: AxleLoad) -> Iterator[Block]:
        yield from list(self._stops())[:-1]
        rating = self._words.text(self._axle.axle.rating, RATING)
        yield Reckoning("", f"not weighed, so half of its rating, {rating} ÷ 2 =", self._load(load.end))

    def _share_formula(self, supports: Supports) -> str:
        first, second = supports.first, supports.second
        if first is None or second is None:
            return ""
        span = arm_text(second - first, self._style)
        if self._axle.axle_name == supports.first_axle:
            return f"({arm_text(second, self._style)} - place) ÷ {span}"
        place = "place" if first.m == 0 else f"(place + {arm_text(-1 * first, self._style)})"
        part = supports.group.get(self._axle.axle_name, 0.0)
        return f"{place} ÷ {span}" + ("" if part == 1 else f" × {plain(part)}")

    def _bars(self, worked: Worked, supports: Supports) -> Iterator[Block]:
        """What weight-distribution bars move onto the axle, from their couple and its arms."""
        (term,) = [term for term in worked.terms if term.part is None] or (None,)
        moved = couple_and_arms(self._assessment.rig, self._axle.vehicle_name) if term else None
        if term is None or moved is None:
            return
        couple, (to_axles, behind, wheelbase) = moved
        force = self._words.number(couple / registry.Quantity(1.0, "standard_gravity"), COUPLE)
        a, r, span = (arm_text(arm, self._style) for arm in (to_axles, behind, wheelbase))
        part = supports.group.get(self._axle.axle_name, 1.0)
        if not supports.first_axle:
            formula = f"{force} ÷ {a}"
        elif self._axle.axle_name == supports.first_axle:
            formula, part = f"{force} × ({a} + {r}) ÷ ({a} × {span})", 1.0
        else:
            formula = f"-{force} × ({a} + {span} + {r}) ÷ ({a} × {span})"
        shared = "" if part == 1 else f" × {plain(part)}"
        yield Note(
            f"Weight-distribution bars = {formula}{shared}; {force} {self._lb}·{self._inch} is their couple, "
            f"{a} {self._inch} from ball to trailer axles, {r} {self._inch} from rear axle to ball, "
            f"{span} {self._inch} the wheelbase."
        )

    def _ticket(self) -> str:
        ticket = ticket_of(self._assessment.rig, self._axle.vehicle_name)
        return f"ticket of {ticket.on.isoformat()}" if ticket else "ticket"

    def _axle_table(self, load: AxleLoad, worked: Worked, moment: str, formula: str) -> Block:
        pounds = [registry.Quantity(term.load.most, "pound") for term in worked.terms]
        weighed, *added = summed([worked.weighed, *pounds], LOAD, self._style)
        rows = [("on the scale", "", "", "", weighed, BLANK)]
        for term, pound in zip(worked.terms, added, strict=True):
            weight, place, share = "-", "-", "-"
            if term.part:
                weight = signed(self._words.number(term.part.weight, TERM))
                place, share = arm_text(term.part.at, self._style), share_number(term.part.share)
            rows.append((self._words.said(term.what), weight, place, share, signed(pound), BLANK))
        rating, total, number = self._axle.axle.rating, load.load, self._words.number
        rows.append(("sum, rounded up", "", "", "", number(total, LOAD), BLANK))
        if rating is not None and total is not None:
            left = number(rating - total, RATING)
            rows.append((f"left of its rating {number(rating, RATING)}", "", "", "", left, BLANK))
        headers = (
            self._ticket(),
            f"weight, {self._lb}",
            f"place, {self._inch}",
            f"share = {formula}",
            f"on this axle, {self._lb}",
            "yours",
        )
        return Table(headers, tuple(rows), small=True, caption=f"What it carries: {moment}")

    def _end(self, load: AxleLoad, worked: Worked) -> Iterator[Block]:
        """The heavier end: by the ratio weighed, or by what lies left and right of the center line."""
        side, allowance = worked.end.side, load.rule.facts.get("allowance")
        start, other = worked.ends if side != "right" else reversed(worked.ends)
        if is_quantity(allowance):
            yield self._assumed(worked, allowance, start if worked.terms else load.end)
        if not worked.terms:
            if not is_quantity(allowance):
                yield Reckoning("", f"{self._end_name(load)} on the scale =", self._load(load.end))
        elif worked.end.rule == "ratio kept":
            yield self._by_ratio(load, worked, start, other)
        else:
            yield from self._end_table(load, worked, start)

    def _by_ratio(self, load: AxleLoad, worked: Worked, start: Quantity, other: Quantity) -> Block:
        changed = sum((one.load for one in worked.on_end), start=_ZERO)
        own, more, rest = summed(
            [start, changed, other], LOAD, self._style, lambda v: v[0] + v[1] * v[0] / (v[0] + v[2])
        )
        changes = f"its part of the changes {more} {self._lb} × {own} ÷ ({own} + {rest})"
        text = f"{self._end_name(load)} on the scale {own} {self._lb} + {changes} ="
        return Reckoning("", text, self._load(load.end))

    def _end_name(self, load: AxleLoad) -> str:
        return self._words.said(self._axle.end_of(load))

    def _assumed(self, worked: Worked, allowance: Quantity, end: Quantity | None) -> Block:
        factor = plain(1 + float(allowance.to("").m))
        weighed, start = summed([worked.weighed], LOAD, self._style)[0], self._words.text(end, TERM)
        result = start if worked.terms else self._load(end)
        return Reckoning(
            f"{weighed} {self._lb}", f"÷ 2 × {factor}, assumed, for its ends were not weighed =", result
        )

    def _end_table(self, load: AxleLoad, worked: Worked, start: Quantity) -> Iterator[Block]:
        found = tuple(end_terms(worked, self._axle.axle.track))
        name, sign = self._end_name(load), "-" if worked.end.side == "right" else "+"
        track = arm_text(self._axle.axle.track, self._style)
        first, *added = summed([start, *(one.load * one.share for one in found)], LOAD, self._style)
        rows = [("from above" if load.weighed == "axle" else "on the scale", "", "", "", first, BLANK)]
        for one, pound in zip(found, added, strict=True):
            place = "not known" if one.left is None else arm_text(one.left, self._style)
            on_axle = signed(self._words.number(one.load, TERM))
            share = share_number(one.share)
            rows.append((self._words.said(one.term.what), on_axle, place, share, signed(pound), BLANK))
        rows.append(("sum, rounded up", "", "", "", self._words.number(load.end, LOAD), BLANK))
        headers = (
            name,
            f"on this axle, {self._lb}",
            f"left of center, {self._inch}",
            f"share = 0.5 {sign} left ÷ {track}",
            f"on the end, {self._lb}",
            "yours",
        )
        yield Table(headers, tuple(rows), small=True, caption=f"Its {name}")

    def _tire(self, end: Quantity | None) -> Iterator[Block]:
        count = self._axle.axle.tires_each_end
        tires = "1 tire" if count == 1 else f"{count} tires"
        yield Reckoning(self._load(end), f"÷ {tires} =", self._load(self._axle.load_per_tire))

    def _row(self) -> Iterator[Block]:
        """The first row that carries it beside the one that does not."""
        figure = self._assessment.known(kinds.ROW_PRESSURE.of(*self._axle.subject))
        load, rows = self._axle.load_per_tire, []
        for kind in (kinds.ROW_BELOW, kinds.ROW_CHOSEN):
            given = figure.given(kind) if figure else None
            held = given.facts["load"] if given else None
            if given is None or load is None or not is_quantity(held) or not is_quantity(given.value):
                continue
            room: Quantity = held - load
            told = (
                f"{self._words.text(-1 * room, LOAD)} too little"
                if room.m < 0
                else f"{self._words.text(room, RATING)} to spare"
            )
            pressure = self._words.number(given.value, PRESSURE)
            rows.append(
                (f"{pressure} {self._words.unit(FILL)}", self._words.number(held, RATING), told, BLANK)
            )
        if rows:
            headers = ("cold", f"one tire carries, {self._lb}", "against its load", "yours")
            caption = "First row of the tire maker's table that carries it"
            yield Table(headers, tuple(rows), small=True, caption=caption)
        else:
            row = figure.quantity if figure else None
            known = "" if row is None else f"Row {self._pressure(row)}: "
            yield Note(f"{known}{self._words.rule(figure)}")

    def _fill(self) -> Iterator[Block]:
        figure, subject = self._set, self._axle.subject
        if figure is None:
            return
        row, label, margin, cap = (
            given.value if (given := figure.given(kind)) else None
            for kind in (kinds.ROW_INPUT, kinds.LABEL_INPUT, kinds.MARGIN, kinds.CAP_INPUT)
        )
        told = self._assessment.known(kinds.LABEL_PRESSURE.of(*subject))
        binds = told is not None and told.facts["binds"] == kinds.BINDS
        limits = self._words.told(self._assessment.ledger.figure(kinds.CAP.of(*subject))).inputs
        why = f"Label {self._pressure(label)}: {self._words.rule(told)} " if told else ""
        yield Note(f"{why}Cap, the least of {'; '.join(f'{one.name} {one.text}' for one in limits)}.")
        start, steps = "", list[str]()
        if figure.quantity is None or figure.case == "assumed over cap":
            yield Note(self._words.rule(figure))
        elif is_quantity(row) and is_quantity(margin):
            start = self._pressure(row)
            steps.append(f"+ {self._pressure(margin)} margin")
            steps += [f"or {self._pressure(label)} of the label if that is more"] if binds else []
        elif binds:
            start = self._pressure(label)
            steps.append("of the label")
        steps.append(f"at most the cap {self._pressure(cap, PRESSURE_LIMIT)} =")
        yield Reckoning(start, ", ".join(steps), self._filled())

    def _hangs(self) -> Iterator[Block]:
        figure, subject = self._set, self._axle.subject
        if figure is None or figure.quantity is None:
            return
        flat, alarm = (
            self._assessment.known(kind.of(*subject)) for kind in (kinds.RUN_FLAT_BELOW, kinds.LOW_ALARM)
        )
        yield Reckoning(self._filled(), "× 0.8, run flat at or under =", self._words.value(flat))
        row = figure.given(kinds.ROW_INPUT)
        larger = f", or the row {self._pressure(row.value)}" if row and is_quantity(row.value) else ""
        yield Reckoning(self._filled(), f"× 0.85{larger}, low alarm =", self._words.value(alarm))
