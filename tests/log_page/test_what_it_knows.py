"""What the page knows of a rig is what the cards say, no more and nothing private; the same twice."""

import re
from pathlib import Path

import pytest
from pydantic import ValidationError

from binder.cards.blocks import Bands
from binder.cards.ring.order import ring
from binder.cards.ring.tires import tires
from binder.models.load import load_rig
from binder.models.log_entries import KINDS, forms_of
from binder.models.rig import AxleWeights
from binder.printed import FILE
from binder.printed.record import printed_of
from binder.problems import InputProblems
from tests.demos import PROFILES
from tests.log_page.sites import assessed, site, told
from tests.printed.folders import changed, copied, put_in_hand

DEMOS = ("kestrel", "larkspur", "sandpiper", "tamarack")
LARGEST = 120 * 1024
PRIVATE = """\
contacts:
  - {who: Aunt Wilhelmina, phone: 555-0177-secret}
nights:
  - {place: "Stanley, ID", booking: QX-SECRET-9, phone: 555-0188-secret}
"""


@pytest.mark.parametrize("rig", DEMOS)
def test_the_limits_of_each_axle_are_those_of_the_tires_card(rig: str) -> None:
    assessment = assessed(PROFILES / rig)
    (bands,) = (
        block for side in tires(assessment).sides for block in side.blocks if isinstance(block, Bands)
    )
    axles = [one for one in told(site(PROFILES / rig, assessment))["axles"] if "fill" in one]

    assert len({str(one["name"]) for one in axles}) == len(axles)
    for row in bands.rows:
        first, *_ = [one for one in axles if str(one["fill"]) == row.value]
        flat, _, most, over = (re.sub(r"[^0-9.]", "", text) for text in row.others)
        assert (str(first["flat"]), over) == (flat, str(first.get("leave", "")))
        assert most in {over, ""}


@pytest.mark.parametrize("rig", DEMOS)
def test_every_tire_of_the_rig_stands_on_the_page_once(rig: str) -> None:
    loaded = load_rig(PROFILES / rig)
    expected = [
        (name, f"{axle} {place}")
        for name, vehicle in loaded.vehicles.items()
        for axle, one in vehicle.axles.items()
        for place in one.tire_places
    ]
    axles = told(site(PROFILES / rig))["axles"]
    found = [(one["vehicle"], tire) for one in axles for tire in one["tires"]]

    assert [one for one in found if one[0]] == expected


def test_the_cards_have_the_codes_that_are_printed_on_them() -> None:
    assessment = assessed(PROFILES / "larkspur")
    cards = told(site(PROFILES / "larkspur", assessment))["cards"]

    assert [(one["id"], one["code"]) for one in cards] == [(one.id, one.code) for one in ring(assessment)]
    assert {code for one in cards for code in one["was"]} == set()


def test_codes_in_hand_and_before_tell_what_moved(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    put_in_hand(folder, "everything")
    first = printed_of(folder).in_hand("everything")["card-3"][1].code
    changed(folder, ("margin: 5 psi  ", "margin: 7 psi  "))
    put_in_hand(folder, "everything")
    second = printed_of(folder).in_hand("everything")["card-3"][1].code
    changed(folder, ("margin: 7 psi  ", "margin: 10 psi  "))
    (card,) = (one for one in told(site(folder))["cards"] if one["id"] == "3")

    drive = ["Coach, drive: set point", "97 psi", "100 psi"]
    steer = ["Coach, steer: set point", "107 psi", "110 psi"]
    assert card["was"] == {
        first: {"title": "3 Tires", "until": "2026-06-01", "moved": []},
        second: {"title": "3 Tires", "of": "2026-06-01", "moved": [drive, steer]},
    }
    assert card["code"] not in card["was"]


def test_a_card_that_is_no_more_is_still_known(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    put_in_hand(folder, "everything")
    changed(folder, ("card-12:", "card-77:"), ("12 Windshield", "77 Windshield"), file=FILE)
    last = told(site(folder))["cards"][-1]

    assert (last["id"], last["title"], last["code"]) == ("77", "Windshield slip", "")
    assert len(last["was"]) == 1


def test_every_number_of_an_entry_is_bounded_as_an_import_bounds_it() -> None:
    known = told(site(PROFILES / "tamarack"))["measures"]
    measured = {
        kind: {name for name, form in forms_of(kind).items() if form.dimension and form.dimension.ends}
        for kind in KINDS
    }

    assert {kind: set(names) for kind, names in known.items()} == measured
    for kind, fields in known.items():
        for name, one in fields.items():
            unit = {"°C": "degC"}.get(one["unit"], one["unit"])
            dimension = forms_of(kind)[name].dimension
            assert dimension is not None
            for end in (one["least"], one["most"]):
                assert dimension.read(f"{end} {unit}".replace(" /32", "/32")) is not None


def test_a_weight_is_bounded_as_an_import_bounds_it() -> None:
    each = told(site(PROFILES / "tamarack"))["weighing"]["each"]
    least, most, beyond = (
        f"{number} {each['unit']}" for number in (each["least"], each["most"], each["most"] + 0.1)
    )

    assert AxleWeights.model_validate({"left": least, "right": most}).left is not None
    with pytest.raises(ValidationError, match="can hardly be a weight"):
        AxleWeights.model_validate({"axle": beyond})


def test_nothing_private_is_on_the_page_whoever_asks(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    without = site(folder)
    (folder / "private.yaml").write_text(PRIVATE, encoding="utf-8")
    (folder / "notes.txt").write_text("555-0199-secret", encoding="utf-8")

    assert site(folder) == without
    assert not [name for name, content in without.items() if b"secret" in content.lower()]


def test_the_page_is_the_same_twice_and_weighs_little(tmp_path: Path) -> None:
    files = site(PROFILES / "larkspur")
    again = site(copied(tmp_path))

    assert files == again
    assert sum(map(len, files.values())) < LARGEST
    assert not [name for name, content in files.items() if b"/work" in content or b"/tmp" in content]


def test_another_edition_is_another_worker(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    first = site(folder)
    changed(folder, ("name: Larkspur", "name: Skylark"))

    assert site(folder)["worker.js"] != first["worker.js"]


def test_a_name_that_is_markup_cannot_end_the_script(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    changed(folder, ("name: Larkspur", 'name: "</script><script>alert(1)</script><!--"'))
    files = site(folder)

    assert b"<" not in files["rig.js"]
    assert told(files)["rig"] == "</script><script>alert(1)</script><!--"


@pytest.mark.parametrize("log", ["", "mailto:log@example.org", "tel:+15550100"])
def test_a_log_that_is_no_web_address_has_no_page(tmp_path: Path, log: str) -> None:
    folder = copied(tmp_path)
    changed(folder, ("log: https://log.example.org/larkspur ", f"log: {log} "))

    assert site(folder) == {}


def test_a_broken_record_of_what_is_in_hand_is_told(tmp_path: Path) -> None:
    folder = copied(tmp_path)
    (folder / FILE).write_text("printings: 3\n", encoding="utf-8")

    with pytest.raises(InputProblems, match="is not as 'binder printed' wrote it"):
        site(folder)
