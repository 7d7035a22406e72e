"""A phone with a browser, and web space on which the page of a demo lies, as an owner would put it there."""

import shutil
import threading
from collections.abc import Callable, Iterator
from functools import partial
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from playwright.sync_api import Browser, Locator, Page, sync_playwright

from tests.log_page.sites import site, told, written
from tests.printed.folders import changed, copied, put_in_hand

CHROMIUM = shutil.which("chromium") or "/usr/bin/chromium"
ARGUMENTS = (
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)
PHONE = {"width": 360, "height": 740}


class WebSpace(NamedTuple):
    """Where the page lies, what was asked for there, and the folder of the rig it is of."""

    folder: Path
    address: str
    asked: list[str]
    rig: Path

    @property
    def known(self) -> dict[str, Any]:
        """What the page knows."""
        return told({"rig.js": (self.folder / "rig.js").read_bytes()})

    def code(self, card: str) -> str:
        """The code in force of a card."""
        return next(str(one["code"]) for one in self.known["cards"] if one["id"] == card)

    def scanned(self, card: str) -> str:
        """The address that the code on a card of today leads to."""
        return f"{self.address}#{card}.{self.code(card)}"


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    with sync_playwright() as playwright:
        found = playwright.chromium.launch(executable_path=CHROMIUM, args=ARGUMENTS)
        yield found
        found.close()


@pytest.fixture(scope="session")
def made_once(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, dict[str, bytes]]:
    """A rig of which a card in hand is out of date, and its page."""
    rig = copied(tmp_path_factory.mktemp("rigs"))
    changed(rig, ("margin: 5 psi  ", "margin: 3 psi  "))
    put_in_hand(rig, "mechanic")
    changed(rig, ("margin: 3 psi  ", "margin: 4 psi  "))
    put_in_hand(rig, "mechanic")
    changed(rig, ("margin: 4 psi  ", "margin: 5 psi  "))
    return rig, site(rig)


@pytest.fixture
def space(made_once: tuple[Path, dict[str, bytes]], tmp_path: Path) -> Iterator[WebSpace]:
    rig, files = made_once
    folder = written(files, tmp_path / "www" / "larkspur")
    asked: list[str] = []

    class Handler(SimpleHTTPRequestHandler):
        def log_message(self, *_: object) -> None:
            asked.append(self.path)

    handler = partial(Handler, directory=str(folder.parent))
    with ThreadingHTTPServer(("127.0.0.1", 0), handler) as server:
        thread = threading.Thread(target=server.serve_forever, kwargs={"poll_interval": 0.01})
        thread.start()
        yield WebSpace(folder, f"http://127.0.0.1:{server.server_port}/larkspur/", asked, rig)
        server.shutdown()
        thread.join()


class Phone(NamedTuple):
    """A page in a browser of its own, and what its console told."""

    page: Page
    console: list[str]

    def opens(self, address: str) -> None:
        """Open an address and wait until the page is kept in the phone."""
        self.page.goto(address)
        self.page.get_by_text("it opens without signal").wait_for()

    def reads(self, **tires: str) -> None:
        """Type what the gauge reads, tire by tire."""
        for tire, text in tires.items():
            self.page.get_by_label(tire.replace("_", " ").capitalize(), exact=True).fill(text)

    def verdict(self, tire: str) -> str:
        """What stands beside a tire, once what was typed is meant."""
        field = self.page.get_by_label(tire, exact=True)
        field.dispatch_event("change")
        beside = self.page.locator(f"output[for={field.get_attribute('id')}]")
        return beside.inner_text().replace("\u00a0", " ")

    def keeps(self) -> str:
        """Keep what was typed; give what the page says."""
        self.page.evaluate("document.getElementById('said').textContent = ''")
        self.page.locator("#keep").click()
        self.page.locator("#said:not(:empty)").wait_for()
        return self.page.locator("#said").inner_text()

    def hands_over(self, to: Path) -> Path:
        """Save the file, as from a phone to a laptop."""
        with self.page.expect_download() as found:
            self.page.get_by_role("button", name="Save the file").click()
        file = to / found.value.suggested_filename
        found.value.save_as(file)
        return file


def weigh(phone: Phone, what: str, **weights: str) -> Locator:
    """Type what the scale says of an axle or a whole vehicle; give its group."""
    group = phone.page.get_by_role("group", name=what, exact=True)
    for label, text in weights.items():
        group.get_by_label(label, exact=True).fill(text)
        group.get_by_label(label, exact=True).blur()
    return group


@pytest.fixture
def phones(browser: Browser, space: WebSpace) -> Iterator[Callable[..., Phone]]:
    """Make phones: each a browser profile of its own; none may tell anything on its console.

    They are put away before the web space is, which they may still ask.
    """
    assert space.folder.is_dir()
    made: list[Phone] = []

    def phone(**options: Any) -> Phone:
        given: dict[str, Any] = {
            "viewport": PHONE,
            "timezone_id": "America/Denver",
            "accept_downloads": True,
        } | options
        context = browser.new_context(**given)
        context.set_default_timeout(5000)
        page, console = context.new_page(), list[str]()
        page.on("console", lambda one: console.append(one.text))
        page.on("pageerror", lambda one: console.append(str(one)))
        made.append(Phone(page, console))
        return made[-1]

    yield phone
    for one in made:
        one.page.context.close()
        assert one.console == []


@pytest.fixture
def phone(phones: Callable[..., Phone]) -> Phone:
    return phones()
