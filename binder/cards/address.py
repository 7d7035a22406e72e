"""The address that a card's code opens: the rig's log, marked with the card and its content code."""

import re
from collections.abc import Callable

_PLAIN = re.compile(r"[0-9A-Za-z.]+")


class AddressUnfit(ValueError):
    """The address cannot be marked with a card and its code."""


def log_target(address: str, card_id: str, code: str) -> str:
    """Give the address a card's code opens, marked with the card and its content code.

    Web addresses take the mark as fragment, mail as subject; a telephone number and a place have
    no room for one and stay as they are. Scheme and host, which mean the same in capitals, are
    written in capitals, since a QR code holds those in fewer modules; all else keeps its case.
    """
    if not address.isascii() or not address.isprintable() or " " in address:
        raise AddressUnfit(f"{address!r} has letters an address cannot hold; write them as %XX or xn--")
    scheme, colon, rest = address.partition(":")
    way = _WAYS.get(scheme.lower() + colon)
    if way is None or not rest.removeprefix("//"):
        raise AddressUnfit(f"{address!r} is no address for a code; start it with one of {', '.join(_WAYS)}")
    mark = f"{card_id}.{code}"
    if not _PLAIN.fullmatch(mark):
        raise AddressUnfit(f"{mark!r} is no mark; letters, digits and points only")
    return scheme.upper() + ":" + way(rest, mark)


def _web(rest: str, mark: str) -> str:
    if not rest.startswith("//") or "#" in rest:
        raise AddressUnfit(
            f"{rest!r} must start with // and have no # of its own; the card's mark goes there"
        )
    authority = re.split("[/?]", rest.removeprefix("//"), maxsplit=1)[0]
    path = rest.removeprefix(f"//{authority}")
    user, at, host = authority.rpartition("@")
    if not host:
        raise AddressUnfit(f"{rest!r} names no host")
    slash = "" if path.startswith("/") else "/"
    return f"//{user}{at}{host.upper()}{slash}{path}#{mark}"


def _mail(rest: str, mark: str) -> str:
    if "#" in rest or re.search(r"[?&]subject=", rest, re.IGNORECASE):
        raise AddressUnfit(f"{rest!r} has a subject of its own; the card's mark goes there")
    return f"{rest}{'&' if '?' in rest else '?'}subject={mark}"


def _unmarked(rest: str, _mark: str) -> str:
    return rest


_WAYS: dict[str, Callable[[str, str], str]] = {
    "https:": _web,
    "http:": _web,
    "mailto:": _mail,
    "tel:": _unmarked,
    "geo:": _unmarked,
}
