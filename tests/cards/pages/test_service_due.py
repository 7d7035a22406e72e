"""Page of service: what is due first stands first, and what is not known is a blank."""

from binder.cards.blocks import Table
from binder.cards.pages.service_due import service_due
from binder.wording.numbers import BLANK
from tests.cards.binder_rigs import coach, demo, notes, rig, row, table


def test_what_falls_due_stands_first_in_words() -> None:
    first = table(service_due(demo("larkspur")), "Service").rows[0]

    assert first[:6] == (
        "chassis greased",
        "6 months or 6,000 mi",
        "2025-12-03",
        "32,900 mi",
        "2026-06-03 or 38,900 mi",
        "DUE on 2026-06-03",
    )


def test_what_is_in_time_says_what_is_left_of_each_interval() -> None:
    oil = row(table(service_due(demo("larkspur")), "Service"), "engine oil and filter")

    assert oil["due"] == "2027-03-12 or 48,400 mi"
    assert oil["left at the trip's end"] == "279 days, 13,408 mi"


def test_meters_are_counted_on_in_the_units_of_the_rig() -> None:
    miles = row(table(service_due(demo("larkspur")), "Meters"), "coach, odometer")
    kilometers = row(table(service_due(demo("tamarack")), "Meters"), "truck, odometer")

    assert (miles["reads"], miles["the trip adds"]) == ("34,150 mi", "842 mi")
    assert (kilometers["reads"], kilometers["the trip adds"]) == ("118,400 km", "1,400 km")


def test_nuts_of_wheels_just_fitted_say_where_they_are_due() -> None:
    nuts = table(service_due(demo("sandpiper")), "Wheel nuts")

    assert row(nuts, "truck wheels")["due again"] == "48,240 mi to 48,290 mi: due on day 1"
    assert row(nuts, "trailer wheels")["due again"] == BLANK
    assert "50 to 100 miles after fitting; the maker's manual comes first" in notes(
        service_due(demo("sandpiper")).blocks
    )


def test_a_rig_without_service_gets_a_form_of_what_is_usual() -> None:
    page = service_due(rig(vehicles={"coach": coach(engine={}, brakes={"service": "air"})}))
    usual = table(page, "No service is listed")

    assert [cells[0] for cells in usual.rows][:2] == ["engine oil and filter", "coolant tested"]
    assert "air dryer cartridge" in [cells[0] for cells in usual.rows]
    assert all(set(cells[1:]) == {BLANK, BLANK * 2} for cells in usual.rows)


def test_what_is_not_known_of_an_item_is_a_blank() -> None:
    found = table(
        service_due(rig(vehicles={"coach": coach()}, service=[{"what": "oil", "every": ["6000 mi"]}])),
        "Service",
    )

    assert found.rows == (("oil", "6,000 mi", BLANK, BLANK, BLANK, BLANK, BLANK * 2),)
    assert found.headers[5] == "left today"


def test_dates_stand_soonest_first_and_those_not_noted_are_blanks() -> None:
    papers = [{"what": "insurance", "on": "2026-12-31"}, {"what": "license", "on": "2026-05-20"}]
    page = service_due(rig(vehicles={"coach": coach()}, expires=papers))

    assert table(page, "Alarms").rows == (
        ("license", "2026-05-20", "EXPIRED", BLANK),
        ("insurance", "2026-12-31", "in date", BLANK),
        ("registration", BLANK, BLANK, BLANK),
    )


def test_a_rig_alone_is_told_nothing_of_couplings() -> None:
    assert "coupling" not in notes(service_due(demo("kestrel")).blocks)
    assert "The coupling and all its parts: every 6 months" in notes(service_due(demo("tamarack")).blocks)


def test_every_table_is_small() -> None:
    blocks = service_due(demo("kestrel")).blocks

    assert all(block.small for block in blocks if isinstance(block, Table))
