"""The boxes WeasyPrint laid out, and where they stand in points of a page: PDF counts from its lower left.

Read from them are the bounds of drawings, which WeasyPrint 70 states in pixels from the top, and those on a
reduced side as if it were not reduced; and where bars would stand beside the lines.
"""

from collections.abc import Iterator
from typing import Any, NamedTuple, TypeAlias
from xml.etree.ElementTree import Element

from binder.rendering.parts.part import Bar

_POINTS = 0.75
"""A CSS pixel is 1/96 inch, a point 1/72: CSS Values and Units 3, absolute lengths."""

_BESIDE, _WIDTH, _WITHIN = 8.5 / _POINTS, 2.5 / _POINTS, 1 / _POINTS
"""How far right of a line its bar stands, how wide it is, and how far within the line's ends it stays."""

_Edges: TypeAlias = tuple[float, float, float, float]


class LaidOutBox(NamedTuple):
    """A box, the matrix it is drawn by, None where it is drawn as it lies, and the height of its page."""

    box: Any
    matrix: Any
    height: float

    def in_points(self, left: float, top: float, right: float, bottom: float) -> _Edges:
        """Give left, bottom, right and top as they are on paper, of edges in pixels."""
        if self.matrix is not None:
            left, top = self.matrix.transform_point(left, top)
            right, bottom = self.matrix.transform_point(right, bottom)
        edges = (left, self.height - bottom, right, self.height - top)
        first, second, third, last = (round(edge * _POINTS, 3) for edge in edges)
        return first, second, third, last


def laid_out_boxes(page: Any) -> Iterator[LaidOutBox]:  # noqa: ANN401 - WeasyPrint has no types.
    """Walk the boxes of a page, each before what is in it."""
    waiting = [LaidOutBox(page._page_box, None, page.height)]  # noqa: SLF001 - the only access to the boxes.
    while waiting:
        box, above, height = one = waiting.pop()
        own = box.transformation_matrix
        matrix = own @ above if own and above else own or above
        yield one._replace(matrix=matrix)
        waiting += [LaidOutBox(child, matrix, height) for child in reversed(getattr(box, "children", ()))]


def mend_bounds(pages: list[list[LaidOutBox]], pdf: Any) -> None:  # noqa: ANN401 - WeasyPrint has no types.
    """Write the bounds of each drawing as they are on paper, in a file that is about to be written."""
    places = {
        (reference, (one.box.content_box_x(), one.box.content_box_y())): one
        for reference, boxes in zip(pdf.page_references, pages, strict=True)
        for one in boxes
        if hasattr(one.box, "replacement")
    }
    for figure in pdf.objects:
        if isinstance(figure, dict) and figure.get("S") == "/Figure":
            left, top, right, bottom = (float(edge) for edge in figure["A"]["BBox"])
            # What could not be loaded is told by its reader.
            if drawn := places.get((figure["Pg"], (left, top))):
                figure["A"]["BBox"][:] = drawn.in_points(left, top, right, bottom)


def bars_beside(pages: list[list[LaidOutBox]], root: Element) -> Iterator[Bar]:
    """Tell where a bar would stand beside each line of a part; one broken over pages has one on each."""
    lines = (element for element in root.iter() if element.get("data-line") is not None)
    numbers = {element: number for number, element in enumerate(lines)}
    for page, boxes in enumerate(pages):
        # What is in a line has its element too: the outermost box counts.
        outermost = {one.box.element: one for one in reversed(boxes) if one.box.element in numbers}
        for element, line in outermost.items():
            # A row's own box has no edges, its last cell has.
            box = line.box.children[-1] if element.tag == "tr" else line.box
            left = box.padding_box_x() + box.padding_width() + _BESIDE
            top, bottom = box.padding_box_y(), box.padding_box_y() + box.padding_height()
            edges = line.in_points(left, top + _WITHIN, left + _WIDTH, bottom - _WITHIN)
            yield Bar(numbers[element], page, *edges)
