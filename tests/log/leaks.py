"""How surely a leak is found: ``python -m tests.log.leaks [--seasons 1000] [--seed 13]`` simulates seasons.

A coach with single tires ahead and pairs behind, and a car, are read cold once a week for 16 weeks; what is
typed, and what is not, is below. All air added is logged, with readings of its own before and after. One tire
of each season leaks, or none does. All of it is invented; what tires lose by nature is common practice.
"""

import sys
from argparse import ArgumentParser
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from random import Random
from typing import NamedTuple

from binder.calculations.tires.gas_law import TireState
from binder.calculations.tires.leaks import ColdReading, TireLoss, pressure_losses
from binder.quantities import registry

WEEKS = 16
START = datetime(2026, 3, 1, 7, tzinfo=UTC)
MONTH = 365.25 / 12
RANKINE = 459.67
COACH = {
    "steer left": 105.0, "steer right": 105.0, "drive left outer": 95.0, "drive left inner": 95.0,
    "drive right inner": 95.0, "drive right outer": 95.0,
}  # fmt: skip
CAR = {"front left": 36.0, "front right": 36.0, "rear left": 36.0, "rear right": 36.0}
SIDES = {name: "left" if "left" in name else "right" for name in (*COACH, *CAR)}

GAUGE = 1.0
"""Standard deviation of a gauge reading, psi."""

OFFSET = 2.0
"""Standard deviation of a sensor's offset, psi, of each tire its own; a third of the seasons has sensors."""

THERMOMETER = 3.0
"""Standard deviation of the temperature typed, degF: one for all tires of a walk."""

SUN = (5.0, 20.0)
"""What the sun adds to the tires of one side, degF, on half of the mornings; half of it to an inner tire."""

SKIPPED = 0.1
"""Share of readings left out."""

NATURAL = (0.005, 0.010)
"""What sound tires lose a month, as a share of their pressure: of one vehicle alike within a tenth."""

LOW = 5.0
"""psi under the set-point, as read, at which air is added."""


class Season(NamedTuple):
    """What was read of each tire, and which one leaks."""

    readings: dict[str, list[ColdReading]]
    leaking: str


def season(chance: Random, tires: dict[str, float], leak: float, *, switched: bool = False) -> Season:
    """Simulate a season; one tire loses so many psi a month over what it would lose if it were sound.

    ``switched``: the sun is on one side all the first half and on the other all the second.
    """
    leaking = chance.choice(list(tires)) if leak else ""
    natural = chance.uniform(*NATURAL)
    by_sensor = chance.random() < 1 / 3
    offset = {name: chance.gauss(0, OFFSET) if by_sensor else 0.0 for name in tires}
    # Filled by what it is read with.
    true = {name: fill * chance.uniform(0.99, 1.01) - offset[name] for name, fill in tires.items()}
    rate = {name: fill * natural * chance.uniform(0.9, 1.1) for name, fill in tires.items()}
    level = dict.fromkeys(tires, 0)
    readings: dict[str, list[ColdReading]] = {name: [] for name in tires}
    for week in range(WEEKS):
        morning = _Morning(chance, week, switched=switched)
        for name, fill in tires.items():
            if chance.random() < SKIPPED:
                continue
            holds = true[name] - (rate[name] + (leak if name == leaking else 0.0)) * week * 7 / MONTH
            read = morning.read(holds, name, offset[name])
            readings[name].append(morning.reading(read, level[name]))
            if morning.at_reference(read) < fill - LOW:
                # Whoever fetches the hose reads again, and adds air only if it is so.
                before = morning.read(holds, name, offset[name])
                readings[name].append(morning.reading(before, level[name]))
                if (lacking := fill - morning.at_reference(before)) > LOW:
                    true[name] += lacking
                    level[name] += 1
                    after = morning.read(holds + lacking, name, offset[name])
                    readings[name].append(morning.reading(after, level[name]))
    return Season(readings, leaking)


class _Morning:
    """One walk around the rig: when, how warm, how high, what is typed of it, and where the sun is."""

    def __init__(self, chance: Random, week: int, *, switched: bool) -> None:
        self.chance = chance
        self.moment = START + timedelta(weeks=week, hours=chance.uniform(-1, 2), days=chance.randint(-1, 1))
        self.ambient = 35 + 40 * week / WEEKS + chance.gauss(0, 10)
        self.typed = round(self.ambient + chance.gauss(0, THERMOMETER))
        self.feet = chance.choice((0, 500, 2500, 4000, 6200, 8500))
        self.side = "left" if (week < WEEKS / 2 if switched else chance.random() < 0.5) else "right"
        self.sun = chance.uniform(*SUN) if switched or chance.random() < 0.5 else 0.0

    def read(self, psi: float, name: str, offset: float) -> int:
        """What is read here of a tire that holds so much at the reference."""
        warmer = self.sun * (0.5 if "inner" in name else 1.0) if SIDES[name] == self.side else 0.0
        shown = _changed(psi, 68.0, 0.0, self.ambient + warmer, self.feet)
        return round(shown + offset + self.chance.gauss(0, GAUGE))

    def at_reference(self, psi: float) -> float:
        """What a reading is at the reference, by what is typed."""
        return _changed(psi, self.typed, self.feet, 68.0, 0.0)

    def reading(self, psi: float, level: int) -> ColdReading:
        """As it is typed into the log."""
        state = TireState(registry.Quantity(self.typed, "degF"), registry.Quantity(self.feet, "foot"))
        return ColdReading(self.moment, registry.Quantity(psi, "psi"), state, str(level))


def _outside(feet: float) -> float:
    """Pressure of the standard atmosphere, psi: worked here apart from the program."""
    return float(14.696 * (1 - 6.8756e-6 * feet) ** 5.2559)


def _changed(psi: float, degrees: float, feet: float, to_degrees: float, to_feet: float) -> float:
    warmth = (to_degrees + RANKINE) / (degrees + RANKINE)
    return (psi + _outside(feet)) * warmth - _outside(to_feet)


class Rates(NamedTuple):
    """Of so many seasons: leaks found, seasons with a sound tire accused, and how far the excess was off."""

    seasons: int
    found: int
    accused: int
    sound_tires: int
    excesses: tuple[float, ...]


def rates(seed: int, seasons: int, tires: dict[str, float], leak: float, *, switched: bool = False) -> Rates:
    """Simulate seasons and count."""
    chance = Random(seed)  # noqa: S311 - a simulation.
    found = accused = sound = 0
    excesses: list[float] = []
    for _ in range(seasons):
        one = season(chance, tires, leak, switched=switched)
        losses = pressure_losses(one.readings, SIDES)
        named = {name for name, loss in losses.items() if loss.loses_more}
        found += one.leaking in named
        accused += len(named - {one.leaking})
        sound += len(tires) - bool(one.leaking)
        excesses += _excess(losses, one.leaking)
    return Rates(seasons, found, accused, sound, tuple(excesses))


def _excess(losses: dict[str, TireLoss], leaking: str) -> Iterator[float]:
    if leaking and (excess := losses[leaking].excess) is not None:
        yield float(excess.m_as("psi"))


def told(name: str, leak: float, one: Rates) -> str:
    """Say the rates of one set of seasons in a line."""
    accused = (
        f"sound tires accused {one.accused:3} of {one.sound_tires:5} ({one.accused / one.sound_tires:.2%})"
    )
    if not leak:
        return f"{name:28} no leak          {'':22} {accused}"
    share = one.found / one.seasons
    mean = sum(one.excesses) / len(one.excesses)
    leaking = f"{leak:.1f} psi a month  found {share:6.1%}, read {mean:.2f}"
    return f"{name:28} {leaking}   {accused}"


def main() -> int:
    """Simulate, print the rates, and tell whether they are what is promised."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--seasons", type=int, default=1000)
    parser.add_argument("--seed", type=int, default=13)
    given = parser.parse_args()
    kept = True
    for name, tires in (("coach, six tires", COACH), ("car, four tires", CAR)):
        for leak in (0.0, 1.0, 2.0, 3.0):
            found = rates(given.seed, given.seasons, tires, leak)
            sys.stdout.write(f"{told(name, leak, found)}\n")
            kept &= found.accused < 0.01 * found.sound_tires
            kept &= leak != 2.0 or found.found >= 0.95 * given.seasons
        found = rates(given.seed, given.seasons, tires, 0.0, switched=True)
        sys.stdout.write(f"{told(f'{name}, sun switched', 0.0, found)}\n")
    sys.stdout.write("as promised\n" if kept else "NOT as promised\n")
    return 0 if kept else 1


if __name__ == "__main__":
    sys.exit(main())
