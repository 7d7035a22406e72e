"""Bounds of drawings in the tags of a file: in points of the page from its lower left corner, as PDF asks.

Why: WeasyPrint 70 states pixels from the top, and those on a reduced side as if it were not reduced.
"""

from collections.abc import Iterator
from typing import Any

_POINTS = 0.75
"""A CSS pixel is 1/96 inch, a point 1/72."""


def mend_bounds(document: Any, pdf: Any) -> None:  # noqa: ANN401 - WeasyPrint has no types.
    """Write the bounds of each drawing as they are on paper: a finisher of WeasyPrint's files."""
    places = {
        (reference, corner): matrix
        for reference, page in zip(pdf.page_references, document.pages, strict=True)
        for corner, matrix in _drawn(page._page_box, None)  # noqa: SLF001 - the only access to the boxes.
    }
    heights = {
        reference: page.height for reference, page in zip(pdf.page_references, document.pages, strict=True)
    }
    for figure in pdf.objects:
        if isinstance(figure, dict) and figure.get("S") == "/Figure":
            left, top, right, bottom = (float(edge) for edge in figure["A"]["BBox"])
            if (figure["Pg"], (left, top)) not in places:
                continue  # What could not be loaded is told by its reader.
            matrix, height = places[figure["Pg"], (left, top)], heights[figure["Pg"]]
            if matrix is not None:
                left, top = matrix.transform_point(left, top)
                right, bottom = matrix.transform_point(right, bottom)
            bounds = (left, height - bottom, right, height - top)
            figure["A"]["BBox"][:] = [round(edge * _POINTS, 3) for edge in bounds]


def _drawn(box: Any, above: Any) -> Iterator[tuple[tuple[float, float], Any]]:  # noqa: ANN401
    """Upper left corner of each replaced box, and the matrix it is drawn by."""
    own = box.transformation_matrix
    matrix = own @ above if own and above else own or above
    if hasattr(box, "replacement"):
        yield (box.content_box_x(), box.content_box_y()), matrix
    for child in getattr(box, "children", ()):
        yield from _drawn(child, matrix)
