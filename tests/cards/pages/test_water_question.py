"""The water question: a column for each fill, and no line that could be taken for a fill."""

from binder.cards.pages.water_question import water_blocks
from binder.cards.pages.weights import weights
from tests.cards.binder_rigs import coach, demo, notes, rig, table


def test_each_fill_has_a_column_with_its_weight_and_its_days() -> None:
    page = weights(demo("larkspur"))
    water = table(page, "The water")

    assert water.headers == ("", "full", "part", "empty")
    assert water.rows[:3] == (
        ("fresh water", "90 gal", "20 gal", "0 gal"),
        ("its weight", "750 lb", "167 lb", "0 lb"),
        ("fresh water lasts", "6.4 days", "1.4 days", "0.0 days"),
    )


def test_what_ends_first_is_named_for_each_fill() -> None:
    """Sandpiper leaves with its gray and black tanks full, as its plan says: water is not what ends."""
    page = weights(demo("sandpiper"))

    assert "Full: gray, black; part: gray, black; empty: fresh, gray, black." in notes(page.blocks)


def test_a_metric_rig_reads_it_in_its_own_units() -> None:
    page = weights(demo("tamarack"))

    assert table(page, "The water").rows[0] == ("fresh water", "300 L", "75 L", "0 L")
    assert table(page, "On axles and ratings").rows[0] == (
        "trailer first, load",
        "2,530 kg",
        "2,418 kg",
        "2,381 kg",
    )


def test_the_page_says_that_its_pressures_are_no_fill() -> None:
    page = weights(demo("larkspur"))

    assert "is no fill: tires are filled to card 3" in notes(page.blocks)


def test_a_rig_without_a_fresh_tank_has_no_such_page() -> None:
    assert water_blocks(rig(vehicles={"coach": coach()})) == ()
