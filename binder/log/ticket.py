"""A weighing of the log as a scale ticket of ``rig.yaml``, in its owner's form: offered, never written."""

from collections.abc import Iterator

from binder.models.located_yaml import as_scalar
from binder.models.log_entries import Entry, Written

_ORDER = ("division", "weights", "aboard", "levels", "state", "tires")


def ticket_yaml(entry: Entry) -> str:
    """Write a weighing as an item of ``scale_tickets:``."""
    lines = [f"on: {entry.at.date().isoformat()}"]
    for field in _ORDER:
        if field in entry.written:
            lines += _block(field, entry.written[field])
    return "\n".join(f"{'  - ' if at == 0 else '    '}{line}" for at, line in enumerate(lines))


def _block(name: str, value: Written) -> Iterator[str]:
    """Write one entry; what holds only plain values stands on one line, as in the demo rigs."""
    if isinstance(value, str) or not value or _is_flat(value):
        yield f"{as_scalar(name)}: {_inline(value)}"
        return
    yield f"{as_scalar(name)}:"
    if isinstance(value, dict):
        for key, one in value.items():
            yield from (f"  {line}" for line in _block(key, one))
    else:
        yield from (f"  - {_inline(one)}" for one in value)


def _is_flat(value: Written) -> bool:
    return isinstance(value, dict) and all(isinstance(one, str) for one in value.values())


def _inline(value: Written) -> str:
    if isinstance(value, dict):
        return f"{{{', '.join(f'{as_scalar(key)}: {_inline(one)}' for key, one in value.items())}}}"
    if isinstance(value, list):
        return f"[{', '.join(map(_inline, value))}]"
    return as_scalar(value)
