"""The season's first printing, a co-driver's set, new tires or another car: what must be printed again."""

from datetime import date
from pathlib import Path

from binder.assessment.ledger import Finding
from binder.printed.differences import by_day, void_since
from binder.printed.record import printed_of
from binder.printed.words import told
from binder.printing.build import BuildOptions, read_and_assess
from tests.printed.folders import ON, changed, copied, found, larkspur, put_in_hand, titles

__all__ = ["larkspur"]
NEW_TIRES = """  new steer tires:
    size: 295/75R22.5
    load_range: H
    family: truck
    maximum_speed: 75 mph
    sidewall: {maximum_load_single: 6610 lb, maximum_load_dual: 6005 lb, maximum_pressure: 120 psi}
    margin: 5 psi
    table:
      basis: per tire
      size: 295/75R22.5 H
      from: invented for this test
      single:
        80 psi: 4500 lb
        100 psi: 5400 lb
        110 psi: 5990 lb
        120 psi: 6610 lb
    mounted:
      steer left:        {date_code: 1026, tread: 18/32 in, mounted_on: 2026-06-20}
      steer right:       {date_code: 1026, tread: 18/32 in, mounted_on: 2026-06-20}

  car tires:
"""


def test_after_the_first_printing_of_a_season_nothing_differs(larkspur: Path) -> None:
    whole = found(larkspur)

    assert (whole.every, whole.idle) == ((), ())
    assert whole.count > 40
    assert list(told(whole, {})) == [
        "Set everything, trip high-country: no part differs from what is in hand."
    ]


def test_a_printing_in_hand_takes_the_place_of_the_one_before(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    put_in_hand(folder, "everything")
    changed(folder, ("overall_height: 12 ft 8 in", "overall_height: 12 ft 10 in"))
    before = {one.name: one.was for one in found(folder).every}
    put_in_hand(folder, "everything", on=date(2026, 6, 20))
    printed = printed_of(folder)

    assert found(folder, on=date(2026, 6, 20)).every == ()
    assert [one.date for one in printed.printings] == [date(2026, 6, 20)]
    old = {one.code for one in printed.superseded}
    assert {was.code for was in before.values() if was} <= old
    assert all(one.until == date(2026, 6, 20) for one in printed.superseded)


def test_a_codrivers_set_is_compared_by_itself(larkspur: Path) -> None:
    changed(larkspur, ("margin: 5 psi  ", "margin: 10 psi  "))

    assert "3 Tires" in titles(found(larkspur))
    assert "Tire register" in titles(found(larkspur))
    assert "Tire register" not in titles(found(larkspur, "codriver"))


def test_new_steer_tires_make_the_cards_void_that_show_them(larkspur: Path) -> None:
    text = (larkspur / "rig.yaml").read_text("utf-8").split("      steer left:        {date_code: 1423")[0]
    rest = (larkspur / "rig.yaml").read_text("utf-8").split("mounted_on: 2023-06-10}\n", 2)[2]
    (larkspur / "rig.yaml").write_text(text + rest, "utf-8")
    changed(larkspur, ("  car tires:\n", NEW_TIRES))
    steer, drive = (larkspur / "rig.yaml").read_text("utf-8").split("        tires: coach tires\n", 1)
    (larkspur / "rig.yaml").write_text(f"{steer}        tires: new steer tires\n{drive}", "utf-8")

    whole = found(larkspur)
    tires = next(one for one in whole.every if one.title == "3 Tires")

    assert {"3 Tires", "8 Tire failure", "Tire register"} <= titles(whole)
    others = {"2 Every stop", "4 Coupling and uncoupling", "12 Windshield slip", "Fluids"}
    assert others.isdisjoint(titles(whole))
    assert tires.is_void
    moved = {one.name: (one.was, one.now) for one in tires.moved}
    was, now = moved["Coach, steer: set point"]
    assert (was, now != was) == ("105 psi", True)
    assert any("tires" in one.path for one in tires.because)


def test_another_car_names_every_stale_card_and_sets_its_old_ticket_aside(larkspur: Path) -> None:
    changed(
        larkspur,
        ("  car:\n    kind: car\n", "  car:\n    kind: car\n    since: 2026-06-10\n"),
        ("        rating: 2600 lb\n", "        rating: 2900 lb\n"),
    )
    on = date(2026, 6, 15)
    whole = found(larkspur, on=on)
    assessment = read_and_assess(larkspur, BuildOptions(on))

    assert {"12 Windshield slip", "Weights, water", "Weights in every state"} <= titles(whole)
    assert {"1 Leaving", "11 Sitting it out"}.isdisjoint(titles(whole))
    stale = [one for one in whole.every if one.is_void and one.title == "12 Windshield slip"]
    days = by_day(assessment)
    assert [void_since(one, "everything", on, days) for one in stale] == [date(2026, 6, 10)]
    assert [one for one in assessment.findings if _tells_of_ticket(one)]


def _tells_of_ticket(finding: Finding) -> bool:
    return "ticket" in str(finding.kind.text)


def test_without_a_car_its_card_is_gone(larkspur: Path) -> None:
    whole = found(larkspur)
    assert whole.every == ()
    text = (larkspur / "rig.yaml").read_text("utf-8")
    start, end = text.index("couplings:"), text.index("\ntires:")
    (larkspur / "rig.yaml").write_text(text[:start] + text[end + 1 :], "utf-8")

    gone = [one for one in found(larkspur).every if not one.now]

    assert [one.title for one in gone] == ["4 Coupling and uncoupling"]
    assert gone[0].printed == ON
