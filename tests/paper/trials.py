"""Field trials: what of two printings is still read out of focus, in glare, in rain, from a copy, by a phone.

``python -m tests.paper.trials BEFORE AFTER`` compares two folders that ``binder build`` wrote, in one run and
with the same seeds: numbers by their size of type with tesseract, codes with two readers. Tesseract is not
among the test tools (``apt-get install tesseract-ocr``): this is a command, and no test waits for it.
"""

import re
import subprocess
import sys
from collections import defaultdict
from collections.abc import Callable, Iterator
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any, NamedTuple

import cv2
import numpy as np
import zxingcpp
from numpy.typing import NDArray

from tests import paper_checks as paper
from tests.paper.printings import Sheet

Image = NDArray[np.uint8]
Chance = np.random.Generator
Degraded = Callable[[Image, Chance], Image]

DPI = 300
MM = DPI / 25.4
"""Pixels of a millimeter."""

VALUE_SIZES = (13, 24, 32, 40)
AROUND, OWN = 4.0, 1.0
"""Millimeters of ground around what is read, and of these of its own card: beyond stand its neighbors."""

CAPITAL = 0.73
"""Height of a digit of the typeface, as a share of its size."""

MIDDLE_GRAY = 127
TESSERACT = ("tesseract",)
"""The reader, as it is found where programs are."""

NUMBERS = ("-c", "tessedit_char_whitelist=0123456789.,/:")
READINGS = ((42, "7"), (32, "8"))
"""Height of a digit in pixels, and whether it is read as a line (7) or as a word (8)."""

SAMPLE = 40
"""Numbers of 13 points that are tried; of larger ones there are fewer, and all are."""


class Target(NamedTuple):
    """A number or a code as it is printed: its size of type (0: a code), its text, its picture."""

    points: int
    text: str
    picture: Image


def defocus(millimeters: float) -> Degraded:
    """Blur by a disc, as an eye or a lens that is not in focus."""
    reach = max(1, round(millimeters * MM / 2))
    ys, xs = np.mgrid[-reach : reach + 1, -reach : reach + 1]
    disc = (np.hypot(xs, ys) <= millimeters * MM / 2).astype(np.float64)
    return lambda image, _: _bytes(
        cv2.filter2D(image.astype(np.float64), -1, disc / disc.sum(), borderType=1)
    )


def low_contrast(image: Image, chance: Chance) -> Image:
    """Gray on gray, black at four fifths of white, with grain."""
    return _grained(255 - (255 - image.astype(np.float64)) * 0.2, 4, chance)


def glare(image: Image, chance: Chance) -> Image:
    """A lamp in the film: a spot 14 mm wide that is white in its middle."""
    ys, xs = np.mgrid[: image.shape[0], : image.shape[1]]
    x, y = chance.uniform(0, image.shape[1]), chance.uniform(0, image.shape[0])
    spot = np.clip(1.6 * np.exp(-(np.hypot(xs - x, ys - y) ** 2) / (2 * (3.5 * MM) ** 2)), 0, 1)
    return _bytes(image * (1 - spot) + 255 * spot)


def rain(image: Image, chance: Chance) -> Image:
    """Drops of 2 to 5 mm on the film, two on three square centimeters: each smears what it covers."""
    wet, soft = image.astype(np.float64), defocus(0.8)(image, chance).astype(np.float64)
    ys, xs = np.mgrid[: image.shape[0], : image.shape[1]]
    for _ in range(max(1, round(image.size / (10 * MM) ** 2 * 2 / 3))):
        x, y = chance.uniform(0, image.shape[1]), chance.uniform(0, image.shape[0])
        drop = np.hypot(xs - x, ys - y) < chance.uniform(1, 2.5) * MM
        moved = np.roll(soft, (chance.integers(-6, 7), chance.integers(-6, 7)), (0, 1))
        wet[drop] = moved[drop] * 0.85 + 25
    return _bytes(wet)


def third_copy(image: Image, chance: Chance) -> Image:
    """Copied three times: each a little turned, soft, harder in contrast, with dirt."""
    copy = image
    for _ in range(3):
        turn = cv2.getRotationMatrix2D((copy.shape[1] / 2, copy.shape[0] / 2), chance.uniform(-0.6, 0.6), 1)
        copy = _bytes(cv2.warpAffine(copy, turn, copy.shape[::-1], borderMode=cv2.BORDER_REPLICATE))
        soft = cv2.GaussianBlur(copy, (0, 0), 0.12 * MM).astype(np.float64)
        copy = _grained((soft - 128) * 1.6 + 128 + chance.uniform(-20, 20), 10, chance)
    return copy


def phone(image: Image, chance: Chance) -> Image:
    """A picture of 80 dpi from askew, with grain and the losses of its file."""
    height, width = image.shape
    edge = [[0, 0], [width, 0], [width, height], [0, height]]
    askew = [
        [x + chance.uniform(-0.04, 0.04) * height, y + chance.uniform(-0.04, 0.04) * height] for x, y in edge
    ]
    tilt = cv2.getPerspectiveTransform(np.array(edge, np.float32), np.array(askew, np.float32))
    seen = cv2.warpPerspective(image, tilt, (width, height), borderMode=cv2.BORDER_REPLICATE)
    small = cv2.resize(seen, None, fx=80 / DPI, fy=80 / DPI, interpolation=cv2.INTER_AREA)
    coded = cv2.imencode(".jpg", _grained(small, 6, chance), [cv2.IMWRITE_JPEG_QUALITY, 60])[1]
    back = np.asarray(cv2.imdecode(coded, cv2.IMREAD_GRAYSCALE))
    return _bytes(cv2.resize(back, (width, height), interpolation=cv2.INTER_CUBIC))


BY_CHANCE, AGAIN = {"glare", "rain"}, 5
"""Trials that hit or miss what is to be read, and how often each is tried."""

TRIALS: dict[str, Degraded] = {
    "as printed": lambda image, _: image,
    "defocus 0.5 mm": defocus(0.5),
    "defocus 1.2 mm": defocus(1.2),
    "defocus 1.8 mm": defocus(1.8),
    "defocus 2.4 mm": defocus(2.4),
    "contrast 20 %": low_contrast,
    "glare": glare,
    "rain": rain,
    "third copy": third_copy,
    "phone, 80 dpi": phone,
}


def _bytes(image: Any) -> Image:
    return np.asarray(np.clip(np.rint(image), 0, 255).astype(np.uint8))


def _grained(image: Any, grain: float, chance: Chance) -> Image:
    noise = chance.normal(0, grain, image.shape)
    return _bytes(image + noise)


def targets(cards_pdf: bytes) -> list[Target]:
    """Every large number of a ring, a sample of those of 13 points, and every code."""
    found: dict[int, list[Target]] = defaultdict(list)
    for sheet in map(Sheet, paper.pages(cards_pdf)):
        bitmap = sheet.page.render(scale=DPI / 72, grayscale=True)
        height = sheet.page.get_height()
        page = np.asarray(bitmap.to_numpy().reshape(bitmap.height, bitmap.width))
        for points, text, area in _numbers(sheet):
            found[points].append(Target(points, text, _alone(_cut(page, area, height, OWN))))
        found[0] += [Target(0, "", _cut(page, area, height, AROUND)) for area in sheet.codes]
    small = found[VALUE_SIZES[0]]
    drawn = np.random.default_rng(len(small)).permutation(len(small))[:SAMPLE]
    found[VALUE_SIZES[0]] = [small[at] for at in drawn]
    return [one for each in found.values() for one in each]


def _numbers(sheet: Sheet) -> Iterator[tuple[int, str, paper.Area]]:
    """Words of one size that hold a digit, each with where it stands."""
    word: list[paper.Glyph] = []
    for glyph in [*sheet.glyphs, None]:
        if word and (glyph is None or glyph.order != word[-1].order + 1 or glyph.points != word[-1].points):
            text, points = "".join(one.letter for one in word), round(word[0].points)
            if points in VALUE_SIZES and re.search(r"\d", text):
                yield points, text, _around(word)
            word = []
        word += [glyph] if glyph else []


def _around(word: list[paper.Glyph]) -> paper.Area:
    areas = [glyph.area for glyph in word]
    return paper.Area(
        min(one.left for one in areas),
        min(one.bottom for one in areas),
        max(one.right for one in areas),
        max(one.top for one in areas),
    )


def _cut(page: Image, area: paper.Area, height: float, around: float) -> Image:
    scale, more = DPI / 72, around * MM
    top, bottom = (height - area.top) * scale - more, (height - area.bottom) * scale + more
    left, right = area.left * scale - more, area.right * scale + more
    return np.ascontiguousarray(page[max(0, int(top)) : int(bottom), max(0, int(left)) : int(right)])


def _alone(word: Image) -> Image:
    """A word on its own ground, without its neighbors."""
    ground = int(np.median(np.concatenate([word[0], word[-1], word[:, 0], word[:, -1]])))
    more = round((AROUND - OWN) * MM)
    return np.asarray(cv2.copyMakeBorder(word, more, more, more, more, cv2.BORDER_CONSTANT, value=[ground]))


def read_by_tesseract(pictures: list[Image], sizes: list[int]) -> list[set[str]]:
    """Digits of each picture, read twice: the reader misses some clean ones either way."""
    found: list[set[str]] = [set() for _ in pictures]
    for height, layout in READINGS:
        with TemporaryDirectory() as folder:
            names = [str(Path(folder) / f"{at}.png") for at in range(len(pictures))]
            for name, picture, points in zip(names, pictures, sizes, strict=True):
                size = height / (points / 72 * DPI * CAPITAL)
                view = cv2.resize(_cleared(picture), None, fx=size, fy=size, interpolation=cv2.INTER_AREA)
                cv2.imwrite(name, view)
            listed = Path(folder) / "list.txt"
            listed.write_text("\n".join(names), encoding="utf-8")
            done = subprocess.run(
                [*TESSERACT, str(listed), "stdout", "--psm", layout, *NUMBERS],
                check=True,
                capture_output=True,
            )
        for each, text in zip(found, done.stdout.decode().split("\f"), strict=False):
            each.add(digits(text))
    return found


def _cleared(picture: Image) -> Image:
    """Black on white, whatever it was."""
    light = picture if np.median(picture) > MIDDLE_GRAY else 255 - picture
    low, high = np.percentile(light, (1, 90))
    return _bytes((light.astype(np.float64) - low) * 255 / max(1.0, high - low))


def digits(text: str) -> str:
    """The digits of a text alone."""
    return re.sub(r"\D", "", text)


def read_by_opencv(image: Image) -> str:
    """The first reading of its two finders at any of three sizes: each misses some clean codes."""
    for scale in (1.0, 0.5, 0.7):
        view = cv2.resize(image, None, fx=scale, fy=scale, interpolation=cv2.INTER_AREA)
        for finder in (cv2.QRCodeDetector(), cv2.QRCodeDetectorAruco()):
            text = str(finder.detectAndDecode(view)[0])
            if text:
                return text
    return ""


def shares(cards_pdf: bytes) -> dict[tuple[str, str], float]:
    """For each trial, and each size of type or reader of codes: how much of a hundred is read."""
    every = targets(cards_pdf)
    numbers = [one for one in every if one.points]
    codes = [one.picture for one in every if not one.points]
    found: dict[tuple[str, str], float] = {}
    for trial, degraded in TRIALS.items():
        chance = np.random.default_rng([*trial.encode()])
        again = AGAIN if trial in BY_CHANCE else 1
        tried = numbers * again
        read = read_by_tesseract(
            [degraded(one.picture, chance) for one in tried], [one.points for one in tried]
        )
        for size in VALUE_SIZES:
            hits = [digits(n.text) in r for n, r in zip(tried, read, strict=True) if n.points == size]
            found[trial, f"{size} pt ({len(hits) // again})"] = share(hits)
        views = [degraded(code, chance) for code in codes * again]
        found[trial, f"zxing ({len(codes)})"] = share([bool(zxingcpp.read_barcodes(view)) for view in views])
        found[trial, f"opencv ({len(codes)})"] = share([bool(read_by_opencv(view)) for view in views])
    return found


def share(hits: list[bool]) -> float:
    """What is read, of a hundred."""
    return 100 * sum(hits) / len(hits) if hits else float("nan")


def main(before: Path, after: Path) -> None:
    """Print what is read of both, in percent."""
    tables = [shares((folder / "cards.pdf").read_bytes()) for folder in (before, after)]
    for table, folder in zip(tables, (before, after), strict=True):
        columns = list(dict.fromkeys(column for _, column in table))
        print(f"\n{folder}\n{'percent read':18}" + "".join(f"{column:>14}" for column in columns))  # noqa: T201
        for trial in TRIALS:
            print(f"{trial:18}" + "".join(f"{table[trial, column]:14.0f}" for column in columns))  # noqa: T201


if __name__ == "__main__":
    main(*map(Path, sys.argv[1:3]))
