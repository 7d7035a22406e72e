"""QR codes as drawings: one path, black on white, small enough for a card and robust on gloss film."""

from functools import lru_cache
from itertools import pairwise
from typing import Literal, TypeAlias
from xml.etree.ElementTree import Element, SubElement

_SVG = "{http://www.w3.org/2000/svg}"

_Mode: TypeAlias = Literal[1, 2, 4]
"""Mode indicators of digits, of alphanumerics and of bytes: ISO/IEC 18004."""

_MODES: tuple[_Mode, ...] = (1, 2, 4)

_SMALLEST_MODULE_MM = 0.5
"""Side of a module below which glare on film makes too many codes unreadable: measured."""

_QUIET_ZONE = 4
"""Modules of white around a code: ISO/IEC 18004, 'Quiet zone'."""

_LARGEST_VERSION = 4
"""33 modules a side: with its quiet zone 24.6 mm at 0.6 mm a module, the room a card has."""

_BITS = 384
"""Data bits of version 4 at level Q (48 codewords): ISO/IEC 18004, table of data capacities."""

_HEADER_BITS: dict[_Mode, int] = {1: 14, 2: 13, 4: 12}
"""Mode indicator (4) with character count indicator (10, 9, 8) of versions 1 to 9: ISO/IEC 18004."""

_SIXTHS_OF_BITS: dict[_Mode, int] = {1: 20, 2: 33, 4: 48}
"""What a character costs: 10 bits for 3 digits, 11 for 2 alphanumerics, 8 for a byte: ISO/IEC 18004."""

_LETTERS: dict[_Mode, frozenset[str]] = {
    1: frozenset("0123456789"),
    2: frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ $%*+-./:"),
    4: frozenset(chr(code) for code in range(128)),
}


class CodeTooLong(ValueError):
    """The text does not fit the largest code a card has room for.

    ``fitting`` is how many of its first characters would fit.
    """

    def __init__(self, text: str, fitting: int) -> None:
        """Keep the number of characters that fit."""
        self.fitting = fitting
        super().__init__(f"{text!r} has {len(text)} characters; a card's code holds {fitting} of them")


def qr_svg(text: str, module_mm: float = 0.6) -> Element:
    """Draw a text as QR code at error correction level Q."""
    if module_mm < _SMALLEST_MODULE_MM:
        raise ValueError(f"modules of {module_mm} mm are too small; {_SMALLEST_MODULE_MM} mm or more")
    count, path = _drawn(text)
    side, area = f"{count * module_mm:g}mm", {"width": str(count), "height": str(count)}
    size = {"width": side, "height": side, "viewBox": f"0 0 {count} {count}"}
    svg = Element(f"{_SVG}svg", size | {"shape-rendering": "crispEdges"})
    SubElement(svg, f"{_SVG}title").text = f"QR code: {text}"
    SubElement(svg, f"{_SVG}rect", area | {"fill": "#fff"})
    SubElement(svg, f"{_SVG}path", {"fill": "#000", "d": path})
    return svg


@lru_cache(maxsize=64)
def _drawn(text: str) -> tuple[int, str]:
    """Modules of a side and the path of the dark ones; a card has its code on the ring and in the binder."""
    matrix = _matrix(text)
    return len(matrix), _path(matrix)


def _matrix(text: str) -> list[list[bool]]:
    if not text or not text.isascii():
        raise ValueError(f"{text!r} cannot be coded; it must be plain ASCII and not empty")
    refuse_too_long(text)
    # Only a drawing needs the library: check tells without it that a text is too long.
    import qrcode  # noqa: PLC0415 - check draws no code.
    from qrcode import util  # noqa: PLC0415 - check draws no code.

    code = qrcode.QRCode(error_correction=qrcode.ERROR_CORRECT_Q, border=_QUIET_ZONE)
    for mode, part in _segments(text):
        code.add_data(util.QRData(part.encode("ascii"), mode=mode))
    code.make(fit=True)
    if code.version > _LARGEST_VERSION:
        raise AssertionError(f"version {code.version} for {_bits(text)} bits: the capacity table is wrong")
    return code.get_matrix()


def refuse_too_long(text: str) -> None:
    """Refuse a text that does not fit the largest code a card has room for."""
    if _bits(text) > _BITS:
        raise CodeTooLong(text, max(size for size in range(len(text)) if _bits(text[:size]) <= _BITS))


def _bits(text: str) -> int:
    return sum(
        _HEADER_BITS[mode] + -(-len(part) * _SIXTHS_OF_BITS[mode] // 6) for mode, part in _segments(text)
    )


def _segments(text: str) -> list[tuple[_Mode, str]]:
    """Cut a text into runs of one mode each so that all together take the fewest bits."""
    modes = _cheapest_modes(text)
    cuts = [at for at in range(1, len(text)) if modes[at] != modes[at - 1]]
    return [(modes[start], text[start:end]) for start, end in pairwise([0, *cuts, len(text)]) if start < end]


def _cheapest_modes(text: str) -> tuple[_Mode, ...]:
    """Give each character its mode, by the least cost of every way that ends in a mode.

    Costs are in sixths of a bit; a run that ends is rounded up to whole bits.
    """
    ways: dict[_Mode, tuple[int, tuple[_Mode, ...]]] = {}
    for at, letter in enumerate(text):
        reached: dict[_Mode, tuple[int, tuple[_Mode, ...]]] = {}
        for mode in (mode for mode in _MODES if letter in _LETTERS[mode]):
            fresh = 6 * _HEADER_BITS[mode]
            costs = [
                (cost if before == mode else -(-cost // 6) * 6 + fresh, path)
                for before, (cost, path) in ways.items()
            ]
            cost, path = min(costs) if at else (fresh, ())
            reached[mode] = (cost + _SIXTHS_OF_BITS[mode], (*path, mode))
        ways = reached
    return min(((-(-cost // 6), path) for cost, path in ways.values()), default=(0, ()))[1]


def _path(matrix: list[list[bool]]) -> str:
    """Draw each horizontal run of dark modules as one rectangle of a single path."""
    return "".join(
        f"M{start} {row}h{end - start}v1h{start - end}z"
        for row, line in enumerate(matrix)
        for start, end in _runs(line)
    )


def _runs(line: list[bool]) -> list[tuple[int, int]]:
    edges = [at for at, (left, right) in enumerate(pairwise([False, *line, False])) if left != right]
    return list(zip(edges[::2], edges[1::2], strict=True))
