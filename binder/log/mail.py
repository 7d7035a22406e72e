"""A prepared message, saved as it came (.eml) or as plain text: one entry a line, in the short form.

The subject is what a card's code put there: ``3.dx2vy``, card and code. The time is the message's, until
a line says ``at 2026-06-01 07:10``; ``who``, ``ambient`` and ``elevation`` on lines of their own hold for the
lines that follow. What is quoted (``>``) and what follows ``-- `` is left out.
"""

import re
from collections.abc import Iterator
from email import message_from_string
from email.errors import MessageError
from email.message import EmailMessage
from email.policy import default
from email.utils import parsedate_to_datetime

from binder.log.handed_over import Draft, Handed, refusal
from binder.log.identity import id_of_content
from binder.log.reading import WrongField
from binder.log.rig_names import RigNames
from binder.log.short_form import is_kind, read_short
from binder.models.log_entries import KINDS, Written

_HEADER = re.compile(
    r"(date|from|to|subject|received|message-id|mime-version|return-path|content-type):", re.IGNORECASE
)
_MARK = re.compile(r"\b([0-9]{1,2}(?:\.[0-9]{1,3})?)\.([0-9a-z]{5})\b")
_SHARED = re.compile(r"(at|who|card|ambient|elevation)[ :]+(.+)", re.IGNORECASE)
_ZONE = re.compile(r"(?:Z|[+-][0-9]{2}:?[0-9]{2})$")


def is_message(text: str) -> bool:
    """Tell whether a text is meant as a message: it begins with a header or a line of the short form."""
    first = next((line for line in text.splitlines() if line.strip()), "")
    return bool(_HEADER.match(first) or _SHARED.fullmatch(first.strip())) or is_kind(first)


def read_message(name: str, text: str, names: RigNames) -> Handed:
    """Read the entries of a message; each has the card of its subject and the time it was sent."""
    shared, body, first = _parts(name, text)
    offset = shared.pop("zone", "")
    drafts: list[Draft] = []
    wrong: list[tuple[int, WrongField]] = []
    said: dict[str, int] = {}
    for number, line in _lines(body, first):
        if found := _SHARED.fullmatch(line):
            told = _shared(found[1].lower(), found[2].strip(), offset)
            wrong += (
                []
                if told
                else [(number, WrongField(found[1].lower(), f"'{found[2][:40]}' is no card's mark"))]
            )
            shared |= told
            continue
        fields, faults = read_short(line, names)
        wrong += [(number, one) for one in faults]
        if not faults:
            known = {
                **KINDS[str(fields["kind"])].model_fields,
                **dict.fromkeys(("at", "who", "card", "code")),
            }
            whole: dict[str, Written] = {key: value for key, value in shared.items() if key in known} | fields
            # The same words twice in one message are two entries; the message read again adds none.
            said[line] = said.get(line, 0) + 1
            content = (*(f"{key}={whole[key]}" for key in sorted(whole)), str(said[line]))
            drafts.append(Draft(number, {**whole, "id": id_of_content(content)}))
    if not drafts and not wrong:
        raise refusal(name, "this message has no entry", "a line is like 'tire steer left 104 psi cold'")
    return Handed(drafts, wrong, _column)


def _shared(field: str, told: str, offset: str) -> dict[str, str]:
    if field == "at":
        return {"at": told if _ZONE.search(told) or not offset else f"{told} {offset}"}
    if field != "card":
        return {field: told}
    mark = _MARK.search(told)
    return {"card": mark[1], "code": mark[2]} if mark else {}


def _parts(name: str, text: str) -> tuple[dict[str, str], str, int]:
    """What the head says, the body, and in which line of the file the body begins."""
    if not _HEADER.match(text.lstrip("\n")):
        return {}, text, 1
    try:
        message = message_from_string(text.lstrip("\n"), policy=default)
        assert isinstance(message, EmailMessage)  # noqa: S101 - by its policy.
        part = message.get_body(preferencelist=("plain",))
        body = str(part.get_content()) if part else ""
        subject, sent = str(message.get("subject", "")), str(message.get("date", ""))
    except (MessageError, LookupError, ValueError, TypeError, AttributeError, RecursionError) as error:
        raise refusal(
            name, f"this message cannot be read ({type(error).__name__}); save it as plain text"
        ) from error
    if part is None:
        raise refusal(name, "this message has no plain text; copy its lines into a text file")
    shared = _shared("card", subject, "") | _sent(sent)
    return shared, body, _begins(text, body)


def _sent(date: str) -> dict[str, str]:
    try:
        moment = parsedate_to_datetime(date)
    except ValueError:
        return {}
    if moment.tzinfo is None:
        return {"at": moment.isoformat()}
    return {"at": moment.isoformat(), "zone": moment.strftime("%z")}


def _begins(text: str, body: str) -> int:
    """The line of the file that the body begins in; 1 where it is coded, and stands nowhere as it is read."""
    first = next((line.strip() for line in body.splitlines() if line.strip()), "")
    before = next((at for at, line in enumerate(text.split("\n"), 1) if line.strip() == first), 1)
    blank = next((at for at, line in enumerate(body.splitlines()) if line.strip()), 0)
    return max(1, before - blank)


def _lines(body: str, first: int) -> Iterator[tuple[int, str]]:
    for number, line in enumerate(body.split("\n"), first):
        if line.rstrip("\r") in {"-- ", "--"}:
            return
        told = line.strip()
        if told and not told.startswith(">"):
            yield number, told


def _column(line: str, field: str) -> tuple[int, int]:
    at = line.lower().find(field.rpartition(".")[2].lower()) if field else -1
    return (at + 1, len(field)) if at >= 0 else (1, max(1, len(line)))
