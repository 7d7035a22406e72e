"""What entries of spares and tools name that is not there: rules, vehicles."""

from collections.abc import Iterator
from difflib import get_close_matches

from binder.assessment.spares.wanted import wanted_spares
from binder.models.load import Profile
from binder.problems import Path, Problem
from binder.reference.spares import spare_rules


def spare_problems(profile: Profile) -> Iterator[Problem]:
    """Find entries whose ``is``, ``for`` or ``in`` leads nowhere."""
    rig = profile.rig
    vehicles = list(rig.vehicles)
    own = [name for want in wanted_spares(rig) for name in sorted(want.names)]
    rules = list(dict.fromkeys([*own, *(rule.name for rule in spare_rules())]))
    for entry, listed in (("spares", rig.spares), ("tools", rig.tools)):
        for number, item in enumerate(listed):
            base: Path = (entry, number)
            named = item.names.casefold() if item.names else None
            yield from _unknown(profile, (*base, "is"), named, rules)
            yield from _unknown(profile, (*base, "for"), item.serves, vehicles)
            yield from _unknown(profile, (*base, "in"), item.vehicle, vehicles)


def _unknown(profile: Profile, path: Path, name: str | None, known: list[str]) -> Iterator[Problem]:
    if name is None or name in known:
        return
    near = get_close_matches(name, known, n=1, cutoff=0.6)
    if path[-1] == "is":
        text = f"'{name}' is not in the list of what belongs aboard"
        hint = "leave it out where the list has no such thing; 'binder explain DIR spares' prints it"
    else:
        text, hint = f"'{name}' is not described in rig.yaml", f"there are: {', '.join(known)}"
    yield profile.rig_places.problem(path, text, hint=f"did you mean '{near[0]}'?" if near else hint)
