"""Spare tires: made, aged and measured like those that roll, since one of them may roll tomorrow."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.trip_days import last_day
from binder.calculations.tires.pairs_and_age import age_on, age_verdict, default_out_age, made_from_date_code
from binder.models.load import Profile
from binder.models.tires import Tires

SPARE = "spare"
"""How the position of a spare begins in the register."""


def assess_spare_tires(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter when each spare was made, its age on the last day and its tread."""
    day = last_day(profile, on)[0]
    for name, tires in profile.rig.tires.items():
        for position in tires.mounted:
            if position.startswith(SPARE):
                _assess_one(name, position, tires, day, ledger)


def _assess_one(name: str, position: str, tires: Tires, day: date, ledger: Ledger) -> None:
    key = f"tires.{name}.{position}".replace(" ", "_")
    spare = tires.mounted[position]
    made = made_from_date_code(spare.date_code)
    age = age_on(made.week_begins, day) if made.week_begins else None
    code = Input("date code", spare.date_code or "not found", f"rig.yaml tires, mounted, {position}")
    rule = f"First day of the week in the date code; {made.code.value}."
    ledger.add(Figure(f"{key}.made", made.week_begins, "stated by a maker", rule, "S36; S52", (code,)))
    rule = f"Age on {day}, the last day this must hold."
    ledger.add(Figure(f"{key}.age", age, "calculated", rule, "S36; S50", (code,)))
    rule = "Groove depth of the spare."
    ledger.add(Figure(f"{key}.tread", spare.tread, "measured", rule, "profile"))
    for finding in _findings(name, position, tires, key, ledger):
        ledger.find(finding)


def _findings(name: str, position: str, tires: Tires, key: str, ledger: Ledger) -> Iterator[Finding]:
    """A spare that is too old is no reason to stay, but none to count on it either."""
    age = ledger.figures[f"{key}.age"].quantity
    text = f"{position} of the {name}"
    if age is None:
        yield Finding("missing", 5, f"{key}.age", f"{text}: its age is not known", "read its date code again")
        return
    default = default_out_age(is_special_trailer=tires.family == "special trailer", is_steering=False)
    verdict = age_verdict(age, tires.replace_after or default)
    years = f"{age.to('year').m:.1f} years old"
    if verdict == "out":
        yield Finding("attention", 5, f"{key}.age", f"{text}: {years}, past its age", "replace it")
    elif verdict == "inspect yearly":
        yield Finding("attention", 5, f"{key}.age", f"{text}: {years}", "have it inspected every year")
