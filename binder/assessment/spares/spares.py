"""Spares: what this rig should carry against what it does, and what each bay holds."""

from collections.abc import Iterator
from datetime import date

from binder.assessment.figures import Figure, Input, Ledger, Value
from binder.assessment.route.days import last_day
from binder.assessment.spares.carried import Amount, Stock, stocks
from binder.assessment.spares.findings import spare_findings
from binder.assessment.spares.places import BayLoad, bay_loads
from binder.assessment.spares.sizes import size_of
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.spares import Carried

_WANTED = "usual for this equipment, from the list of practice"
_CARRIED = "what the profile notes and is in date on the last day, added up"
_LOAD = "weights noted of what lies in the bay, on the scale ticket or not, added up"
_MARGIN = "the bay's rating less what is noted in it"
_PRACTICE = "A list of practice, no source: what its maker's manual asks for comes first."


def assess_spares(profile: Profile, on: date, ledger: Ledger) -> None:
    """Enter what is wanted and what is carried, the load of each bay, and find what lacks."""
    found = stocks(profile.rig, last_day(profile, on)[0])
    for stock in found:
        size = size_of(stock.want, profile.rig, ledger)
        for figure in _stock_figures(stock, size):
            ledger.add(figure)
    loads = bay_loads(profile.rig)
    for load in loads:
        for figure in _bay_figures(load, Wording(profile.rig.units)):
            ledger.add(figure)
    for finding in spare_findings(profile, found, loads):
        ledger.find(finding)


def _stock_figures(stock: Stock, size: str) -> Iterator[Figure]:
    want = stock.want
    cautions = (f"{want.rule.reason[:1].upper()}{want.rule.reason[1:]}.", _PRACTICE)
    wanted = want.quantity
    yield Figure(
        f"{want.key}.wanted",
        _value(wanted),
        "table",
        _WANTED,
        want.rule.source,
        cautions=cautions,
        slack=size,
    )
    inputs = tuple(_input(item) for item in (*stock.items, *stock.expired))
    value = None if stock.carried is None else _amount_value(stock.carried)
    slack = f"{stock.short.text} short, {want.quantity} usual" if stock.short else ""
    yield Figure(f"{want.key}.carried", value, "calculated", _CARRIED, "profile", inputs, slack=slack)


def _value(text: str) -> Value:
    """A bare number as a number, "2 qt" as words: a quart is not to be printed in gallons."""
    return text if " " in text else float(text)


def _amount_value(amount: Amount) -> Value:
    return amount.text if amount.unit else amount.number


def _input(item: Carried) -> Input:
    noted = item.quantity or "number not noted"
    dated = f", until {item.expires.isoformat()}" if item.expires else ""
    return Input(item.what, f"{noted}{dated}", "rig.yaml")


def _bay_figures(found: BayLoad, wording: Wording) -> Iterator[Figure]:
    entries = "1 entry" if found.unweighed == 1 else f"{found.unweighed} entries"
    slack = f"{entries} without a weight" if found.unweighed else ""
    yield Figure(f"{found.key}.bay_load", found.load, "calculated", _LOAD, "arithmetic", slack=slack)
    if found.bay.rating is None:
        return
    inputs = (
        Input("rating", wording.weight(found.bay.rating, "down"), "rig.yaml"),
        Input("noted in it", wording.weight(found.load, "up"), f"figure {found.key}.bay_load"),
    )
    margin = found.bay.rating - found.load
    yield Figure(f"{found.key}.bay_margin", margin, "calculated", _MARGIN, "arithmetic", inputs)
