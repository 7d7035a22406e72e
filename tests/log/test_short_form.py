"""One line says an entry: names, quantities and choices in any order, a field's name where one is needed."""

import pytest

from binder.log.reading import Reader, read_entry
from binder.log.short_form import read_short
from binder.models.log_entries import KINDS, Written

AT = "2026-06-01 07:10 -06:00"


@pytest.mark.parametrize(
    ("line", "said"),
    [
        ("tire steer left 104 psi", {"position": "steer left", "pressure": "104 psi"}),
        (
            "TIRE: 104 psi, cold, Steer Left",
            {"position": "steer left", "pressure": "104 psi", "state": "cold"},
        ),
        ("tire front left tread 8/32 in", {"position": "front left", "tread": "8/32 in"}),
        (
            "tire car rear left 2.6 bar by sensor ambient -4 degC",
            {
                "vehicle": "car",
                "position": "rear left",
                "pressure": "2.6 bar",
                "by": "sensor",
                "ambient": "-4 degC",
            },
        ),
        (
            "tire steer left 104 psi elevation 6,240 ft 48 degF",
            {
                "position": "steer left",
                "pressure": "104 psi",
                "elevation": "6,240 ft",
                "ambient": "48 degF",
            },
        ),
        (
            "air drive left inner before 95 psi after 105 psi",
            {
                "position": "drive left inner",
                "before": "95 psi",
                "after": "105 psi",
            },
        ),
        (
            "fill exhaust fluid 2.5 gal not full",
            {"tank": "exhaust fluid", "amount": "2.5 gal", "full": "false"},
        ),
        ("fill diesel 62.1 gal full", {"tank": "diesel", "amount": "62.1 gal", "full": "true"}),
        ("spare bought fuel filter, 2", {"change": "bought", "what": "fuel filter", "quantity": "2"}),
        ("fault tire 104 psi, cold", {"what": "tire 104 psi, cold"}),
        ("repair new lamp", {"what": "new lamp"}),
        ("withdrawal typed twice", {"why": "typed twice"}),
    ],
)
def test_a_line_is_read(reader: Reader, line: str, said: dict[str, Written]) -> None:
    fields, wrong = read_short(line, reader.names)

    assert (fields, wrong) == ({"kind": line.split(maxsplit=1)[0].rstrip(":").lower(), **said}, [])


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind not in {"weight", "withdrawal"}])
def test_the_examples_of_a_kind_make_an_entry_of_it(reader: Reader, kind: str) -> None:
    fields = {
        name: str(field.examples[0]) for name, field in KINDS[kind].model_fields.items() if field.examples
    }
    entry, wrong = read_entry({"kind": kind, "at": AT, **fields}, reader)

    assert wrong == []
    assert entry is not None
    assert set(entry.written) == set(KINDS[kind].model_fields)
