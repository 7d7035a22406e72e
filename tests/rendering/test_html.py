from dataclasses import replace

import pytest
from jinja2 import StrictUndefined

from binder.cards.blocks import Card, Heading, Line, Side
from binder.rendering import html
from binder.rendering.html import NotInTypeface, TemplateFault, ring_html
from tests.rendering.synthetic_cards import BINDER, COUPLING, RING, TIRES
from tests.rendering.whole_binder import binder_html


def test_a_template_is_not_trusted_with_what_people_wrote() -> None:
    card = replace(TIRES, title="<b>Tires</b> & more")

    written = ring_html([card], "letter")

    assert "&lt;b&gt;Tires&lt;/b&gt; &amp; more" in written


def test_a_target_may_wrap_and_gains_no_character() -> None:
    written = ring_html([replace(TIRES, target="HTTPS://EXAMPLE.COM/log/tires")], "letter")

    assert "HTTPS://<wbr/>EXAMPLE.<wbr/>COM/<wbr/>log/<wbr/>tires" in written


def test_a_card_without_target_has_no_code() -> None:
    assert 'class="code"' not in ring_html([replace(TIRES, target="")], "letter")
    assert ring_html([TIRES], "letter").count('class="code"') == 1


@pytest.mark.parametrize("start", ["", "Reprint if ", "reprint if: "])
def test_the_lead_of_the_line_above_the_footer_stands_once(start: str) -> None:
    written = ring_html([replace(TIRES, wrong_as_soon_as=f"{start}a wheel is changed.")], "letter")

    assert "<b>Reprint if</b> a wheel is changed." in written
    assert written.lower().count("reprint if") == 1


def test_a_character_that_the_typeface_lacks_is_refused_with_its_card() -> None:
    card = Card("1", "leaving", "Leaving", (Side("", (Heading("Door \u25a0"),)),), "")

    with pytest.raises(NotInTypeface) as caught:
        ring_html([card], "letter")

    assert str(caught.value) == "the typeface lacks characters of Leaving: \u25a0"


def test_a_failing_template_names_every_template_on_the_way(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(html, "_breakable", lambda _: StrictUndefined(name="target"))

    with pytest.raises(TemplateFault) as caught:
        ring_html([TIRES], "letter")

    frames = [line.split(",")[0] for line in str(caught.value).splitlines()[1:]]
    assert frames[0] == "  in templates/layouts/ring.html"


def test_ring_and_binder_share_a_side_word_for_word() -> None:
    def face(written: str) -> str:
        start = written.index('<p class="use">Read, then do. Level')
        return written[start : written.index('<div class="foot"', start)]

    in_ring, in_binder = face(ring_html([COUPLING], "letter")), face(binder_html(BINDER, "letter"))

    assert in_ring.replace("h2", "h3") == in_binder


def test_the_group_says_the_usual_consequence_and_a_line_its_own() -> None:
    lines = (
        Line("A", "IN", consequence="FIX FIRST"),
        Line("B", "IN", consequence="FIX FIRST"),
        Line("C", "IN", consequence="DO NOT MOVE", killer=True),
    )
    written = ring_html([Card("1", "leaving", "Leaving", (Side("", (Heading("G"), *lines)),), "")], "letter")

    assert written.count("if not: FIX FIRST") == 1
    assert written.count("if not: DO NOT MOVE") == 1


def test_a_group_with_a_line_that_says_none_says_none_for_all() -> None:
    lines = (Line("A", "IN", consequence="OK TO GO"), Line("B", "IN"))
    written = ring_html([Card("1", "leaving", "Leaving", (Side("", (Heading("G"), *lines)),), "")], "letter")

    assert '<h2 class="group">G</h2>' in written
    assert written.count("if not: OK TO GO") == 1


def test_the_same_cards_give_the_same_text() -> None:
    assert ring_html(RING, "a4") == ring_html(RING, "a4")


def test_a_detail_and_a_consequence_below_it_read_as_two() -> None:
    line = Line("Hubs, near the hand", "MATES ALIKE", "or 50\u00a0°F over its mate", "DO NOT MOVE", ticks=4)
    written = ring_html([Card("1", "leaving", "Leaving", (Side("", (line,)),), "")], "letter")

    assert (
        '<small>or 50\u00a0°F over its mate · <span class="soft">if not: DO NOT MOVE</span></small>'
        in written
    )
