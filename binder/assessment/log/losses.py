"""What each tire loses a month by the log, and which loses more than its mates."""

from collections.abc import Iterator, Mapping

from binder.assessment.ledger import Fact, Figure, Finding, Input, Ledger, Phrase
from binder.assessment.log import kinds
from binder.assessment.log.tire_entries import Reading, Subject, TireReadings, readings_of
from binder.calculations.tires.leaks import (
    CLEAR,
    FEWEST,
    NAMED_FROM,
    REFERENCE,
    SHORTEST,
    TireLoss,
    pressure_losses,
)
from binder.models.load import Profile
from binder.quantities import Quantity


def assess_losses(profile: Profile, ledger: Ledger) -> None:
    """Enter what each tire loses, of which something was read."""
    of_vehicles: dict[str, dict[Subject, TireReadings]] = {}
    for tire, readings in readings_of(profile).items():
        of_vehicles.setdefault(tire[0], {})[tire] = readings
    for tires in of_vehicles.values():
        cold = {tire[2]: [one.cold for one in read.used] for tire, read in tires.items()}
        losses = pressure_losses(cold, {tire[2]: _side(tire) for tire in tires})
        for tire, read in tires.items():
            _enter(tire, read, losses[tire[2]], ledger)
        _enter_excesses(tires, losses, ledger)


def _side(tire: Subject) -> str:
    _, axle, position = tire
    return next((side for side in ("left", "right") if side in position[len(axle) :]), "")


def _enter(tire: Subject, read: TireReadings, loss: TireLoss, ledger: Ledger) -> None:
    is_assumed = any(one.is_assumed for one in read.used)
    case = "few" if loss.loss is None else "assumed" if is_assumed else ""
    inputs = tuple(_input(one) for one in read.used)
    key, facts = kinds.LOSS.of(*tire), _facts(loss, loss.error)
    facts.update(read.left_out.items())
    value = None if case else loss.loss
    cautions = (*_taken_as(read), *_left_out(read))
    ledger.enter(Figure(key, value, inputs, case, facts, cautions=cautions))


def _facts(loss: TireLoss, error: Quantity | None) -> dict[str, Fact]:
    counted: dict[str, Fact] = {
        "readings": loss.readings,
        "fewest": FEWEST,
        "days": SHORTEST,
        "named": NAMED_FROM,
    }
    return {**counted, "error": error, "temperature": REFERENCE.temperature}


def _input(one: Reading) -> Input:
    by: Fact = Phrase(kinds.BY, {"by": one.by}) if one.by else ""
    facts: dict[str, Fact] = {
        "moment": one.moment,
        "reference": one.cold.at_reference,
        "ambient": one.ambient,
        "elevation": one.elevation,
        "by": by,
        "level": one.cold.level,
        "is_after_air": one.is_after_air,
    }
    return Input(kinds.READ, one.pressure, facts=facts)


def _taken_as(read: TireReadings) -> Iterator[Phrase]:
    assumed = sum(one.is_assumed for one in read.used)
    if assumed:
        yield Phrase(kinds.TAKEN_AS, {"count": assumed, "temperature": REFERENCE.temperature})


def _left_out(read: TireReadings) -> Iterator[Phrase]:
    why = tuple(
        Phrase(kinds.COUNTED, {"count": count, "why": kinds.WHY_LEFT_OUT[name]})
        for name, count in read.left_out.items()
    )
    if why:
        yield Phrase(kinds.LEFT_OUT, {"why": why})


def _enter_excesses(
    tires: Mapping[Subject, TireReadings], losses: Mapping[str, TireLoss], ledger: Ledger
) -> None:
    """Enter what each loses over its mates; the loss of each, all on the same walks, is an input."""
    for tire in tires:
        loss = losses[tire[2]]
        key, facts = kinds.LOSS_OVER_MATES.of(*tire), _facts(loss, loss.excess_error)
        mates = [
            Input(kinds.MATES_INPUT, losses[mate[2]].loss, kinds.LOSS.of(*mate), {"position": mate[2]})
            for mate in tires
            if mate != tire
        ]
        own = Input(kinds.LOSS_INPUT, loss.loss, kinds.LOSS.of(*tire))
        facts["verdict"] = _verdict(loss)
        case = "few" if loss.excess is None else ""
        cautions = tuple(_taken_as(tires[tire]))
        ledger.enter(Figure(key, loss.excess, (own, *mates), case, facts, cautions=cautions))
        if loss.loses_more:
            # Where its own loss is not known, what it loses over its mates is the least of it.
            lost = ledger.quantity(kinds.LOSS.of(*tire)) or loss.excess
            ledger.find(Finding(kinds.LOSES_MORE, key, {"value": loss.excess, "lost": lost, **facts}))


def _verdict(loss: TireLoss) -> str:
    """Whether it loses more than its mates: what is much, but not over long or surely, is not told yet."""
    if loss.excess is None:
        return "few"
    if loss.loses_more:
        return "losing"
    return "perhaps" if loss.excess >= CLEAR else "even"
