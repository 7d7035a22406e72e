"""Lines of cards that stop less than they did, in their owner's own words."""

from collections.abc import Iterable
from typing import NamedTuple

from binder.assessment.entries import kinds
from binder.assessment.ledger import Finding, Ledger


class OwnChange(NamedTuple):
    """What own words do to a line: both names, card and line as printed, how, and where they stand."""

    subject: tuple[str, str]
    card: str
    line: str
    how: str
    where: str


def find_own_words(changes: Iterable[OwnChange], ledger: Ledger) -> None:
    """Enter a finding for each line that stops less than it did."""
    for one in changes:
        facts = {"title": one.card, "said": one.line, "where": one.where}
        ledger.find(Finding(kinds.OWN_WORDS, kinds.OWN_WORDS.of(*one.subject), facts, one.how))
