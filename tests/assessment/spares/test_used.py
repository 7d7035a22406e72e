"""Spares that the log says were used or bought, against what the profile of the demo notes."""

from dataclasses import replace
from datetime import date

from binder.assessment.spares.used import inventory
from binder.cards.pages.spares import spares_by_place
from binder.models.log_entries import Entry
from tests.assessment.logged import by_key, larkspur, logged
from tests.by_key import ByKey

FILTER = "spares.fuel_filter.carried"


def used(what: str, day: int = 0, *, clock_off: bool = False, **written: str) -> Entry:
    return logged("spare", day, clock_off=clock_off, change="used", what=what, **written)


def bought(what: str, day: int = 1, *, clock_off: bool = False, **written: str) -> Entry:
    return logged("spare", day, clock_off=clock_off, change="bought", what=what, **written)


def found(*entries: Entry) -> ByKey:
    return by_key(larkspur(entries))


def page(*entries: Entry) -> str:
    return str(spares_by_place(found(*entries).assessment))


def lacking(*entries: Entry) -> str:
    return next(
        (one.text for one in found(*entries).findings if one.text.startswith("By the log, and listed")), ""
    )


def test_what_was_used_is_taken_off_and_stands_on_the_shopping_list() -> None:
    figure = found(used("fuel filter")).figure(FILTER)

    assert found().figure(FILTER).value == 2
    assert (figure.value, figure.slack) == (1, "1 short, 2 usual")
    assert [(one.name, one.text, one.origin) for one in figure.inputs] == [
        ("fuel filter", "2", "rig.yaml"),
        ("used: fuel filter", "1", "log, 2026-04-01"),
    ]
    assert "fuel filter 1 short" in str(found(used("fuel filter")).findings)
    assert "challenge='Fuel filter', answer='1'" in page(used("fuel filter"))
    assert "challenge='Fuel filter', answer='1'" not in page()


def test_what_was_bought_comes_back_in() -> None:
    assert found(used("fuel filter", quantity="2"), bought("Fuel filters")).figure(FILTER).value == 1
    assert found(used("fuel filter"), bought("fuel filter")).figure(FILTER).slack == ""
    # More was used than there was: what is bought after it is there all the same, and no more.
    assert found(used("fuel filter", quantity="9"), bought("fuel filter")).figure(FILTER).value == 1


def test_the_last_one_used_leaves_its_part_number_on_the_list() -> None:
    told = page(used("breakaway switch"))

    assert found(used("breakaway switch")).figure("spares.breakaway_switch.carried").value == 0
    assert "challenge='Breakaway switch', answer='1', detail='part number LK-4128" in told


def test_what_was_used_though_enough_is_left_stands_on_the_shopping_list_until_it_is_bought() -> None:
    more = bought("fuel filter", 0, quantity="3")
    told = page(more, used("fuel filter", 1, quantity="4"), bought("valve cores", quantity="9"))

    assert "challenge='Fuel filter', answer='1'" in told
    assert "Used, by the log" not in told
    told = page(used("batteries for the alarms", quantity="1"))
    assert "Used, by the log" in told
    assert "challenge='Batteries for the alarms', answer='1', detail='used 2026-04-01 · 7 left'" in told
    assert "Used, by the log" not in page(used("batteries for the alarms"), bought("alarm batteries"))


def test_of_a_volume_a_volume_is_taken() -> None:
    assert (
        found(used("brake fluid", quantity="0.5 pt")).figure("spares.brake_fluid.carried").value == "0.5 pt"
    )
    assert found(used("brake fluid")).figure("spares.brake_fluid.carried").value == "0 pt"


def test_names_that_are_not_listed_are_told_and_never_refused() -> None:
    clamp = used("hose clamp, 1 in", quantity="2")

    assert "hose clamp, 1 in, 2 used on 2026-04-01" in lacking(clamp)
    assert "not among the spares that are noted" in page(clamp)
    assert lacking(used("fuel filter")) == ""


def test_of_several_by_one_name_each_is_taken_to_be_used_and_none_to_be_bought() -> None:
    both = ("spares.coach.fuses.carried", "spares.car.fuses.carried")
    taken, of_car = found(used("fuses")), found(used("fuses", vehicle="car"))

    assert [taken.figure(key).value for key in both] == ["0 box", "0 box"]
    assert [of_car.figure(key).value for key in both] == ["1 box", "0 box"]
    assert [found(used("fuses"), bought("fuses")).figure(key).value for key in both] == ["0 box", "0 box"]
    assert "fuses, 1 bought" in lacking(bought("fuses"))


def test_what_was_used_since_it_came_aboard_counts_by_any_clock() -> None:
    for entry in (used("fuel filter"), used("fuel filter", clock_off=True)):
        spares = inventory(larkspur([entry])).rig.spares
        assert next(one.quantity for one in spares if one.what == "fuel filter") == "1"


def test_what_was_changed_before_it_came_aboard_is_in_its_number_already() -> None:
    profile = larkspur(
        [used("fuel filter", 0), bought("fuel filter", 1), bought("fuel filter", 9, clock_off=True)]
    )
    later = [
        one.model_copy(update={"since": date(2026, 4, 20)}) if one.what == "fuel filter" else one
        for one in profile.rig.spares
    ]
    counted = replace(profile, rig=profile.rig.model_copy(update={"spares": later}))

    assert by_key(counted).figure(FILTER).value == 2


def test_loads_keep_the_weight_of_what_was_used() -> None:
    keys = [key for key in found().keys if key.endswith((".bay_load", ".heaviest"))]

    assert keys
    for key in keys:
        assert found(used("fuel filter", quantity="2")).quantity(key) == found().quantity(key)
