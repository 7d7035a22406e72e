"""The wind a rig parks at: the owner's own limits, else the usual ones, marked as practice."""

from binder.assessment.figures import Figure, Input, Ledger
from binder.assessment.procedure_numbers import procedure_constant
from binder.assessment.wording import Wording
from binder.models.load import Profile
from binder.models.trip import WindLimits
from binder.quantities import Quantity, registry

SUSTAINED_KEY, GUSTS_KEY = "route.wind_sustained", "route.wind_gusts"
_UNITS = {"mph": "mile_per_hour", "km/h": "kilometer_per_hour"}
_OWN = "Your own limit: over it the rig parks."
_USUAL = "The usual limit, for want of your own: over it the rig parks."


def assess_wind(profile: Profile, ledger: Ledger) -> None:
    """Enter the wind this rig parks at."""
    if profile.trip is None:
        return
    limits, wording = profile.trip.rules.wind, Wording(profile.rig.units)
    for key, name in ((SUSTAINED_KEY, "sustained"), (GUSTS_KEY, "gusts")):
        ledger.add(_figure(key, name, limits, wording))


def _figure(key: str, name: str, limits: WindLimits, wording: Wording) -> Figure:
    own: Quantity | None = getattr(limits, name)
    if own is not None:
        told = Input(name, wording.speed(own, "down"), f"trip plan, rules.wind.{name}")
        return Figure(key, own, "assumed", _OWN, "trip plan", (told,))
    constant = procedure_constant(f"wind {name}")
    amount = constant.us if wording.units == "us" else constant.metric
    usual = registry.Quantity(float(amount.value), _UNITS[amount.unit])
    caution = "Crosswinds turn a high rig over before they stop it."
    return Figure(key, usual, "assumed", _USUAL, constant.source, (), (caution,))
