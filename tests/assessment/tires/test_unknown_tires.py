"""What is blank, or spelled otherwise, never gives a lower pressure or a milder word."""

import pytest

from tests.assessment.conftest import Assessed
from tests.assessment.tires.test_label_first import psi, told
from tests.by_key import ByKey

# The steer axle of each demo: its label, and how the table or sidewall alone would fill it.
KESTREL_STEER = "label_pressure: 65 psi\n        label_tires: LT235/85R16 E"
TRAILER_FIRST = (
    "first:\n"
    "        at: 0 in\n"
    "        track: 75 in\n"
    "        fitment: single\n"
    "        rating: 3500 lb\n"
    "        label_pressure: 65 psi"
)
KESTREL_DRIVE = "label_pressure: 80 psi\n        label_tires: LT235/85R16 E"


@pytest.mark.parametrize(
    "spelling",
    [
        "LT235/85R16E",
        "lt 235/85 r16 e",
        "LT235/85R16 120/116Q E",
        "LT235/85R16 E 120/116Q",
        "LT235/85R16/E",
        "LT235/85R16 LRE",
        "LT235/85R16",
    ],
)
def test_a_spelling_of_the_label_never_takes_it_away(assessed: Assessed, spelling: str) -> None:
    found = assessed("kestrel", (KESTREL_DRIVE, KESTREL_DRIVE.replace("LT235/85R16 E", spelling)))

    assert psi(found, "tires.coach.drive.set_point") == pytest.approx(80)
    assert told(found, "tires.coach.drive.label_pressure") == []


def test_a_camping_tire_is_one_tire_however_it_is_spaced(assessed: Assessed) -> None:
    """It has no load range: nothing of it is asked for where the label names none."""
    found = assessed(
        "kestrel",
        (KESTREL_DRIVE, KESTREL_DRIVE.replace("LT235/85R16 E", "225/75R16CP 118R")),
        ("    size: LT235/85R16\n", "    size: 225/75R16 CP\n"),
        ("load_range: E", "load_range:"),
    )

    assert psi(found, "tires.coach.drive.set_point") == pytest.approx(80)
    assert told(found, "tires.coach.drive.label_pressure", "attention") == []


@pytest.mark.parametrize(
    ("demo", "axle", "least", "change"),
    [
        ("kestrel", "coach.steer", 65, ("load_range: E", "load_range:")),
        ("kestrel", "coach.drive", 80, ("load_range: E", "load_range:")),
        ("kestrel", "coach.drive", 80, (KESTREL_DRIVE, KESTREL_DRIVE.replace(" LT235/85R16 E", ""))),
        ("kestrel", "coach.drive", 80, ("    size: LT235/85R16\n", "    size:\n")),
        ("sandpiper", "truck.steer", 35, ("load_range: SL", "load_range:")),
    ],
)
def test_a_blank_size_or_load_range_is_not_another_tire(
    assessed: Assessed, demo: str, axle: str, least: float, change: tuple[str, str]
) -> None:
    found = assessed(demo, change)
    pressure = psi(found, f"tires.{axle}.set_point")

    assert pressure is not None
    assert pressure >= least - 1e-6
    assert not [one for one in found.findings if "the label says" in one.text]
    assert [one for one in found.findings if one.grade == "missing" and "not known" in one.text]


def test_tires_too_weak_for_the_rating_are_not_cleared_where_their_label_is_not_read(
    assessed: Assessed,
) -> None:
    """Two tires of 6,175 lb do not carry 12,400 lb: forbidden as another size, no blank clears it."""
    label = "rating: 12000 lb\n        label_pressure: 110 psi\n        label_tires: 295/75R22.5 G"
    blank = label.replace("12000", "12400").replace(" 295/75R22.5 G", "")
    found = assessed("larkspur", (label, blank))

    (text,) = told(found, "tires.coach.steer.set_point", "not cleared")
    assert text.startswith("Coach, steer: the fitted tires cannot carry the axle's rating")


def test_a_label_that_binds_and_is_blank_leaves_no_pressure(assessed: Assessed) -> None:
    found = assessed("kestrel", (KESTREL_STEER, KESTREL_STEER.replace(" 65 psi", "")))

    for entry in (
        "floor_pressure",
        "set_point",
        "add_if_below",
        "leave_up_to",
        "low_alarm",
        "run_flat_below",
    ):
        assert psi(found, f"tires.coach.steer.{entry}") is None
    (finding,) = [one for one in found.findings if one.key == "tires.coach.steer.set_point"]
    assert finding.grade == "not cleared"
    assert "its label binds and is not known" in finding.text
    assert "rig.yaml vehicles.coach.axles.steer.label_pressure" in finding.what_helps
    assert psi(found, "tires.coach.drive.set_point") == pytest.approx(80)


AXLE_ONLY = (
    ("steer: {left: 5480 lb, right: 5240 lb, axle", "steer: {axle"),
    ("maximum_load: 7400 lb", "maximum_load: 5700 lb"),
)


def test_an_assumed_share_alone_never_forbids(assessed: Assessed) -> None:
    """Half of 11,157 lb is 5,579 lb, under the wheel's 5,700.

    With a tenth, half of the 10,720 lb weighed is 5,896 lb; of 437 lb more since then, tanks to the left, the
    left end carries 264 lb.
    """
    found = assessed("larkspur", *AXLE_ONLY)
    (finding,) = [one for one in found.findings if one.key == "tires.coach.steer.load_per_tire"]

    assert finding.grade == "not cleared"
    assert finding.text == (
        "Coach, steer: 6,160 lb each, half the axle and 10 % (practice, assumed), is 460 lb over the limit "
        "of its wheel (everything full)."
    )
    assert psi(found, "tires.coach.steer.set_point") == pytest.approx(110)
    assert "the cap" in found.figure("tires.coach.steer.set_point").rule


def test_a_row_over_the_cap_by_an_assumed_share_is_not_cleared_and_the_cap_printed(
    assessed: Assessed,
) -> None:
    """The assumed tenth asks for 110 psi; half of the axle for 100, which the valve may hold."""
    found = assessed(
        "larkspur",
        AXLE_ONLY[0],
        ("valve_maximum_pressure:              # not", "valve_maximum_pressure: 100 psi # not"),
        ("label_pressure: 110 psi", "label_pressure: 100 psi"),
    )
    (finding,) = [one for one in found.findings if one.key == "tires.coach.steer.set_point"]

    assert finding.grade == "not cleared"
    assert "asks for more than the valve may hold" in finding.text
    assert psi(found, "tires.coach.steer.set_point") == pytest.approx(100)


def test_half_of_an_axle_over_its_limit_forbids_whatever_is_assumed(assessed: Assessed) -> None:
    found = assessed("larkspur", AXLE_ONLY[0], ("maximum_load: 7400 lb", "maximum_load: 5500 lb"))
    (finding,) = [one for one in found.findings if one.key == "tires.coach.steer.load_per_tire"]

    assert finding.grade == "do not drive"
    assert psi(found, "tires.coach.steer.set_point") is None


def test_nothing_weighed_is_not_cleared_where_half_the_rating_is_over(assessed: Assessed) -> None:
    found = assessed(
        "larkspur", ("steer: {left: 5480 lb, right: 5240 lb, axle: 10720 lb}", "steer: {}"), AXLE_ONLY[1]
    )

    grades = {one.grade for one in found.findings if one.key == "tires.coach.steer.load_per_tire"}
    assert grades == {"not cleared"}


def test_demos_are_told_nothing_new_of_their_sizes(larkspur: ByKey, kestrel: ByKey) -> None:
    for demo in (larkspur, kestrel):
        assert not [one for one in demo.findings if "load range" in one.text]


@pytest.mark.parametrize(
    ("demo", "axle", "change"),
    [
        (
            "tamarack",
            "truck.steer",
            ("maximum_load_dual: 1320 kg, maximum_pressure: 550 kPa", "maximum_load_dual: 1320 kg"),
        ),
        ("kestrel", "coach.drive", ("    maximum_pressure: 80 psi\n", "")),
        ("kestrel", "coach.drive", ("valve_maximum_pressure: 80 psi", "valve_maximum_pressure:")),
    ],
)
def test_a_limit_never_read_leaves_no_pressure_up_to_which_a_tire_is_left(
    assessed: Assessed, demo: str, axle: str, change: tuple[str, str]
) -> None:
    before, after = assessed(demo), assessed(demo, change)

    for entry in ("leave_up_to", "cap"):
        assert psi(before, f"tires.{axle}.{entry}") is not None
        assert psi(after, f"tires.{axle}.{entry}") is None
        assert "was not read" in after.figure(f"tires.{axle}.{entry}").rule


def test_without_a_row_there_is_no_alarm(assessed: Assessed) -> None:
    """It is the larger of the row and 85 %; here the stamped load gives the row."""
    stamped = ("maximum_load_single: 1550 kg, ", "")
    before, after = assessed("tamarack"), assessed("tamarack", stamped)

    assert psi(before, "tires.trailer.first.low_alarm") is not None
    assert psi(after, "tires.trailer.first.low_alarm") is None


def test_a_rating_never_read_leaves_no_ceiling(assessed: Assessed) -> None:
    found = assessed("kestrel", ("rating: 4600 lb", "rating:"))

    assert found.quantity("tires.coach.steer.end_holds_up_to") is None


STANLEY = "low: 24 degF, high: 60 degF"


@pytest.mark.parametrize(
    ("trip", "place"),
    [
        ((STANLEY, STANLEY.replace("24 degF", "")), "Stanley, Idaho"),
        (("          elevation: 6240 ft\n", ""), "Stanley, Idaho"),
        (("      elevation: 1070 ft\n      elevation_from: about, from memory\n", ""), "Pendleton"),
    ],
)
def test_one_morning_not_known_leaves_no_fill_table_and_says_whose(
    assessed: Assessed, trip: tuple[str, str], place: str
) -> None:
    found = assessed("larkspur", trip=(trip,))

    assert not [key for key in found.keys if ".fill_at." in key]
    (finding,) = [one for one in found.findings if one.key == "tires.cold_mornings"]
    assert (finding.grade, place in finding.text) == ("missing", True)


def test_a_milder_night_lower_down_may_ask_for_more_than_the_coldest(
    larkspur: ByKey, assessed: Assessed
) -> None:
    """At 2,150 ft the air outside takes 1.8 psi more from the gauge than at 6,240 ft: 25 F asks over 24 F."""
    found = assessed("larkspur", trip=(("low: 52 degF", "low: 25 degF"),))
    before, after = (psi(one, "tires.coach.steer.fill_at.50") for one in (larkspur, found))

    assert before is not None
    assert after is None or after >= before + 1
    cell = next(found.figure(key) for key in found.keys if ".fill_at." in key)
    assert "25 " in next(one.text for one in cell.inputs if one.name == "cold morning that asks for most")


@pytest.mark.parametrize("family", ["", "special trailer", "european commercial"])
def test_where_no_hot_rise_is_known_a_tire_is_called_flat_by_the_most_of_any(
    assessed: Assessed, family: str
) -> None:
    """Of 105 psi, flat at 84: the rise of a truck tire gives 99 psi, that of a light-truck tire gave 93."""
    found = assessed("larkspur", ("    family: truck\n", f"    family: {family}\n"))

    assert psi(found, "tires.coach.steer.hot_flat") == pytest.approx(99)


def test_a_trailer_whose_label_is_blank_is_not_cleared_and_filled_to_what_is_stamped(
    assessed: Assessed,
) -> None:
    """What is stamped on its tires stands in for the label, and is not called the label."""
    found = assessed("sandpiper", (TRAILER_FIRST, TRAILER_FIRST.replace(" 65 psi", "")))
    key = "tires.trailer.first"

    assert psi(found, f"{key}.set_point") == pytest.approx(65)
    assert [found.quantity(f"{key}.{name}") for name in ("label_pressure", "floor_pressure")] == [None, None]
    assert told(found, f"{key}.label_pressure", "not cleared") == [
        "Trailer, first: label pressure not known; what is stamped on its tires stands in for it."
    ]


def test_a_floor_is_a_blank_where_the_row_is_not_known(assessed: Assessed) -> None:
    """The larger of two of which one is not known is not the other."""
    found = assessed(
        "kestrel",
        ("rating: 4600 lb", "rating:"),
        ("steer: {left: 1985 lb, right: 1915 lb, axle: 3900 lb}", "steer: {}"),
    )

    assert found.quantity("tires.coach.steer.floor_pressure") is None
