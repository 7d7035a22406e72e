"""HTML to PDF: nothing from the network, nothing silent, nothing clipped, the same bytes every time.

What does not fit is read from the boxes WeasyPrint laid out. Why: an overflow raises nothing in CSS; the
words would be printed over the footer or off the card.
"""

import atexit
import gc
import logging
import math
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from functools import lru_cache, partial
from importlib import import_module
from io import BytesIO
from itertools import count
from typing import Any
from weakref import finalize
from xml.etree.ElementTree import Element, fromstring

from fontTools.ttLib import TTFont
from weasyprint import CSS, HTML
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher, URLFetcherResponse

from binder import templates_folder
from binder.rendering.parts.laid_out_boxes import LaidOutBox, bars_beside, laid_out_boxes, mend_bounds
from binder.rendering.parts.part import RenderedPdf
from binder.rendering.qr import qr_svg

_BASE = "https://templates.invalid/"
"""An address that can never be one: RFC 6761, section 6.4."""

_FAMILIES = {"Binder Sans", "Binder Sans More"}
_VARIANT = "pdf/ua-1"
_COLLECTION_THRESHOLDS = (100_000, 50, 50)
"""Layout makes millions of boxes that live to its end; collecting seldom saves a tenth of its time."""
_RENDERED = count()

_TYPES = {".css": "text/css", ".ttf": "font/ttf"}


class CardsDoNotFit(Exception):
    """Content is larger than its card or page; the text has a line for each place."""


class RenderingFault(Exception):
    """WeasyPrint complained, a font other than the bundled one was used, or the page count is off."""


class _Bundled(URLFetcher):
    """Serves the styles and fonts of the templates folder and nothing else."""

    def fetch(self, url: str, headers: object = None) -> URLFetcherResponse:
        del headers
        folder = templates_folder()
        path = (folder / url.removeprefix(_BASE)).resolve()
        if not url.startswith(_BASE) or not path.is_relative_to(folder) or path.suffix not in _TYPES:
            raise ValueError(f"{url} is not one of the bundled styles and fonts")
        return URLFetcherResponse(url, path.read_bytes(), {"Content-Type": _TYPES[path.suffix]})


def _fetcher() -> Any:  # noqa: ANN401 - WeasyPrint has no types.
    fetcher: Any = _Bundled
    return fetcher()


_ELEMENTS: Any = import_module("cssselect2").ElementWrapper
_FFI: Any = import_module("weasyprint.text.ffi")


class _Markup(HTML):
    """A part's text, which is also well-formed XML: the reader of XML takes a twentieth of the time."""

    def __init__(self, root: Element) -> None:
        """Stand in for what WeasyPrint makes of a text that it reads itself."""
        self.base_url, self.url_fetcher, self.media_type = _BASE, _fetcher(), "print"
        self.wrapper_element = _ELEMENTS.from_html_root(root, content_language=None)
        self.etree_element = self.wrapper_element.etree_element


@lru_cache(maxsize=8)
def _font_read(content: bytes, number: int) -> TTFont:
    return TTFont(BytesIO(content), fontNumber=number)


def _read_once(file: BytesIO, fontNumber: int = -1) -> TTFont:  # noqa: N803 - as fontTools has it.
    """Read a whole font, whose widths each part asks for anew, once."""
    return _font_read(file.getvalue(), fontNumber)


_fonts_of_files: Any = import_module("weasyprint.pdf.fonts")
_fonts_of_files.TTFont = _read_once


def render(html: str, page_count: int | None = None, folder: str = "") -> RenderedPdf:
    """Lay out one part, its fonts whole: those of all parts are then the same.

    ``folder`` is where temporary files go meanwhile; with it what was read of styles and fonts goes.
    """
    with _seldom_collecting(), _complaints() as messages:
        root = fromstring(html)  # noqa: S314 - our own templates, what owners wrote escaped.
        _draw_codes(root)
        source: Any = _Markup(root)
        styles = _styles(folder)
        sheets = [styles.named(name) for name in _taken_out(source)]
        document = source.render(styles.fonts, stylesheets=sheets, pdf_variant=_VARIANT)
        too_large = list(overflows(document.pages))
        if too_large:
            raise CardsDoNotFit("\n".join(too_large))
        if page_count is not None and len(document.pages) != page_count:
            raise RenderingFault(f"{len(document.pages)} pages for {page_count} sides")
        boxes = [list(laid_out_boxes(page)) for page in document.pages]
        bars = tuple(bars_beside(boxes, source.etree_element))
        finisher = partial(_finished, boxes)
        content = document.write_pdf(finisher=finisher, pdf_variant=_VARIANT, full_fonts=True)
    strange = sorted(family for font in document.fonts.values() if (family := font.family) not in _FAMILIES)
    if strange or messages:
        raise RenderingFault("\n".join([*messages, *(f"font {name} was used" for name in strange)]))
    return RenderedPdf(content, len(document.pages), bars)


def _draw_codes(root: Element) -> None:
    """Draw each QR code in its place: only what is laid out is coded."""
    for place in root.iter("div"):
        if text := place.get("data-qr"):
            place.append(qr_svg(text))


def _finished(boxes: list[list[LaidOutBox]], _document: object, pdf: Any) -> None:  # noqa: ANN401 - WeasyPrint has no types.
    """Mend what stands in a part before it is written; a font, the same in all, is compressed once."""
    mend_bounds(boxes, pdf)
    for one in pdf.objects:
        if getattr(one, "compress", False) and "Length1" in one.extra:
            one.stream, one.compress = [_compressed(b"".join(one.stream))], False
            one.extra["Filter"] = "/FlateDecode"


@lru_cache(maxsize=8)
def _compressed(font: bytes) -> bytes:
    return zlib.compress(font, 9)


def _taken_out(source: Any) -> list[str]:  # noqa: ANN401 - WeasyPrint has no types.
    """Take the links to styles out of a part: a style is read once, not for each part again."""
    head = source.etree_element.find("head")
    links = [] if head is None else head.findall("link")
    for link in links:
        head.remove(link)
    return [link.get("href") for link in links]


class _Styles:
    """Styles, each read once, and the fonts they bring, which WeasyPrint keeps as temporary files."""

    def __init__(self) -> None:
        self.fonts = FontConfiguration()
        self._read: dict[str, CSS] = {}
        finalize(self, _release, self.fonts.font_map).atexit = False

    def named(self, name: str) -> CSS:
        """Read a style; one that is complained about is not kept."""
        if name not in self._read:
            with _complaints() as messages:
                style = CSS(url=f"{_BASE}{name}", url_fetcher=_fetcher(), font_config=self.fonts)
            if messages:
                raise RenderingFault("\n".join(messages))
            self._read[name] = style
        return self._read[name]


def _release(font_map: object) -> None:
    """Take the list of the system's fonts from a map that goes: Pango 1.50 keeps it, 250 kB for each."""
    of_fonts = _FFI.ffi.cast("PangoFcFontMap *", font_map)
    _FFI.pangoft2.pango_fc_font_map_set_config(of_fonts, _FFI.ffi.NULL)


@lru_cache(maxsize=2)
def _styles(_folder: str) -> _Styles:
    """What is read for a folder of temporary files; parts of two printings come in turns."""
    return _Styles()


atexit.register(_styles.cache_clear)  # While Python ends, WeasyPrint cannot remove its fonts any more.


def load_styles(folder: str) -> None:
    """Read what all parts have in common, before the first comes, and set a word in each weight."""
    files = [f"css/{file.name}" for file in sorted((templates_folder() / "css").glob("*.css"))]
    links = "".join(f'<link rel="stylesheet" href="{file}"/>' for file in files)
    title = "<title>one</title>"
    render(f'<html lang="en"><head>{title}{links}</head><body><p>one <b>two</b></p></body></html>', 1, folder)


@contextmanager
def _seldom_collecting() -> Iterator[None]:
    before = gc.get_threshold()
    # What the rendering before this one left behind is let go of first: boxes point at each other. What was
    # there before the first is no part of that, and looking through it each time takes a tenth of all.
    gc.collect() if next(_RENDERED) else gc.freeze()
    gc.set_threshold(*_COLLECTION_THRESHOLDS)
    try:
        yield
    finally:
        gc.set_threshold(*before)


class _Kept(logging.Handler):
    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.messages.append(f"WeasyPrint: {record.getMessage()}")


@contextmanager
def _complaints() -> Iterator[list[str]]:
    logger, kept = logging.getLogger("weasyprint"), _Kept()
    logger.addHandler(kept)
    try:
        yield kept.messages
    finally:
        logger.removeHandler(kept)


_POINTS = 0.75
"""A CSS pixel is 1/96 inch, a point 1/72: CSS Values and Units 3, absolute lengths."""

_ROW = 18
"""Height in points of a row of 13-point text (``--row`` in tokens.css)."""

_BETWEEN = 6
"""Least distance in points between the last line and the foot of a side."""

_FORGIVEN = 0.05
"""Points that are only rounding of lengths in floating point."""


def overflows(pages: list[Any]) -> Iterator[str]:
    """Name each card side and page whose content is larger than its place."""
    for page in pages:
        body = page._page_box  # noqa: SLF001 - the only access to the laid-out boxes.
        limit = body.content_box_y() + body.height
        for box in _named(body):
            yield from _one(box, limit)


def _named(box: Any) -> Iterator[Any]:  # noqa: ANN401 - WeasyPrint has no types.
    """Walk the outermost boxes of named elements: an anonymous line box inside one has its element too."""
    for child in _children(box):
        if child.element is not None and child.element.get("data-name"):
            yield child
        else:
            yield from _named(child)


def _children(box: Any) -> list[Any]:  # noqa: ANN401
    # An absolutely placed box stands in the tree behind a placeholder that passes attributes on.
    return list(getattr(box, "children", ()))


def _one(box: Any, page_limit: float) -> Iterator[str]:  # noqa: ANN401
    name = box.element.get("data-name")
    face, foot = _part(box, "face"), _part(box, "foot")
    if face is not None and foot is None:
        yield f"{name}: does not fit on a page of the binder"
    elif face is not None:
        excess = (_bottom(face) - foot.border_box_y()) * _POINTS + _BETWEEN
        if excess > _FORGIVEN:
            lines = math.ceil(excess / _ROW)
            rows = f"{lines} line{'s' if lines > 1 else ''} of {_ROW} pt"
            yield f"{name}: {math.ceil(excess)} pt too long, {rows}"
    below = (box.border_box_y() + box.border_height() - page_limit) * _POINTS
    if below > _FORGIVEN:
        yield f"{name}: reaches {math.ceil(below)} pt below its page"
    place = box if face is None else face
    right = place.content_box_x() + place.width
    wide = max((_right(inner) - right for inner in _inked(place)), default=0) * _POINTS
    if wide > _FORGIVEN:
        yield f"{name}: {math.ceil(wide)} pt too wide"


def _part(box: Any, name: str) -> Any:  # noqa: ANN401
    for child in _children(box):
        if child.element is not None and child.element.get("class") == name:
            return child
        if (inner := _part(child, name)) is not None:
            return inner
    return None


def _bottom(box: Any) -> float:  # noqa: ANN401
    return float(box.position_y + box.margin_height())


def _right(box: Any) -> float:  # noqa: ANN401
    return float(box.position_x + box.width)


def _inked(box: Any) -> Iterator[Any]:  # noqa: ANN401
    for child in _children(box):
        if hasattr(child, "text") or hasattr(child, "replacement"):
            yield child
        yield from _inked(child)
