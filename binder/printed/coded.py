"""Codes of the parts of a set, as a profile makes them on a day."""

from collections.abc import Mapping
from dataclasses import replace
from functools import cached_property

from binder.assessment.assess import Assessment
from binder.cards.blocks import BinderDocument, Card, Part
from binder.cards.codes import cover_code, part_key
from binder.cards.order import binder_document, cover, made_again
from binder.cards.ring.order import ring
from binder.cards.sets import printed_in, sets

COVER, COVER_TITLE = "cover", "Cover"


def parts_of(document: BinderDocument) -> dict[str, Part]:
    """Parts of a printing that have a code, by their keys."""
    return {part_key(part): part for part in (*document.parts, *document.desk)}


def codes_of(document: BinderDocument) -> dict[str, str]:
    """Codes of all parts, the cover's too."""
    return {COVER: cover_code(document)} | {key: part.code for key, part in parts_of(document).items()}


def public_document(assessment: Assessment, name: str) -> BinderDocument:
    """A set as it is without anything private, its cards not laid out."""
    plain = without_private(assessment)
    document = binder_document(plain, ring(plain))
    return printed_in(name, document, document.parts)


def without_private(assessment: Assessment) -> Assessment:
    """The same rig as it is without ``private.yaml``."""
    return assessment._replace(profile=replace(assessment.profile, private=None))


class Coded:
    """Codes of a set, each made when it is asked for; ``like`` are parts that are known to be of the set."""

    def __init__(self, assessment: Assessment | None, name: str, like: Mapping[str, Part]) -> None:
        """Make none yet; without an assessment there are none."""
        self._assessment = without_private(assessment) if assessment else None
        self._set, self._like = name, like
        self._known: dict[str, str] = {}

    @property
    def is_read(self) -> bool:
        """Whether there is a rig to make parts of."""
        return self._assessment is not None

    def code(self, key: str) -> str:
        """The code of a part; empty where there is none, or nothing can be read."""
        if key not in self._known:
            self._known[key] = self._made(key)
        return self._known[key]

    @cached_property
    def every(self) -> dict[str, str]:
        """Codes of all parts."""
        return codes_of(public_document(self._assessment, self._set)) if self._assessment else {}

    def _made(self, key: str) -> str:
        if self._assessment is None or (key != COVER and key not in self._like):
            return self.every.get(key, "")
        if key == COVER:
            return cover_code(cover(self._assessment))
        part = made_again(self._like[key], self._assessment)
        is_of_set = part is not None and (not isinstance(part, Card) or sets()[self._set].holds(part))
        return part.code if part is not None and is_of_set else ""
