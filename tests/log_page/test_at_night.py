"""The page in a hand with a glove, at night, enlarged, read aloud and by keyboard: measured in a browser."""

import re
from collections.abc import Callable, Iterator

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

from tests.log_page.conftest import PHONE, Phone, WebSpace, weigh

LEAST_TARGET = 48
FORMS = (
    "Pressures",
    "Air added",
    "Tread",
    "Fill",
    "Meters",
    "Fault",
    "Repair",
    "Service",
    "Spare",
    "Weighing",
    "Note",
)
TARGETS = """[...document.querySelectorAll("a, button, input, select, textarea, summary")]
  .filter((node) => node.checkVisibility())
  .map((node) => {
    const box = node.getBoundingClientRect();
    return [node.outerHTML.slice(0, 90), box.width, box.height];
  })"""


def filled(phone: Phone, space: WebSpace) -> None:
    """Open the tires card with judged readings of every sort, a wrong one, and some kept before."""
    page = phone.page
    (card,) = (one for one in space.known["cards"] if one["id"] == "3")
    phone.opens(f"{space.address}#3.{next(iter(card['was']))}")
    page.get_by_label("Just driven").check()
    phone.reads(steer_left="118", steer_right="104")
    phone.keeps()
    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="84", steer_right="101", drive_left_outer="95", drive_left_inner="108")
    phone.reads(drive_right_inner="112", front_left="1040")
    page.get_by_label("Front left", exact=True).blur()
    page.get_by_text("More, who, when").click()
    page.get_by_role("button", name="Other").click()
    page.locator("#entries summary").first.click()


def weighed(phone: Phone, space: WebSpace) -> None:
    """Open the form of a weighing with all that it asks and tells: sums, what is too heavy, what is wrong."""
    phone.opens(space.address)
    phone.page.get_by_role("button", name="Weighing", exact=True).click()
    phone.page.get_by_label("Wheel ends").check()
    weigh(phone, "Coach, steer", Left="6480", Right="6240")
    weigh(phone, "Coach, drive", Left="8420", Right="8060", Axle="1648")
    phone.page.get_by_label("Fresh", exact=True).select_option(label="Something else")
    phone.page.get_by_label("Fresh: like").fill("30")
    phone.page.get_by_label("Something", exact=True).check()
    phone.page.get_by_label("Who or what").first.fill("two people")
    phone.page.locator("#keep").click()
    phone.page.get_by_text("3 fields are to be put right").wait_for()
    assert phone.page.locator("output.too-heavy").count() == 1
    assert phone.page.get_by_role("combobox", name="In which").count() == 2


def every_form(page: Page) -> Iterator[str]:
    for name in FORMS:
        page.get_by_role("button", name=name, exact=True).click()
        page.locator("summary").first.click()
        yield name


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_no_rule_of_accessibility_is_broken(
    phones: Callable[..., Phone], space: WebSpace, scheme: str
) -> None:
    phone = phones(color_scheme=scheme)
    filled(phone, space)
    words = {one.split()[0] for one in phone.page.locator("output.verdict:not(:empty)").all_inner_texts()}
    assert words == {"FLAT", "ADD", "GO", "OVER", "NOT"}
    found = Axe().run(phone.page)
    assert found.response["violations"] == [], found.generate_report()

    phone.page.get_by_label("Just driven").check()
    assert phone.page.locator("output.apart").count() == 2
    assert Axe().run(phone.page).response["violations"] == []


def test_no_form_breaks_a_rule_of_accessibility(phones: Callable[..., Phone], space: WebSpace) -> None:
    phone = phones(color_scheme="dark")
    phone.opens(space.address)
    for name in every_form(phone.page):
        assert Axe().run(phone.page).response["violations"] == [], name


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_a_weighing_with_all_it_tells_breaks_no_rule_of_accessibility(
    phones: Callable[..., Phone], space: WebSpace, scheme: str
) -> None:
    phone = phones(color_scheme=scheme)
    weighed(phone, space)
    found = Axe().run(phone.page)

    assert found.response["violations"] == [], found.generate_report()


def test_every_target_is_large_enough_for_a_glove(phone: Phone, space: WebSpace) -> None:
    filled(phone, space)
    shown = phone.page.evaluate(TARGETS)
    assert len(shown) > 40
    small = [one for one in shown if min(one[1:]) < LEAST_TARGET]
    phone.page.goto(space.address)
    for _ in every_form(phone.page):
        small += [one for one in phone.page.evaluate(TARGETS) if min(one[1:]) < LEAST_TARGET]
    weighed(phone, space)
    small += [one for one in phone.page.evaluate(TARGETS) if min(one[1:]) < LEAST_TARGET]

    assert small == []


@pytest.mark.parametrize("width", [360, 180])
def test_nothing_is_to_be_moved_sideways(phones: Callable[..., Phone], space: WebSpace, width: int) -> None:
    """180 px is a phone of 360 px enlarged to 200 %."""
    phone = phones(viewport={"width": width, "height": 370})
    filled(phone, space)
    assert phone.page.evaluate("document.documentElement.scrollWidth") == width
    phone.page.goto(space.address)
    for name in every_form(phone.page):
        assert phone.page.evaluate("document.documentElement.scrollWidth") == width, name
    weighed(phone, space)
    assert phone.page.evaluate("document.documentElement.scrollWidth") == width


@pytest.mark.parametrize("used", [filled, weighed])
def test_text_alone_enlarged_to_200_percent_stays_in_its_boxes(
    phone: Phone, space: WebSpace, used: Callable[[Phone, WebSpace], None]
) -> None:
    used(phone, space)
    page = phone.page
    page.evaluate("document.documentElement.style.fontSize = '36px'")

    assert page.evaluate("document.documentElement.scrollWidth") == PHONE["width"]
    over = page.evaluate(
        """[...document.querySelectorAll("button, label, .verdict, legend, p, summary")]
          .filter((node) => node.checkVisibility() && node.clientWidth > 1)
          .filter((node) => node.scrollWidth > node.clientWidth + 1)
          .map((node) => node.outerHTML.slice(0, 90))"""
    )
    assert over == []


def test_the_night_is_kept_dark(phones: Callable[..., Phone], space: WebSpace) -> None:
    phone = phones(color_scheme="dark")
    phone.opens(space.scanned("3"))
    paper = phone.page.evaluate("getComputedStyle(document.body).backgroundColor")
    field = phone.page.evaluate("getComputedStyle(document.querySelector('input.reading')).backgroundColor")

    assert [max(map(int, re.findall(r"\d+", one)[:3])) < 32 for one in (paper, field)] == [True, True]


def tab_to(page: Page, label: str) -> None:
    """Press Tab until a key or a field has the focus, and is seen to have it."""
    for _ in range(40):
        page.keyboard.press("Tab")
        name = page.evaluate(
            "(document.activeElement.labels?.[0] || document.activeElement).textContent.trim()"
        )
        if name == label:
            outline = page.evaluate(
                """[document.activeElement, document.activeElement.parentElement]
                  .some((node) => getComputedStyle(node).outlineStyle !== "none")"""
            )
            assert outline, f"{label} is not seen to have the focus"
            return
    pytest.fail(f"{label} is not reached")


def test_a_keyboard_alone_does_it(phone: Phone, space: WebSpace) -> None:
    page = phone.page
    phone.opens(space.scanned("3"))

    tab_to(page, "Cold")
    page.keyboard.press("Space")
    tab_to(page, "Steer left")
    page.keyboard.type("104")
    tab_to(page, "Steer right")
    page.keyboard.type("105")
    page.keyboard.press("Enter")
    page.locator("#said").get_by_text("ADD: coach steer left.").wait_for()
    assert page.evaluate("document.activeElement.id") == "said"

    tab_to(page, "Fault")
    page.keyboard.press("Enter")
    tab_to(page, "What is wrong")
    page.keyboard.type("lamp dark")
    tab_to(page, "Keep")
    page.keyboard.press("Enter")
    page.locator("#said").get_by_text("Kept: lamp dark.").wait_for()


def test_a_keyboard_alone_enters_a_weighing(phone: Phone, space: WebSpace) -> None:
    page = phone.page
    phone.opens(space.scanned("12"))

    tab_to(page, "Weighing")
    page.keyboard.press("Enter")
    tab_to(page, "Axles")
    page.keyboard.press("ArrowRight")
    tab_to(page, "Left")
    page.keyboard.type("5480")
    tab_to(page, "Right")
    page.keyboard.type("5240")
    tab_to(page, "Fresh")
    page.keyboard.press("f")
    tab_to(page, "Nothing")
    page.keyboard.press("ArrowRight")
    tab_to(page, "Who or what")
    page.keyboard.type("two people")
    tab_to(page, "In which")
    page.keyboard.press("c")
    tab_to(page, "Keep")
    page.keyboard.press("Enter")
    said = "Kept: coach steer left 5480 lb, right 5240 lb, aboard: two people, in coach, coach fresh full."
    page.locator("#said").get_by_text(said).wait_for()


def test_what_a_reading_means_is_read_aloud_and_every_field_has_a_name(phone: Phone, space: WebSpace) -> None:
    filled(phone, space)
    tree = phone.page.locator("body").aria_snapshot()

    assert 'textbox "Steer left": "84"' in tree
    assert re.search(r"status:\s+- strong: FLAT\s+- text: Add no air. Stand clear.", tree)
    assert 'group "Coach, steer, psi"' in tree
    assert "alert:" in tree
    assert re.search(r'img "Coach, steer: 2 readings, 104 to 118 psi; the last', tree)
    field = phone.page.get_by_label("Front left", exact=True)
    described = phone.page.locator(f"#{field.get_attribute('aria-describedby')}")
    assert described.inner_text().startswith("1040 can hardly be right.")


def test_a_weighing_is_read_aloud_with_the_names_and_ratings_of_what_is_weighed(
    phone: Phone, space: WebSpace
) -> None:
    weighed(phone, space)
    tree = phone.page.locator("#form").aria_snapshot()

    steer = tree.partition('group "Coach, steer"')[2].partition("- group")[0]
    assert "rating 12,000 lb" in steer
    assert 'textbox "Left": "6480"' in steer
    assert 'status: "Left and right: 12,720 lb"' in steer
    assert re.search(r"status:\s+- strong: TOO HEAVY\s+- text: .720 lb over its rating", steer)


def test_the_history_is_drawn_from_what_is_kept(phone: Phone, space: WebSpace) -> None:
    phone.opens(space.scanned("3"))
    page, year = phone.page, phone.page.evaluate("new Date().getFullYear()")
    for day, pressure in ((f"{year}-06-03", "103"), (f"{year}-06-01", "105"), (f"{year}-06-02", "104")):
        page.get_by_label("Cold", exact=True).check()
        phone.reads(steer_left=pressure)
        page.get_by_text("More, who, when").click()
        page.get_by_label("When, if not now").fill(f"{day}T07:10")
        phone.keeps()
    (chart,) = page.get_by_role("img").all()
    heights = [float(dot.get_attribute("cy") or 0) for dot in chart.locator("circle").all()]
    places = [float(dot.get_attribute("cx") or 0) for dot in chart.locator("circle").all()]

    said = "Coach, steer: 3 readings, 103 to 105 psi; the last 103 on Jun 3, 07:10"
    assert chart.get_attribute("aria-label") == said
    assert places == sorted(places)
    assert heights == sorted(heights)
    assert chart.locator("text").all_text_contents() == ["84", "105", "L 103", "Jun 1", "Jun 3"]
    phone.page.get_by_role("button", name="Other").click()
    phone.page.get_by_role("button", name="Fill", exact=True).click()
    for amount, full in (("60", "To the top"), ("20", "Not full")):
        page.get_by_label("diesel", exact=True).check()
        page.get_by_label("How much went in").fill(amount)
        page.get_by_label(full).check()
        phone.keeps()
    bars = page.get_by_role("img", name="Diesel: 2 readings, 20 to 60 gal").locator("rect.bar")
    assert [bar.get_attribute("class") for bar in bars.all()] == ["bar", "bar open"]
