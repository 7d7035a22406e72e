"""Every code is read back, from paper as it would be printed, by two independent readers."""

from xml.etree.ElementTree import Element, register_namespace, tostring

import cv2
import numpy as np
import pypdfium2
import pytest
import weasyprint
import zxingcpp
from hypothesis import given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from binder.cards.address import log_target
from binder.rendering.qr import CodeTooLong, _bits, _matrix, qr_svg

Image = NDArray[np.uint8]

ADDRESSES = [
    "https://example.com/log",
    "http://example.com",
    "https://log.example.org/Rig/Larkspur",
    "mailto:log@example.com",
    "tel:+1-555-555-0100",
    "geo:44.4605,-110.8281",
]


def written(svg: Element) -> str:
    register_namespace("", "http://www.w3.org/2000/svg")
    return tostring(svg, encoding="unicode")


def printed(text: str, module_mm: float = 0.6) -> Image:
    """A code as 300 dpi picture of a page."""
    page = f"<html lang=en><style>@page{{size:40mm;margin:5mm}}</style>{written(qr_svg(text, module_mm))}"
    pdf = weasyprint.HTML(string=page).write_pdf()
    bitmap = pypdfium2.PdfDocument(pdf)[0].render(scale=300 / 72, grayscale=True)
    return np.ascontiguousarray(bitmap.to_numpy().reshape(bitmap.height, bitmap.width))


def read_by_zxing(image: Image) -> str:
    found = zxingcpp.read_barcodes(image)
    return found[0].text if found else ""


def read_by_opencv(image: Image) -> str:
    """The first reading at six sizes, sharp or soft: the finder of OpenCV misses clean codes at some."""
    for scale in (1.0, 0.5, 0.7, 0.4, 0.85, 0.6):
        sharp = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
        for view in (sharp, cv2.GaussianBlur(sharp, (0, 0), 1.0)):
            text = str(cv2.QRCodeDetector().detectAndDecode(view)[0])
            if text:
                return text
    return ""


def tilted(image: Image) -> Image:
    height, width = image.shape
    corners = np.array([[0, 0], [width, 0], [width, height], [0, height]], np.float32)
    moved = corners + np.array(
        [[0.12 * width, 0.06 * height], [-0.04 * width, 0], [0, 0], [0.02 * width, -0.1 * height]], np.float32
    )
    view = cv2.warpPerspective(
        image, cv2.getPerspectiveTransform(corners, moved), (width, height), borderValue=255
    )
    return np.asarray(view, np.uint8)


def blurred(image: Image) -> Image:
    return np.asarray(cv2.GaussianBlur(image, (0, 0), 2.5), np.uint8)


def with_glare(image: Image) -> Image:
    """A white spot of 8 % of the picture's width upon the data."""
    height, width = image.shape
    view = image.copy()
    cv2.circle(view, (int(0.48 * width), int(0.55 * height)), int(0.04 * width), 255, -1)
    return view


@pytest.mark.parametrize("address", ADDRESSES)
@pytest.mark.parametrize("module_mm", [0.5, 0.6])
def test_two_readers_read_exactly_the_text(address: str, module_mm: float) -> None:
    text = log_target(address, "5.1", "7f3ka")

    image = printed(text, module_mm)

    assert read_by_zxing(image) == text
    assert read_by_opencv(image) == text


@pytest.mark.parametrize("address", ADDRESSES)
def test_a_tilted_blurred_or_glaring_code_is_read(address: str) -> None:
    text = log_target(address, "5.1", "7f3ka")
    image = printed(text)

    for view in (tilted(image), blurred(image), with_glare(image), tilted(blurred(with_glare(image)))):
        assert read_by_zxing(view) == text


@settings(max_examples=25, deadline=None)
@given(
    host=st.from_regex(r"[a-z]{1,8}\.[a-z]{2,3}", fullmatch=True),
    path=st.from_regex(r"(/[A-Za-z0-9_~.-]{0,8}){0,2}", fullmatch=True),
    card=st.from_regex(r"[1-9](\.[1-9])?", fullmatch=True),
    code=st.from_regex(r"[0-9a-z]{5}", fullmatch=True),
)
def test_any_web_address_is_read_back_by_both(host: str, path: str, card: str, code: str) -> None:
    text = log_target(f"https://{host}{path}", card, code)

    image = printed(text)

    assert read_by_zxing(image) == text
    assert read_by_opencv(image) == text


@settings(max_examples=150, deadline=None)
@given(text=st.text(st.characters(min_codepoint=33, max_codepoint=126), min_size=1, max_size=46))
def test_any_ascii_text_is_read_back(text: str) -> None:
    dark = np.array(_matrix(text))

    image = np.where(dark, 0, 255).astype(np.uint8).repeat(5, axis=0).repeat(5, axis=1)

    assert read_by_zxing(image) == text


def test_a_byte_text_of_46_letters_fits_and_47_do_not() -> None:
    """ISO/IEC 18004, capacities of version 4-Q: 46 bytes, 67 alphanumerics, 111 digits."""
    for letter, most in (("a", 46), ("A", 67), ("7", 111)):
        assert len(_matrix(letter * most)) == 33 + 8

        with pytest.raises(CodeTooLong) as caught:
            qr_svg(letter * (most + 1))

        assert caught.value.fitting == most


def test_mixed_modes_take_fewer_bits_than_bytes_alone() -> None:
    text = "HTTPS://LOG.EXAMPLE.ORG/Rig/Larkspur#5.1.7f3ka"

    # 13 + 24 * 5.5 for "HTTPS://LOG.EXAMPLE.ORG/", 12 + 22 * 8 for the rest.
    assert _bits(text) <= 13 + 132 + 12 + 176 < 12 + 8 * len(text)


def test_the_quiet_zone_is_four_modules_white() -> None:
    matrix = np.array(_matrix("HTTPS://EXAMPLE.COM/"))

    inside = matrix[4:-4, 4:-4]

    assert matrix.sum() == inside.sum()
    assert inside[0, 0]
    assert inside[-1, 0]
    assert inside[0, -1]


def test_a_code_is_one_path_and_has_its_text_as_title() -> None:
    drawing = qr_svg("HTTPS://EXAMPLE.COM/?A&B")

    title, _, path = drawing
    assert (title.text, path.tag) == ("QR code: HTTPS://EXAMPLE.COM/?A&B", "{http://www.w3.org/2000/svg}path")
    assert drawing.get("width") == f"{(25 + 8) * 0.6:g}mm"


@pytest.mark.parametrize(("text", "module_mm"), [("", 0.6), ("caf\u00e9", 0.6), ("A", 0.4)])
def test_what_cannot_be_coded_is_refused(text: str, module_mm: float) -> None:
    with pytest.raises(ValueError, match=r"cannot be coded|too small"):
        qr_svg(text, module_mm)
