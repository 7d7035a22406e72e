"""What tires lose by the log: brought to one temperature and elevation, level by level, and never refused."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import timedelta
from random import Random

import pytest

from binder.calculations.tires.leaks import pressure_losses
from binder.models.load import Profile
from binder.models.log_entries import Entry, Written
from binder.models.tires import MountedTire
from tests.assessment.log.logs import COLD, START, by_key, entry, larkspur, tire, walks, without
from tests.by_key import ByKey
from tests.log.leaks import COACH as TIRES
from tests.log.leaks import SIDES, Season, season

INNER = "tires.coach.drive.drive_left_inner"


def loss(found: ByKey, name: str = "loss_a_month", tire: str = INNER) -> float | None:
    quantity = found.quantity(f"{tire}.{name}")
    return None if quantity is None else float(quantity.m_as("psi"))


def losing(found: ByKey) -> list[str]:
    return [one.key for one in found.findings if "a month more than its mates" in one.text]


def test_a_leaking_tire_is_named_with_what_it_loses() -> None:
    found = by_key(*walks())

    assert loss(found) == pytest.approx(2.5, abs=0.3)
    assert loss(found, "loss_over_mates") == pytest.approx(2.0, abs=0.3)
    assert losing(found) == [f"{INNER}.loss_over_mates"]
    (told,) = [one for one in found.findings if one.key == f"{INNER}.loss_over_mates"]
    assert told.grade == "attention"
    assert "tire service" in told.what_helps
    assert "give or take" in told.text


def test_sound_tires_lose_a_little_and_none_is_named() -> None:
    found = by_key(*walks(leak=0.0))

    assert loss(found) == pytest.approx(0.5, abs=0.3)
    assert losing(found) == []


def test_every_reading_is_an_input_and_the_spread_is_told() -> None:
    figure = by_key(*walks()).figure(f"{INNER}.loss_a_month")

    assert len(figure.inputs) == 16
    assert figure.inputs[0].name == "read Mon 2026-01-05"
    assert figure.inputs[0].origin == "log; 68 °F, 0 ft, gauge"
    assert "Give or take" in figure.rule


def test_readings_are_brought_to_one_temperature_and_elevation() -> None:
    """At 40 degF a tire reads less, at 6,000 ft more: by the gas law 95 psi are 89.2, and 92.0 there."""
    cold = without(walks(leak=0.0), "ambient", "elevation")
    weeks = [one._replace(written={**one.written, "ambient": "68 degF", "elevation": "0 ft"}) for one in cold]
    late = [
        one._replace(
            written={**one.written, "ambient": "40 degF", "pressure": _colder(str(one.written["pressure"]))}
        )
        if one.at > START + timedelta(weeks=8)
        else one
        for one in weeks
    ]

    assert loss(by_key(*late)) == pytest.approx(loss(by_key(*weeks)), abs=0.1)


def _colder(text: str) -> str:
    psi = (float(text.removesuffix(" psi")) + 14.696) * (40 + 459.67) / (68 + 459.67) - 14.696
    return f"{psi:.2f} psi"


def test_air_added_begins_a_new_level_and_hides_no_leak() -> None:
    added: dict[str, Written] = {"before": "92.3 psi", "after": "97.3 psi", **COLD}
    log = [
        *(one for one in walks() if one.at < START + timedelta(weeks=8)),
        entry("air", 8 * 7 - 1, {"position": "drive left inner", "vehicle": "coach", **added}),
        *(_more(one, 5.0) for one in walks() if one.at >= START + timedelta(weeks=8)),
    ]
    found = by_key(*log)

    assert loss(found) == pytest.approx(2.5, abs=0.5)
    assert losing(found) == [f"{INNER}.loss_over_mates"]
    unlogged = loss(by_key(*(one for one in log if one.kind != "air")))
    assert unlogged is not None
    assert unlogged < 1.0


def _more(one: Entry, psi: float) -> Entry:
    if one.written["position"] != "drive left inner":
        return one
    read = float(str(one.written["pressure"]).removesuffix(" psi")) + psi
    return one._replace(written={**one.written, "pressure": f"{read:.1f} psi"})


def test_a_sensor_that_reads_less_than_the_gauge_is_no_leak() -> None:
    log = [
        one._replace(written={**_more(one, -4.0).written, "by": "sensor"})
        if one.at > START + timedelta(weeks=8)
        else one
        for one in walks(leak=0.0)
    ]

    assert losing(by_key(*log)) == []
    assert loss(by_key(*log)) == pytest.approx(0.5, abs=0.4)


@pytest.mark.parametrize("since", ["mounted", "wheels", "repaired"])
def test_what_was_read_of_another_tire_or_before_its_repair_is_left_out(since: str) -> None:
    day = (START + timedelta(weeks=10)).date()
    profile, log = larkspur(), walks()
    if since == "mounted":
        profile = _mounted(profile, day)
    elif since == "wheels":
        fitted = profile.rig.vehicles["coach"].axles["drive"].wheels or ""
        wheels = {**profile.rig.wheels}
        wheels[fitted] = wheels[fitted].model_copy(update={"since": day})
        profile = replace(profile, rig=profile.rig.model_copy(update={"wheels": wheels}))
    else:
        where = {"position": "drive left inner", "vehicle": "coach"}
        log.append(entry("fault", 60, {"what": "nail", **where}, "nail"))
        log.append(entry("repair", 71, {"what": "plugged", "fault": "nail"}))
    found = by_key(*log, profile=profile)

    assert len(found.figure(f"{INNER}.loss_a_month").inputs) == (5 if since == "repaired" else 6)
    assert losing(found) == []


def _mounted(profile: Profile, day: object) -> Profile:
    name = profile.rig.vehicles["coach"].axles["drive"].tires or ""
    tires = dict(profile.rig.tires)
    held = {**tires[name].mounted, "drive left inner": MountedTire.model_construct(mounted_on=day)}
    tires[name] = tires[name].model_copy(update={"mounted": held})
    return replace(profile, rig=profile.rig.model_copy(update={"tires": tires}))


def test_a_few_readings_say_nothing_yet_and_how_many_it_takes() -> None:
    figure = by_key(*walks(weeks=3)).figure(f"{INNER}.loss_a_month")

    assert figure.value is None
    assert figure.rule == "Not known: it takes 6 cold readings over 28 days; there are 3."


@pytest.mark.parametrize(
    ("changed", "why"),
    [
        ({"state": "hot"}, "1 not said to be cold"),
        ({"pressure": "5 psi"}, "1 far from the others"),
    ],
)
def test_an_odd_entry_is_left_out_and_told(changed: dict[str, str], why: str) -> None:
    *log, last = [one for one in walks() if one.written["position"] == "drive left inner"]
    mates = [one for one in walks() if one.written["position"] != "drive left inner"]
    odd = last._replace(written={**last.written, **changed})
    figure = by_key(*log, *mates, odd).figure(f"{INNER}.loss_a_month")

    assert len(figure.inputs) == 15
    assert any(why in one for one in figure.cautions)


def test_a_clock_years_off_counts_in_no_loss_and_is_told() -> None:
    log = walks()
    off = log[3]._replace(at=START - timedelta(days=4000), taken=START)
    figure = by_key(*log[:3], off, *log[4:]).figure(f"{INNER}.loss_a_month")

    assert len(figure.inputs) == 15
    assert figure.cautions == ("Left out of the readings: 1 by a clock that can hardly be right.",)


def test_what_was_written_of_one_tire_of_a_walk_holds_of_all() -> None:
    log = walks()
    bare = [
        one if one.written["position"] == "steer left" else without([one], "ambient", "elevation")[0]
        for one in log
    ]

    assert loss(by_key(*bare)) == loss(by_key(*log))


def test_without_any_temperature_mates_are_compared_and_no_loss_is_told() -> None:
    found = by_key(*without(walks(), "ambient"))
    figure = found.figure(f"{INNER}.loss_a_month")

    assert figure.value is None
    assert figure.rule == "Not known: temperature or elevation of a reading was not written."
    for name in ("loss_a_month", "loss_over_mates"):
        assert any("taken as 68 °F, at sea level" in one for one in found.figure(f"{INNER}.{name}").cautions)
    assert losing(found) == [f"{INNER}.loss_over_mates"]


def test_a_tire_read_alone_without_its_temperature_tells_nothing() -> None:
    alone = [one for one in without(walks(), "ambient") if one.written["position"] == "drive left inner"]
    figure = by_key(*alone).figure(f"{INNER}.loss_a_month")

    assert figure.inputs == ()
    assert "16 of unknown temperature or elevation" in figure.cautions[0]


def test_positions_of_a_former_rig_are_passed_over() -> None:
    gone = [tire("tag left", week * 7.0, pressure="90 psi", **COLD) for week in range(16)]
    other = [one._replace(written={**one.written, "vehicle": "trailer"}) for one in walks()]

    assert [one for one in by_key(*gone, *other).keys if "loss" in one] == []


def test_of_many_readings_a_day_forty_days_are_taken() -> None:
    often = [
        one._replace(id=f"{one.id} {hours}", at=at, taken=at)
        for one in walks()
        for hours in range(0, 7 * 24, 8)
        for at in [one.at + timedelta(hours=hours)]
    ]
    figure = by_key(*often).figure(f"{INNER}.loss_a_month")

    assert len(figure.inputs) == 40
    assert "of the same days, or of days between" in figure.cautions[0]


def entries_of(simulated: Season) -> Iterator[Entry]:
    """A season as it is entered: where air was added, what was read before and after is one entry."""
    for position, readings in simulated.readings.items():
        following = zip(readings, [*readings[1:], None], strict=True)
        for one, after in following:
            moment = (one.moment - START).total_seconds() / 86400
            said: dict[str, Written] = {
                **COLD,
                "ambient": f"{one.state.temperature.m_as('degF'):.0f} degF",
                "elevation": f"{one.state.elevation.m_as('foot'):.0f} ft",
            }
            if after and after.level != one.level and after.moment == one.moment:
                air = {"before": f"{one.pressure.m} psi", "after": f"{after.pressure.m} psi"}
                # A minute later: what was read at the same moment was read before it.
                yield entry(
                    "air", moment + 1 / 1440, {"position": position, "vehicle": "coach", **said, **air}
                )
                next(following)
            else:
                yield tire(position, moment, **said, pressure=f"{one.pressure.m} psi")


def test_simulated_seasons_are_judged_as_the_estimator_judges_them() -> None:
    """How surely it does is told by ``python -m tests.log.leaks``; entries must not lose any of it."""
    chance = Random(5)  # noqa: S311 - a simulation.
    for _ in range(3):
        simulated = season(chance, TIRES, 2.0)
        losses = pressure_losses(simulated.readings, SIDES)
        found = by_key(*entries_of(simulated))

        for position, expected in losses.items():
            key = f"tires.coach.{position.split()[0]}.{position.replace(' ', '_')}.loss_over_mates"
            told = found.quantity(key)
            assert told is not None
            assert expected.excess is not None
            assert told.m_as("psi") == pytest.approx(expected.excess.m_as("psi"), abs=0.01)
            assert (key in losing(found)) == expected.loses_more
