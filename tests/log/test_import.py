"""A file is taken whole or not at all; twice is once; an export is the log again; every fault is told."""

import json
from collections.abc import Mapping
from datetime import UTC, datetime, timedelta
from pathlib import Path
from tempfile import TemporaryDirectory
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from binder.log.csv_rows import as_rows
from binder.log.identity import new_id
from binder.log.importing import Import, import_file
from binder.log.json_lines import as_json_lines
from binder.log.reading import Reader
from binder.log.store import entries_in
from binder.models.load import LOG
from binder.models.log_entries import Entry
from binder.problems import InputProblems

AT = "2026-06-01T07:10:00-06:00"
HEAD = '{"format": "rig log", "version": 1, "rig": "Larkspur"}'
POSITIONS = (
    "steer left, steer right, drive left outer, drive left inner, drive right inner, drive right outer, "
    "front left, front right, rear left, rear right"
)
TIRE = {"kind": "tire", "position": "steer left", "pressure": "104 psi"}


def line(said: Mapping[str, object], minute: int = 0, **more: object) -> str:
    at = datetime.fromisoformat(AT) + timedelta(minutes=minute)
    return json.dumps({"id": new_id(at), "at": at.isoformat(), **said, **more})


def handed(folder: Path, *lines: str, name: str = "phone.jsonl", head: str = HEAD) -> Path:
    file = folder / name
    file.write_text("\n".join((head, *lines) if head else lines) + "\n", encoding="utf-8")
    return file


def refused(rig: Path, file: Path, reader: Reader, constant: Mapping[str, str] | None = None) -> str:
    before = (rig / LOG).read_bytes() if (rig / LOG).exists() else None
    with pytest.raises(InputProblems) as raised:
        import_file(rig, file, reader, constant or {})
    assert ((rig / LOG).read_bytes() if (rig / LOG).exists() else None) == before
    return str(raised.value).replace(str(file), file.name)


def said(rig: Path) -> list[Mapping[str, object]]:
    return [one.written for one in entries_in(rig)]


def test_what_a_page_hands_over_is_taken_once(rig: Path, reader: Reader, tmp_path: Path) -> None:
    file = handed(
        tmp_path, line(TIRE, who="Ann", card="3", code="dx2vy"), "", line({"kind": "note", "text": "hi"})
    )

    assert import_file(rig, file, reader, {}) == Import(2, 0, ())
    content = (rig / LOG).read_bytes()
    assert import_file(rig, file, reader, {}) == Import(0, 2, ())
    assert (rig / LOG).read_bytes() == content
    first, second = entries_in(rig)
    assert first.written == {"position": "steer left", "vehicle": "coach", "pressure": "104 psi"}
    assert (first.who, first.card, first.code, second.written) == ("Ann", "3", "dx2vy", {"text": "hi"})


def test_values_may_be_json_of_any_plain_sort(rig: Path, reader: Reader, tmp_path: Path) -> None:
    fill = {"kind": "fill", "tank": "diesel", "amount": "62.1 gal", "full": True, "hours": None, "who": ""}
    import_file(
        rig,
        handed(
            tmp_path, line(fill), line({"kind": "spare", "change": "used", "what": "fuses", "quantity": 2})
        ),
        reader,
        {},
    )

    assert said(rig) == [
        {"tank": "diesel", "amount": "62.1 gal", "full": "true", "vehicle": "coach"},
        {"change": "used", "what": "fuses", "quantity": "2"},
    ]


def test_all_that_is_wrong_is_told_with_its_place(rig: Path, reader: Reader, tmp_path: Path) -> None:
    tire = {"id": new_id(datetime.fromisoformat(AT)), "at": AT, "kind": "tire"}
    file = handed(
        tmp_path,
        json.dumps(tire | {"position": "steer middle", "pressure": "104 psi"}),
        json.dumps(tire | {"position": "steer left", "pressure": "104"}),
        "{",
        json.dumps(tire | {"position": "steer left", "pressures": "104 psi", "state": "warm"}),
    )

    rows = file.read_text().splitlines()

    def told(number: int, field: str, text: str, hint: str = "") -> list[str]:
        row = rows[number - 1]
        at = row.index(f'"{field}"') if field else 0
        quoted = row if len(row) <= 160 else f"{row[:160]}..."
        place = f"phone.jsonl:{number}:{at + 1}: error: {f'{field}: ' if field else ''}{text}"
        marked = f"       | {' ' * at}{'^' * (len(field) + 2 if field else 1)}"
        return [place, f"     {number} | {quoted}", marked, *([f"  hint: {hint}"] if hint else [])]

    assert refused(rig, file, reader).splitlines() == [
        *told(2, "position", f"'steer middle' is no position of Larkspur; it has: {POSITIONS}"),
        *told(3, "pressure", "'104' has no unit; write it like '104 psi'"),
        *told(4, "", "this is no JSON (Expecting property name enclosed in double quotes, character 2)"),
        *told(5, "pressures", "'pressures' is not a field here", "did you mean 'pressure'?"),
        *told(5, "state", "'warm' is not one of 'cold' or 'hot'"),
        "5 problems in phone.jsonl; nothing was written.",
    ]


def test_many_problems_are_told_by_their_number(rig: Path, reader: Reader, tmp_path: Path) -> None:
    told = refused(rig, handed(tmp_path, *(["{"] * 5000)), reader)

    assert told.count("error:") == 51
    assert "and 4950 more problems in later lines" in told


@pytest.mark.parametrize(
    ("fields", "told"),
    [
        ({"at": "2026-06-01T07:10:00"}, "has no zone; write it like '2026-06-01T07:10:00 -06:00', or"),
        ({"at": "2026-02-30T07:10:00Z"}, "'2026-02-30T07:10:00Z' is not in the calendar"),
        ({"at": "noon"}, "'noon' is no time; write it like '2026-06-01 07:10 -06:00'"),
        ({"kind": "tires"}, "'tires' is no kind of entry"),
        ({"id": "7"}, "'7' is no id of an entry"),
        ({"id": ""}, "an id is needed: a UUID of version 7"),
        ({"card": "three"}, "'three' is no card; write it like '3' or '5.1'"),
        ({"code": "DX"}, "'DX' is no code of a card"),
        ({"who": ["Ann"]}, "words are needed here, not a list or a block"),
        ({"pressure": ["104 psi"]}, "a pressure is needed here, like '104 psi'"),
        ({"pressure": "5000 psi"}, "'5000 psi' can hardly be a pressure"),
        ({"pressure": None}, "one of these is needed: pressure, tread"),
        ({"vehicle": "truck"}, "'truck' is no vehicle of Larkspur; it has: coach, car"),
        ({"vehicle": "car"}, "'steer left' is no position of car; it has: front left, front right"),
        ({"corrects": "0198a000-0000-7000-8000-000000000000"}, "is no entry of this log"),
        ({"kind": "withdrawal", "position": None, "pressure": None}, "a withdrawal needs 'corrects'"),
    ],
)
def test_each_fault_is_told_in_plain_words(
    rig: Path, reader: Reader, tmp_path: Path, fields: dict[str, object], told: str
) -> None:
    assert told in refused(rig, handed(tmp_path, line({**TIRE, **fields})), reader)


def test_an_entry_of_a_known_id_is_not_altered(rig: Path, reader: Reader, tmp_path: Path) -> None:
    first = json.loads(line(TIRE))
    import_file(rig, handed(tmp_path, json.dumps(first)), reader, {})
    file = handed(tmp_path, json.dumps(first | {"pressure": "90 psi"}), name="again.jsonl")

    assert "an entry with this id says something else in the log; an entry is not altered" in refused(
        rig, file, reader
    )


def test_a_correction_points_to_an_entry_of_its_kind(rig: Path, reader: Reader, tmp_path: Path) -> None:
    first = json.loads(line(TIRE))
    wrong = handed(tmp_path, json.dumps(first), line({"kind": "note", "text": "x"}, corrects=first["id"]))
    right = handed(
        tmp_path,
        line(TIRE | {"pressure": "101 psi"}, 1, corrects=first["id"]),
        json.dumps(first),
        name="right",
    )

    assert "this 'note' corrects a 'tire'; they are to be of one kind" in refused(rig, wrong, reader)
    assert import_file(rig, right, reader, {}).added == 2


def test_entries_that_correct_each_other_are_refused(rig: Path, reader: Reader, tmp_path: Path) -> None:
    one, other = json.loads(line(TIRE)), json.loads(line(TIRE))
    ring = [json.dumps(one | {"corrects": other["id"]}), json.dumps(other | {"corrects": one["id"]})]

    assert refused(rig, handed(tmp_path, *ring), reader).count("correct each other in a ring") == 2


def test_a_repair_points_to_a_fault(rig: Path, reader: Reader, tmp_path: Path) -> None:
    fault, note = (
        json.loads(line({"kind": "fault", "what": "lamp"})),
        json.loads(line({"kind": "note", "text": "x"})),
    )
    repair = {"kind": "repair", "what": "new lamp"}
    wrong = handed(tmp_path, json.dumps(note), line(repair, fault=note["id"]))
    assert f"'{note['id']}' is a 'note', no fault" in refused(rig, wrong, reader)

    import_file(rig, handed(tmp_path, json.dumps(fault), line(repair, fault=fault["id"][-8:])), reader, {})
    assert said(rig)[1]["fault"] == fault["id"]


@pytest.mark.parametrize("year", [1970, 2001, 2023, 2040])
def test_a_clock_that_is_years_off_is_taken_and_marked(
    rig: Path, reader: Reader, tmp_path: Path, year: int
) -> None:
    file = handed(tmp_path, line(TIRE, at=f"{year}-01-01T00:00:00Z"), line(TIRE))
    done = import_file(rig, file, reader, {})

    assert (done.added, [one.at.year for one in done.unsure]) == (2, [year])
    assert [one.is_clock_unsure for one in entries_in(rig)] == [True, False]


def test_a_monitor_s_table_is_taken_and_a_longer_one_adds_what_is_new(
    rig: Path, reader: Reader, tmp_path: Path
) -> None:
    rows = [
        "At,Position,Pressure [psi],Ambient (degF)",
        "2026-06-01 07:10,steer left,104.5,48",
        "2026-06-01 07:10,front left,38,",
    ]
    mountain = reader._replace(zone=ZoneInfo("America/Denver"))
    constant = {"kind": "tire", "by": "sensor"}
    first = import_file(rig, handed(tmp_path, *rows, name="m.csv", head=""), mountain, constant)
    longer = handed(tmp_path, *rows, "2026-06-02 07:10,steer left,104,50", name="m.csv", head="")

    assert (first.added, import_file(rig, longer, mountain, constant)) == (2, Import(1, 2, ()))
    one = entries_in(rig)[0]
    assert one.at.isoformat() == "2026-06-01T07:10:00-06:00"
    assert one.written == {
        "position": "steer left",
        "vehicle": "coach",
        "pressure": "104.5 psi",
        "by": "sensor",
        "ambient": "48 degF",
    }


def test_what_is_wrong_with_a_table_is_told_with_row_and_column(
    rig: Path, reader: Reader, tmp_path: Path
) -> None:
    rows = [
        "kind,at,position,pressure",
        f'tire,{AT},"steer left",104',
        f"tire,{AT},steer left",
        f"tire,{AT},hub,9 psi",
    ]

    assert refused(rig, handed(tmp_path, *rows, name="m.csv", head=""), reader).splitlines()[:9] == [
        "m.csv:2:45: error: pressure: '104' has no unit; write it like '104 psi'",
        f'     2 | tire,{AT},"steer left",104',
        f"       | {' ' * 44}^^^",
        "m.csv:3:1: error: this row has 3 cells; the heading has 4",
        f"     3 | tire,{AT},steer left",
        "       | ^",
        f"m.csv:4:32: error: position: 'hub' is no position of Larkspur; it has: {POSITIONS}",
        f"     4 | tire,{AT},hub,9 psi",
        f"       | {' ' * 31}^^^",
    ]


@pytest.mark.parametrize(
    ("heading", "told"),
    [
        ("kind,at,bar", "no field is named like the column 'bar'"),
        ("kind,at,at", "given twice: at"),
        ("", "this file is empty"),
    ],
)
def test_a_table_without_its_columns_is_refused(
    rig: Path, reader: Reader, tmp_path: Path, heading: str, told: str
) -> None:
    assert told in refused(rig, handed(tmp_path, heading, name="m.csv", head=""), reader)


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=30).filter(
    lambda text: text.strip()
)
PRESSURES = st.integers(0, 2990).map(lambda tenths: f"{tenths / 10} psi")
SAID = st.one_of(
    st.fixed_dictionaries(
        {"kind": st.just("note"), "text": TEXTS}, optional={"who": TEXTS, "card": st.just("3")}
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("tire"),
            "position": st.sampled_from(["steer left", "front left"]),
            "pressure": PRESSURES,
        },
        optional={"state": st.sampled_from(["cold", "hot"]), "ambient": st.just("-4 degF")},
    ),
    st.fixed_dictionaries(
        {
            "kind": st.just("weight"),
            "weights": st.just({"coach": {"steer": {"left": "5480 lb"}, "total": "27200 lb"}}),
        },
        optional={
            "aboard": st.sampled_from([[], [{"what": "two, people", "in": "coach"}]]),
            "state": st.just({"slides": "in"}),
        },
    ),
)


@given(st.lists(SAID, min_size=1, max_size=6), st.booleans())
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=60)
def test_an_export_read_into_an_empty_log_is_the_log(
    reader: Reader,
    told: list[dict[str, object]],
    rows: bool,  # noqa: FBT001 - either form.
) -> None:
    with TemporaryDirectory() as name:
        first, second = Path(name) / "first", Path(name) / "second"
        first.mkdir()
        second.mkdir()
        lines = [line(one, minute) for minute, one in enumerate(told)]
        before = json.loads(lines[0])
        lines.append(line(told[0], 99, corrects=before["id"]))
        import_file(first, handed(first, *lines), reader, {})
        entries = entries_in(first)
        exported = as_rows(entries) if rows else as_json_lines("Larkspur", entries)
        file = second / "export"
        file.write_bytes(("\n".join(exported) + "\n").encode())
        later = reader._replace(now=reader.now + timedelta(days=900))

        assert import_file(second, file, later, {}) == Import(len(lines), 0, ())
        assert entries_in(second) == entries
        assert import_file(second, file, later, {}).added == 0


def test_a_cell_that_a_spreadsheet_would_work_out_is_exported_as_text() -> None:
    at = datetime(2026, 6, 1, tzinfo=UTC)
    rows = list(
        as_rows(
            [Entry(new_id(at), at, "note", {"text": text}, taken=at) for text in ("=1+1", "'-x", "plain")]
        )
    )

    assert [row.rpartition(",")[2] for row in rows] == ["text", "'=1+1", "''-x", "plain"]
