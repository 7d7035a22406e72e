"""Faults that no repair names are found, each with its day and who found it, whatever was written."""

from datetime import timedelta

from binder.log.identity import new_id
from binder.log.in_force import in_force
from binder.models.log_entries import Entry
from tests.assessment.log.logs import START, by_key, entry


def open_faults(*log: Entry) -> list[str]:
    return [one.text for one in by_key(*log).findings if one.key.startswith("log.fault.")]


def fault(what: str = "lamp dark", **said: str) -> Entry:
    return entry("fault", 3, {"what": what, **said}, new_id(START))


def repair(of: Entry) -> Entry:
    return entry("repair", 9, {"fault": of.id, "what": "mended"}, new_id(START + timedelta(days=9)))


def test_a_fault_is_open_until_a_repair_names_it() -> None:
    one, other = fault(vehicle="coach"), fault("awning squeaks")

    assert open_faults(one, other, repair(other)) == ["Open fault of 2026-01-08 by Ann, coach: lamp dark."]


def test_it_asks_for_attention_and_says_what_to_do() -> None:
    (found,) = [one for one in by_key(fault()).findings if one.key.startswith("log.fault.")]

    assert found.grade == "attention"
    assert found.what_helps == "Put it right, then enter the repair in the log."


def test_a_repair_that_names_no_fault_closes_none() -> None:
    assert len(open_faults(fault(), entry("repair", 9, {"what": "mended"}))) == 1


def test_a_repair_of_a_fault_that_was_corrected_since_closes_it() -> None:
    first = fault()
    second = fault("lamp dark, left rear")._replace(id=new_id(START + timedelta(days=1)), corrects=first.id)

    assert open_faults(*in_force([first, second, repair(first)])) == []
    assert len(open_faults(*in_force([first, second]))) == 1


def test_braces_and_marks_of_a_text_are_only_text() -> None:
    assert "{what} %s <script>" in open_faults(fault("{what} %s <script>"))[0]


def test_a_clock_that_is_off_is_told_with_the_fault() -> None:
    off = fault()._replace(at=START + timedelta(days=4000))

    assert "by a clock that can hardly be right" in open_faults(off)[0]


def test_a_fault_without_finder_or_vehicle_is_told_all_the_same() -> None:
    assert open_faults(fault()._replace(who="")) == ["Open fault of 2026-01-08: lamp dark."]
