"""What each coupling may tow against what it tows, in the worst state of the trip."""

from collections.abc import Iterator

from binder.assessment.figures import Figure, Finding, Input, Ledger
from binder.assessment.loads import StateLoads
from binder.assessment.wording import Wording
from binder.calculations.coupling_chain import Link, coupling_limit, room_in_combination_rating
from binder.models.load import Profile
from binder.models.rig import Coupling
from binder.quantities import Quantity, registry

_ZERO = registry.Quantity(0.0, "pound")
_ROOM = "combination rating less the loaded towing vehicle"


def assess_coupling_loads(profile: Profile, states: tuple[StateLoads, ...], ledger: Ledger) -> None:
    """Enter limit, weakest part, margin and down load of every coupling.

    Args:
        profile: the rig and, where there is one, the trip.
        states: loads in every state of the trip.
        ledger: where they are entered.

    Returns:
        Nothing.

    Sources:
        statics; 49 CFR 571.3; 49 CFR 393.70.

    Example:
        >>> from datetime import date
        >>> from pathlib import Path
        >>> from binder.assessment.assess import assess
        >>> from binder.models.load import load_profile
        >>> assessment = assess(load_profile(Path("profiles/larkspur")), date(2026, 6, 1))
        >>> assessment.figure("coupling.coach_car.weakest_part").value
        'tow bar, base plate'
    """
    wording = Wording(profile.rig.units)
    for coupling in profile.rig.couplings:
        _assess_towed(profile, coupling, states, wording, ledger)
        _assess_down(coupling, states, wording, ledger)


def _towed_load(profile: Profile, coupling: Coupling, states: tuple[StateLoads, ...]) -> Quantity | None:
    """Heaviest loaded weight of all that hangs behind the coupling."""
    names = list(profile.rig.vehicles)
    behind = names[names.index(coupling.behind) :]
    loads = []
    for state in states:
        totals = [state.vehicles[name].total for name in behind]
        known = [total for total in totals if total is not None]
        if len(known) < len(totals):
            return None
        # What one of them presses on another behind the coupling is counted once.
        inner = sum((state.vehicles[name].down for name in behind[1:]), start=_ZERO)
        loads.append(sum(known, start=_ZERO) - inner)
    return max(loads, default=None)


def _links(profile: Profile, coupling: Coupling, states: tuple[StateLoads, ...]) -> Iterator[Link]:
    for name, part in coupling.parts.items():
        yield Link(name, part.towed)
    label = profile.rig.vehicles[coupling.ahead].label
    rating = label.gross_combination_weight_rating
    totals = [state.vehicles[coupling.ahead].total for state in states]
    downs = [state.vehicles[coupling.behind].down for state in states]
    own = [total - down for total, down in zip(totals, downs, strict=True) if total is not None]
    room = None
    if rating is not None and len(own) == len(totals):
        room = room_in_combination_rating(rating, max(own))
    yield Link(_ROOM, room)
    towing = profile.rig.vehicles[coupling.behind].towing
    works = bool(towing and (towing.supplemental_brake or towing.brakes_on_all_wheels))
    if not works and label.towing_limit_without_brakes is not None:
        yield Link("maker's limit without brakes", label.towing_limit_without_brakes)


def _assess_towed(
    profile: Profile, coupling: Coupling, states: tuple[StateLoads, ...], wording: Wording, ledger: Ledger
) -> None:
    key = coupling_key(coupling)
    links = tuple(_links(profile, coupling, states))
    chain = coupling_limit(links)
    towed = _towed_load(profile, coupling, states)
    inputs = tuple(
        Input(
            link.name,
            "not known" if link.limit is None else wording.weight(link.limit, "down"),
            "rig.yaml couplings",
        )
        for link in links
    )
    margin = chain.margin(towed) if towed is not None else None
    slack = "" if margin is None else f"{wording.weight(margin, 'down')} under the weakest part"
    weakest = ", ".join(chain.weakest)
    rule = "The least of every part between the two vehicles and of the combination rating."
    source = "49 CFR 571.3; 49 CFR 393.70"
    ledger.add(Figure(f"{key}.limit", chain.limit, "stated by a maker", rule, source, inputs, slack=slack))
    ledger.add(Figure(f"{key}.weakest_part", weakest or None, "stated by a maker", rule, source, inputs))
    load_input = Input(
        "towed, loaded", "not known" if towed is None else wording.weight(towed, "up"), "weights"
    )
    ledger.add(
        Figure(
            f"{key}.towed",
            towed,
            "calculated",
            "Heaviest loaded weight behind the coupling.",
            "statics",
            (load_input,),
        )
    )
    ledger.add(
        Figure(
            f"{key}.margin",
            margin,
            "calculated",
            "The limit less what is towed.",
            source,
            (*inputs, load_input),
            slack=slack,
        )
    )
    if margin is not None and margin < _ZERO:
        excess: Quantity = margin * -1
        over = wording.weight(excess, "up")
        text = f"{coupling.ahead} to {coupling.behind}: {over} over what the {weakest} may tow"
        ledger.find(
            Finding(
                "do not drive",
                4,
                f"{key}.margin",
                text,
                "tow less, or have the part replaced by one rated for it",
            )
        )
    for part in chain.unknown:
        text = f"{coupling.ahead} to {coupling.behind}: limit of the {part} not known"
        ledger.find(Finding("missing", 4, f"{key}.limit", text, "read it off the part or its manual"))
    if towed is None:
        text = f"{coupling.ahead} to {coupling.behind}: the towed weight is not known"
        ledger.find(Finding("missing", 4, f"{key}.towed", text, f"weigh the {coupling.behind}"))


def _assess_down(
    coupling: Coupling, states: tuple[StateLoads, ...], wording: Wording, ledger: Ledger
) -> None:
    key = coupling_key(coupling)
    down = max(state.vehicles[coupling.behind].down for state in states)
    if coupling.how == "tow bar" and down.m == 0:
        return
    parts = {name: part.down for name, part in coupling.parts.items() if part.down is not None}
    if coupling.distribution:
        # With bars on, the receiver's distributing rating stands beside its carrying one.
        parts.pop("receiver", None)
        distributing = coupling.distribution.receiver_distributing.down
        parts |= {} if distributing is None else {"receiver, bars on": distributing}
    chain = coupling_limit([Link(name, limit) for name, limit in parts.items()])
    margin = chain.margin(down)
    inputs = tuple(
        Input(name, wording.weight(limit, "down"), "rig.yaml couplings") for name, limit in parts.items()
    )
    slack = "" if margin is None else f"{wording.weight(margin, 'down')} under the weakest part"
    rule = "Heaviest load the towed vehicle presses on the coupling."
    ledger.add(Figure(f"{key}.down_load", down, "calculated", rule, "statics", inputs, slack=slack))
    if margin is not None and margin < _ZERO:
        excess: Quantity = margin * -1
        over = wording.weight(excess, "up")
        weakest = ", ".join(chain.weakest)
        text = f"{coupling.ahead} to {coupling.behind}: down load {over} over what the {weakest} may carry"
        ledger.find(
            Finding(
                "do not drive",
                4,
                f"{key}.down_load",
                text,
                "move weight in the trailer to the rear of its axles",
            )
        )


def coupling_key(coupling: Coupling) -> str:
    """Start of a coupling's figure keys.

    Args:
        coupling: as the profile states it.

    Returns:
        The key.

    Sources:
        Own key grammar.

    Example:
        >>> coupling_key(Coupling.model_validate({"ahead": "coach", "behind": "car", "how": "tow bar"}))
        'coupling.coach_car'
    """
    return f"coupling.{coupling.ahead}_{coupling.behind}".replace(" ", "_")
