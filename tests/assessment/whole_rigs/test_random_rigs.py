"""What holds for any rig of any kind, on what is printed; weights and moments are added up by hand.

The rigs are drawn once, the same ones every time, and looked at by every test: assessing them is what takes
its time.
"""

from dataclasses import replace
from functools import cache

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from binder.cards.blocks import ValueRow, ValueTable
from binder.cards.rig_words import axle_groups
from binder.cards.ring.tires import tires
from tests.assessment.random_rigs import KINDS, AxleMade, RigMade, Thing, VehicleMade, rigs
from tests.by_key import ByKey

DRAWN, DRAWN_TWICE = 7, 3
DEPARTURE = "departure"
STATES = ("as_weighed", DEPARTURE, "everything_full")
KPA = 6.894757293168361
NOISE = 1e-6

every_kind = pytest.mark.parametrize("kind", KINDS)


def some(number: int) -> settings:
    slow = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.large_base_example]
    phases = [Phase.generate]
    return settings(
        max_examples=number,
        deadline=None,
        derandomize=True,
        database=None,
        phases=phases,
        suppress_health_check=slow,
    )


@cache
def drawn(kind: str) -> tuple[tuple[RigMade, ByKey], ...]:
    """Rigs of a kind, with everything at a place in every other one of them."""
    found: list[tuple[RigMade, ByKey]] = []

    @given(rigs(kind))
    @some(DRAWN)
    def gather(made: RigMade) -> None:
        made = placed(made) if len(found) % 2 else made
        found.append((made, made.assessed()))

    gather()
    assert len(found) == DRAWN
    return tuple(found)


def pounds(found: ByKey, key: str) -> float | None:
    quantity = found.quantity(key.replace(" ", "_"))
    return None if quantity is None else float(quantity.to("pound").m)


def printed(found: ByKey) -> dict[tuple[str, str], float | None]:
    """What stands in the big cell of the front for every rolling axle, in psi; None where it is no number."""
    rows = [
        row
        for block in tires(found.assessment).sides[0].blocks
        if isinstance(block, ValueTable)
        for row in block.rows
        if isinstance(row, ValueRow)
    ]
    unit = 1.0 if found.rig.units == "us" else KPA
    return {
        (group.vehicle_name, axle): float(row.value) / unit if row.value.replace(".", "").isdigit() else None
        for group, row in zip(axle_groups(found.assessment), rows, strict=True)
        for axle in group.axle_names
    }


def axle_of(made: RigMade, vehicle: str, axle: str) -> AxleMade:
    return made.vehicles[vehicle].axles[int(axle.removeprefix("axle "))]


def ends(found: ByKey, vehicle: str, axle: str, made: AxleMade) -> list[float]:
    """The heavier wheel end in every state of the trip; half the rating where it is not weighed."""
    start, end = f"weights.{vehicle}.{axle}.".replace(" ", "_"), ".heavier_end"
    keys = [key for key in found.keys if key.startswith(start) and key.endswith(end)]
    loads = [pounds(found, key) for key in sorted(keys)]
    return [made.rating / 2 if load is None else load for load in loads]


def over_by_an_assumed_share(found: ByKey, vehicle: str, axle: str) -> bool:
    """Not cleared, and the cap is printed: no row carries what is assumed."""
    key = f"tires.{vehicle}.{axle}.set_point".replace(" ", "_")
    return "only an assumed share" in found.figure(key).rule


@every_kind
def test_no_printed_pressure_is_too_low_for_a_wheel_end_in_any_state(kind: str) -> None:
    for made, found in drawn(kind):
        for (vehicle, name), fill in printed(found).items():
            if fill is None or over_by_an_assumed_share(found, vehicle, name):
                continue
            # At the cap the whole kilopascal under it is printed, less than a gauge shows.
            axle, finest = axle_of(made, vehicle, name), NOISE if made.units == "us" else 1 / KPA
            carried = max(load for pressure, load in axle.rows().items() if pressure <= fill + finest)
            loads = ends(found, vehicle, name, axle)
            assert len(loads) >= len(STATES)
            assert max(loads) / axle.tires_each_end <= carried + NOISE


@every_kind
def test_a_printed_pressure_passes_no_cap_and_leaves_its_label_only_on_weighed_ends(kind: str) -> None:
    for made, found in drawn(kind):
        for (vehicle, name), fill in printed(found).items():
            axle, body = axle_of(made, vehicle, name), made.vehicles[vehicle].kind
            if fill is None:
                continue
            assert fill <= min(120.0, made.wheel) + NOISE
            may_fall = made.basis == "weighed" and axle.ends_read and body == "motorhome"
            assert may_fall or fill >= axle.label - (NOISE if made.units == "us" else 1 / KPA)


@every_kind
def test_an_axle_without_a_pressure_says_why(kind: str) -> None:
    for _, found in drawn(kind):
        for (vehicle, name), fill in printed(found).items():
            key = f"tires.{vehicle}.{name}.".replace(" ", "_")
            told = [one for one in found.findings if one.key.startswith(key) and one.grade != "attention"]
            assert fill is not None or told


def aboard(made: RigMade) -> float:
    """All that the trip has put into the vehicles since the scale."""
    return sum(thing.weight for one in made.vehicles.values() for thing in one.changes)


@every_kind
def test_what_stands_on_the_road_is_all_that_was_weighed_and_all_that_was_added(kind: str) -> None:
    for made, found in drawn(kind):
        whole = pounds(found, f"weights.combination.{DEPARTURE}.load")
        weighed = sum(one.on_the_scale for one in made.vehicles.values())
        joined = sum(join.weight + join.down for join in made.joins)
        assert whole == pytest.approx(weighed + joined + aboard(made), abs=1e-3)


def own_moment(vehicle: VehicleMade) -> float:
    return sum(thing.weight * (thing.at or 0.0) for thing in vehicle.changes)


def loads_of(found: ByKey, name: str, made: RigMade) -> list[float] | None:
    axles = made.vehicles[name].axles
    loads = [pounds(found, f"weights.{name}.axle {number}.{DEPARTURE}.load") for number in range(len(axles))]
    known = [load for load in loads if load is not None]
    return known if len(known) == len(loads) else None


def rests(found: ByKey, made: RigMade, join: str) -> list[tuple[float, float]]:
    """Weights at places of the vehicle ahead, from how the one behind stands there."""
    one = next(item for item in made.joins if item.behind == join)
    behind, loads = made.vehicles[join], loads_of(found, join, made)
    assert loads is not None
    if one.how == "dolly":
        return [(loads[0], one.at)]
    if one.how == "carried" and behind.axles:
        return [(load, one.at + axle.at) for load, axle in zip(loads, behind.axles, strict=True)]
    if one.how == "carried":
        own = [(thing.weight, one.at + (thing.at or 0.0)) for thing in behind.changes]
        return [(behind.weighed, one.at + behind.center), *own]
    total = pounds(found, f"weights.{join}.total.{DEPARTURE}.load")
    return [((total or 0.0) - sum(loads), one.at)] if one.how != "tow bar" else []


@every_kind
def test_the_moments_of_every_vehicle_balance(kind: str) -> None:
    """About its first axle: what its axles and its coupler gained is what was put on it, bars included."""

    for made, found in drawn(kind):
        if placed(made) != made:
            continue
        for name, vehicle in made.vehicles.items():
            loads = loads_of(found, name, made)
            if not vehicle.axles or loads is None:
                continue
            gained = sum(
                (load - axle.load) * axle.at for load, axle in zip(loads, vehicle.axles, strict=True)
            )
            put = own_moment(vehicle)
            for join in made.joins:
                if join.behind == name and join.at_behind:
                    gained += (rests(found, made, name)[0][0] - join.down) * join.at_behind
                    put += join.couple
                if join.ahead == name:
                    put += sum(weight * at for weight, at in rests(found, made, join.behind))
                    put += join.weight * join.at - join.couple
            assert gained == pytest.approx(put, abs=0.1)


def placed(made: RigMade) -> RigMade:
    """The same with a place for everything: what has none counts whole on every axle, on purpose."""
    for name in made.vehicles:
        made = made.changed(
            name, lambda one: replace(one, cargo=tuple(t for t in one.cargo if t.at is not None))
        )
    return made


@every_kind
def test_an_axle_has_its_rating_less_its_load_for_a_margin_and_may_not_drive_over_it(
    kind: str,
) -> None:
    for made, found in drawn(kind):
        # Over by a place or level that nobody noted is not cleared; over by what is known forbids.
        forbidden = {one.key for one in found.findings if one.grade == "do not drive"}
        stopped = forbidden | {one.key for one in found.findings if one.grade == "not cleared"}
        for name, vehicle in made.vehicles.items():
            for number, axle in enumerate(vehicle.axles):
                key = f"weights.{name}.axle {number}".replace(" ", "_")
                loads = [pounds(found, f"{key}.{state}.load") for state in STATES]
                margins = [pounds(found, f"{key}.{state}.margin") for state in STATES]
                assert margins == [
                    None if load is None else pytest.approx(axle.rating - load) for load in loads
                ]
                reached = loads[STATES.index(DEPARTURE)]
                over = reached is not None and reached > axle.rating + NOISE
                assert not over or f"{key}.heaviest.load" in stopped
                assert over or f"{key}.heaviest.load" not in forbidden


@every_kind
def test_moving_a_thing_changes_no_weight_of_the_whole(kind: str) -> None:
    @given(rigs(kind), st.data())
    @some(DRAWN_TWICE)
    def holds(made: RigMade, data: st.DataObject) -> None:
        name = data.draw(st.sampled_from(sorted(made.vehicles)))
        places = [float(data.draw(st.integers(-50, 200))) for _ in range(2)]
        here, there = (made.with_cargo(name, Thing(300.0, at)).assessed() for at in places)
        for key in ("weights.combination", f"weights.{name}.total"):
            before, after = (pounds(one, f"{key}.{DEPARTURE}.load") for one in (here, there))
            assert after == pytest.approx(before, abs=1e-3)

    holds()


@every_kind
def test_more_load_prints_no_lower_pressure_and_leaves_no_more_margin(kind: str) -> None:
    """Where an axle becomes heavier, or the place of the load is not known; one that is lifted may fall."""

    @given(rigs(kind), st.data())
    @some(DRAWN_TWICE)
    def holds(made: RigMade, data: st.DataObject) -> None:
        name = data.draw(st.sampled_from(sorted(made.vehicles)))
        at = data.draw(st.none() | st.integers(-50, 200).map(float))
        more = Thing(float(data.draw(st.integers(1, 250))), at, data.draw(st.none() | st.integers(-30, 30)))
        before, after = made.assessed(), made.with_cargo(name, more).assessed()
        lighter, heavier = printed(before), printed(after)
        for (vehicle, axle), fill in lighter.items():
            own = axle_of(made, vehicle, axle)
            pairs = zip(*(ends(one, vehicle, axle, own) for one in (before, after)), strict=True)
            gains = all(late >= early - NOISE for early, late in pairs)
            assert gains or not (vehicle == name and at is None)
            then = heavier[vehicle, axle]
            # At the cap a metric pressure is rounded down to 5 kPa; below it the floor stands as it is.
            step = 5 / KPA if made.units == "metric" else NOISE
            assert not gains or then is None or (fill is not None and then > fill - step)
        for vehicle in made.vehicles:
            whole = f"weights.{vehicle}.total.{DEPARTURE}.load"
            early, late = pounds(before, whole), pounds(after, whole)
            assert (
                early is None or late is None or vehicle != name or late == pytest.approx(early + more.weight)
            )

    holds()
