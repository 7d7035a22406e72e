"""In a browser: the page asks for itself alone, runs itself alone, and shows what was written as text."""

from collections.abc import Callable
from pathlib import Path

from playwright.sync_api import Route

from tests.log_page.conftest import Phone, WebSpace
from tests.log_page.sites import imported, site, written
from tests.printed.folders import changed, copied


def test_a_newer_edition_takes_over_where_nothing_typed_is_lost(
    phone: Phone, space: WebSpace, tmp_path: Path
) -> None:
    phone.opens(space.scanned("3"))
    newer = copied(tmp_path)
    changed(newer, ("margin: 5 psi  ", "margin: 8 psi  "))
    written(site(newer), space.folder)
    fresh = space.scanned("3")

    phone.page.goto(f"{space.address}?{fresh.partition('#')[0][-1]}#{fresh.partition('#')[2]}")
    phone.page.get_by_text(f"Code {space.code('3')}: in force").wait_for()


def test_the_page_asks_for_nothing_but_itself(phone: Phone, space: WebSpace) -> None:
    hosts: list[str] = []
    phone.page.context.on("request", lambda one: hosts.append(one.url))
    phone.opens(space.scanned("3"))
    first = {name.removeprefix('"GET ') for name in space.asked}
    own = {"/larkspur/", *(f"/larkspur/{file.name}" for file in space.folder.iterdir())}
    assert first <= own
    assert all(url.startswith((space.address, "blob:")) for url in hosts)

    space.asked.clear()
    phone.page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="104")
    phone.keeps()
    phone.page.goto(space.scanned("6"))
    phone.page.reload()
    phone.page.locator("#entries").wait_for(state="attached")
    assert set(space.asked) <= {"/larkspur/worker.js"}


def test_scripts_that_are_not_the_page_s_own_are_refused(
    phones: Callable[..., Phone], space: WebSpace
) -> None:
    phone = phones()
    page = phone.page

    def with_a_script(route: Route) -> None:
        body = (
            (space.folder / "index.html")
            .read_text("utf-8")
            .replace("</body>", "<script>window.x = 1</script></body>")
        )
        route.fulfill(body=body, content_type="text/html")

    page.route("**/larkspur/", with_a_script)
    phone.opens(space.address)

    policy = page.locator("meta[http-equiv]").get_attribute("content") or ""
    assert policy.startswith("default-src 'none';")
    assert "unsafe" not in policy
    assert "*" not in policy
    assert page.evaluate("window.x") is None
    assert "Content Security Policy" in phone.console.pop()


def test_the_page_opens_from_a_file(phone: Phone, space: WebSpace, tmp_path: Path) -> None:
    page = phone.page
    page.goto(f"{(space.folder / 'index.html').as_uri()}#3.{space.code('3')}")
    page.get_by_text("Opened from a file").wait_for()
    page.get_by_label("Cold", exact=True).check()
    phone.reads(steer_left="104")
    phone.keeps()
    page.reload()

    assert page.locator("#entries li").count() == 1
    assert len(imported(space.rig, phone.hands_over(tmp_path), tmp_path)) == 1


def test_what_people_wrote_is_shown_as_text(
    phones: Callable[..., Phone], tmp_path: Path, space: WebSpace
) -> None:
    name = "<img src=x onerror=alert(1)></script><script>window.x=1</script>"
    rig = copied(tmp_path)
    changed(rig, ("name: Larkspur", f"name: '{name}'"))
    written(site(rig), space.folder)
    phone = phones()
    phone.opens(f"{space.address}#6")
    phone.page.get_by_label("What is wrong").fill(name)
    phone.keeps()

    assert phone.page.evaluate("window.x") is None
    assert phone.page.locator("img").count() == 0
    assert name in phone.page.locator("#rig").inner_text()
    assert name in phone.page.locator("#entries").inner_text()
    assert phone.hands_over(tmp_path).name.startswith("img-src-x")


def test_where_a_browser_keeps_nothing_the_page_says_so(
    phones: Callable[..., Phone], space: WebSpace
) -> None:
    phone = phones()
    phone.page.add_init_script("Object.defineProperty(window, 'indexedDB', { value: undefined });")
    phone.opens(space.scanned("6"))
    phone.page.get_by_text("This browser keeps nothing: hand over before you close it.").wait_for()
    phone.page.get_by_label("What is wrong").fill("no crank")

    assert phone.keeps() == "Kept: no crank."
