"""What is usually serviced on a rig with this equipment, and whether its coupling is listed."""

import re
from collections.abc import Iterator

from binder.assessment.figures import Finding, Ledger
from binder.assessment.procedure_numbers import procedure_constant
from binder.models.load import Profile
from binder.models.vehicles import Vehicle
from binder.quantities import TIME

_COUPLING = re.compile(
    r"\b(coupling|coupler|tow ?bar|base plate|hitch|ball(?! joint)|fifth wheel|king ?pin|pin box|"
    r"spring bars?|receiver|safety (?:cables?|chains?)|gooseneck|dolly)\b"
)


def is_of_coupling(profile: Profile, what: str) -> bool:
    """Tell whether a service item is of what joins the vehicles."""
    return bool(profile.rig.couplings and _COUPLING.search(what.lower().replace("joints", "joint")))


def usual_service(profile: Profile) -> tuple[str, ...]:
    """List what is usually serviced on a rig with this equipment."""
    found = [what for vehicle in profile.rig.vehicles.values() for what in _of_vehicle(vehicle)]
    found += ["coupling"] if profile.rig.couplings else []
    return tuple(dict.fromkeys(found))


def _of_vehicle(vehicle: Vehicle) -> Iterator[str]:
    held = {tank.holds for tank in vehicle.tanks.values()}
    brakes = vehicle.brakes.service if vehicle.brakes else None
    if vehicle.engine or vehicle.kind in {"motorhome", "pickup"}:
        yield from ("engine oil and filter", "coolant tested", "transmission oil", "air filter")
    if "diesel" in held:
        yield "fuel filters"
    if vehicle.generator:
        yield "generator oil and filter"
    if brakes == "air":
        yield from ("air dryer cartridge", "chassis greased")
    elif brakes is not None and brakes != "none":
        yield "brakes inspected"
    if vehicle.kind in {"trailer", "dolly"}:
        yield "wheel bearings"
    if vehicle.hydronic_heater:
        yield "hydronic heater"
    if "propane" in held:
        yield "propane system leak tested"


def assess_usual_service(profile: Profile, ledger: Ledger) -> None:
    """Find that no service is listed, or none of the coupling, or that one seldom."""
    rig = profile.rig
    if not rig.service:
        usual = "; ".join(usual_service(profile))
        text = f"No service is listed. Usual for this equipment (practice): {usual}."
        helps = "List each under service:, with the interval of its maker's manual and when it was last done."
        ledger.find(Finding("missing", 10, "service.listed", text, helps))
        return
    if not rig.couplings:
        return
    practice = procedure_constant("coupling service")
    listed = [entry for entry in rig.service if is_of_coupling(profile, entry.what)]
    if not listed:
        text = "No service of the coupling is listed."
        helps = f"List it: every {practice.us.text} or sooner when traveling much (practice)."
        ledger.find(Finding("missing", 4, "service.coupling", text, helps))
    often = TIME.read(practice.us.text)
    stated = [part.time for entry in listed for part in entry.every if part.time is not None]
    if stated and min(stated) > often:
        text = f"The coupling is serviced less often than every {practice.us.text}."
        helps = "When traveling much, at least so often (practice); its maker's manual comes first."
        ledger.find(Finding("attention", 4, "service.coupling", text, helps))
