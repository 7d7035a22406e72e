"""The page of workings, redone with a pencil: from its printed numbers alone, in plain arithmetic."""

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import takewhile
from math import ceil, floor

from binder.cards.blocks import Block, Heading, Note, Page, Reckoning, Table

_NUMBER = re.compile(r"(?<![\w.])[-+]?\d[\d,]*(?:\.\d+)?")
_TOKENS = re.compile(r"\d[\d,]*(?:\.\d+)?|[-+×÷()]|\bplace\b|\bleft\b")
_NOISE = 1e-6
_STEPS = {"kPa": 5.0}
_INTO_KILOWATT = {"lb": 1000 / (0.45359237 * 9.80665 * 0.44704), "kg": 3600 / 9.80665}
"""Pounds times miles an hour, and kilograms times kilometers an hour, for a kilowatt."""


def plain(text: str) -> float:
    """The one number of a printed cell."""
    (found,) = _NUMBER.findall(text)
    return float(found.replace(",", ""))


def last_digit(text: str) -> float:
    """By how much a printed number may be off: half its last digit."""
    return float(0.5 * 10.0 ** -len(text.partition(".")[2]))


def arithmetic(text: str, **names: float) -> float:
    """Value of a printed formula; words in it are left out, but for names that stand for a number."""
    tokens = [token for token in _TOKENS.findall(text) if token in names or not token.isalpha()]
    written = "".join(f" {token.replace(',', '')} " for token in tokens)
    value: float = eval(  # noqa: S307 - only digits, signs and the word "place" are left.
        written.replace("×", "*").replace("÷", "/"), {"__builtins__": {}}, names
    )
    return value


def rounded_up(value: float, step: float) -> float:
    """Up to a step."""
    return ceil(value / step - _NOISE) * step


@dataclass
class Working:
    """What was found of one working: its boxes in order, formulas, and every string that was redone."""

    title: str
    boxes: list[str] = field(default_factory=list)
    formulas: dict[str, str] = field(default_factory=dict)
    on_axle: dict[str, str] = field(default_factory=dict)
    redone: set[str] = field(default_factory=set)
    numbers: set[float] = field(default_factory=set)

    def see(self, *texts: str) -> None:
        """Keep the numbers that are printed so far."""
        found = [number for text in texts for number in _NUMBER.findall(text)]
        self.numbers |= {float(number.replace(",", "")) for number in found}

    def note(self, text: str) -> None:
        """Keep a formula."""
        name, is_formula, formula = text.partition(" = ")
        if is_formula:
            self.formulas[name] = formula.partition(";")[0]
            self.redone.add(text)
        signed = re.match(r"(\d+) % on the sign is (\S+) along the road; (\S+) turns (lb|kg) times", text)
        if signed:
            slope = plain(signed[1]) / 100
            assert abs(slope / (1 + slope**2) ** 0.5 - plain(signed[2])) <= last_digit(signed[2]) + _NOISE
            assert abs(_INTO_KILOWATT[signed[4]] - plain(signed[3])) <= last_digit(signed[3]) + _NOISE
            self.redone.add(text)

    def table(self, table: Table) -> None:
        """Redo each row of a table of terms, and its sum."""
        if not any(header.startswith("share = ") for header in table.headers):
            return self.others(table)
        is_end = "left of center" in table.headers[2]
        rows = list(table.rows)
        if rows[-1][0].startswith("left of its rating "):
            assert plain(rows[-1][0]) - plain(rows[-2][4]) == plain(rows[-1][4])
            self.redone |= {rows[-1][0], rows.pop()[4]}
        for what, given, place, share, term, _ in rows[1:-1]:
            if share == "-":
                assert abs(arithmetic(self.formulas[what[:1].upper() + what[1:]]) - plain(term)) < 0.5
            elif place == "not known":
                assert plain(share) in {0.0, 1.0}
            else:
                redone = arithmetic(table.headers[3], place=plain(place), left=plain(place))
                assert abs(redone - plain(share)) < 0.002, (what, place)
            if share != "-":
                off = abs(plain(share)) * last_digit(given) + abs(plain(given)) * last_digit(share)
                assert abs(plain(given) * plain(share) - plain(term)) <= off + last_digit(term) + _NOISE, what
            if is_end:
                assert abs(plain(given) - plain(self.on_axle[what])) <= last_digit(self.on_axle[what]) * 2.1
            else:
                self.on_axle[what] = term
            self.redone |= {share, term, *([given] if is_end else [])}
        first, *terms, total = [row[4] for row in rows]
        assert rounded_up(plain(first) + sum(map(plain, terms)), 1.0) == plain(total), table.caption
        self.redone |= {first, total, table.headers[3]}
        self.boxes.append(total)
        return None

    def others(self, table: Table) -> None:
        """Redo a table whose rows stand alone: of a load table, of the parts of a coupling, of what lasts."""
        if table.headers[1].startswith("one tire carries"):
            self.rows(table)
        elif table.headers[0] == "part":
            self.boxes.append(str(min(plain(row[1]) for row in table.rows if "__" not in row[1])))
        else:
            for _, there, a_day, lasts, _ in table.rows:
                if there != "-" and plain(a_day):
                    assert floor(plain(there) / plain(a_day) * 10 + _NOISE) / 10 == plain(lasts)
                    self.redone |= {there, a_day}
            self.boxes.append(str(min(plain(row[3]) for row in table.rows if _NUMBER.search(row[3]))))

    def rows(self, table: Table) -> None:
        """Redo what a row of a load table is short of, or leaves: the last carries it, the one before not."""
        load = plain(self.boxes[-1])
        for _, carries, told, _ in table.rows:
            short = load - plain(carries)
            assert plain(told) == abs(short), told
            assert told.endswith("too little" if short > 0 else "to spare")
            self.redone.add(told)
        assert "spare" in table.rows[-1][2]
        self.boxes.append(table.rows[-1][0])

    def reckoning(self, block: Reckoning) -> None:
        """Redo one line: what it starts from leads on from above, and its result follows."""
        clauses = block.text.removesuffix(" =").split(", ")
        if block.result.startswith("__") or "not known" in block.text:
            return
        assert not block.start or plain(block.start) in self.numbers, f"nothing above leads to {block.start}"
        if clauses[0] == "held more finely":
            finer = plain(clauses[1].partition(" ÷ ")[0])
            assert any(0 <= number - finer < 1 for number in self.numbers), f"nothing above is {finer}"
            clauses = clauses[1:]
        self.see(block.text, block.result)
        if clauses[0] == "the least":
            assert plain(block.result) == float(self.boxes[-1])
        elif block.start or _NUMBER.search(clauses[0]):
            value = self.value_of(block, clauses)
            unit, digits = block.result.rpartition(" ")[2], block.result.partition(".")[2]
            step = _STEPS.get(unit, 1.0)
            if digits:
                assert abs(value - plain(block.result)) <= 0.1 + _NOISE, block
            elif unit in {"mi", "km"} or "posted" in block.text:
                assert -rounded_up(-value, step) == plain(block.result), block
            else:
                assert rounded_up(value, step) == plain(block.result), block
            self.redone |= {block.start, block.text, block.result}
        self.boxes.append(block.result)

    @staticmethod
    def value_of(block: Reckoning, clauses: list[str]) -> float:
        """What the clauses of a line come to, one after the other."""
        is_done = re.search(r"[+×÷]|- ", clauses[0])
        value = arithmetic(f"{block.start} {clauses[0]}") if is_done else plain(block.start)
        for clause in clauses:
            if clause.startswith("or "):
                value = max(value, plain(clause))
            elif clause.startswith("at most the cap") and "__" not in clause:
                value = min(value, plain(clause))
            elif clause.startswith("× ") and clause is not clauses[0]:
                value *= plain(clause)
        return value


def workings_of(page: Page) -> Iterator[Working]:
    """Each working of the page, redone; what does not follow is an assertion that fails."""
    blocks = list(page.blocks)
    for at, block in enumerate(blocks):
        if isinstance(block, Heading):
            yield _worked(block.text, takewhile(lambda one: not isinstance(one, Heading), blocks[at + 1 :]))


def _worked(title: str, blocks: Iterator[Block]) -> Working:
    found = Working(title)
    for block in blocks:
        if isinstance(block, Note):
            found.note(block.text)
            found.see(block.text)
        elif isinstance(block, Table):
            found.table(block)
            found.see(*(cell for row in block.rows for cell in row))
        elif isinstance(block, Reckoning):
            found.reckoning(block)
    return found
