"""The binder as a whole: its cover, and its parts in order; every string final."""

from dataclasses import dataclass
from typing import TypeAlias

from binder.cards.blocks import Card, Page

Part: TypeAlias = Card | Page


@dataclass(frozen=True)
class BinderDocument:
    """Everything the binder prints.

    ``invented`` is the mark of demo data, empty for a real rig; the four lists stand on the cover
    in this order, an empty one as "none". ``effective`` is a date like 2026-06-01. The contents
    list follows from ``parts``.
    """

    title: str
    rig: str
    trip: str
    effective: str
    invented: str = ""
    do_not_drive: tuple[str, ...] = ()
    attention: tuple[str, ...] = ()
    missing: tuple[str, ...] = ()
    assumed: tuple[str, ...] = ()
    parts: tuple[Part, ...] = ()
