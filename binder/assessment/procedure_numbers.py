"""The fixed numbers of procedures, handed up to the cards, which read no publication themselves."""

from typing import Literal

from binder.reference.procedure_constants import PROCEDURE_CONSTANTS, Amount, ProcedureConstant


def procedure_constant(name: str) -> ProcedureConstant:
    """Find one fixed number of the procedures, with its reason and source.

    Args:
        name: as it is entered in the reference [text].

    Returns:
        The constant.

    Raises:
        KeyError: there is none of that name; a number without an origin is a bug.

    Sources:
        Each constant names its own.

    Example:
        >>> procedure_constant("breakaway holds").source
        '49 CFR 393.43'
    """
    return PROCEDURE_CONSTANTS[name]


def procedure_number(name: str, units: Literal["us", "metric"]) -> str:
    """Give the text of one fixed number in the units a rig is printed in.

    Args:
        name: as it is entered in the reference [text].
        units: the rig's [name].

    Returns:
        Value and unit.

    Raises:
        KeyError: there is none of that name.

    Sources:
        Each constant names its own.

    Example:
        >>> procedure_number("air to move", "us"), procedure_number("air to move", "metric")
        ('100 psi', '690 kPa')
    """
    constant = procedure_constant(name)
    amount: Amount = constant.us if units == "us" else constant.metric
    return amount.text


def procedure_reason(name: str, units: Literal["us", "metric"]) -> str:
    """Give the reason of one fixed number, with the numbers in it in the rig's own units.

    Args:
        name: as it is entered in the reference [text].
        units: the rig's [name].

    Returns:
        The reason.

    Raises:
        KeyError: there is none of that name.

    Sources:
        Each constant names its own.

    Example:
        >>> procedure_reason("steps far", "metric")
        'counted at 0.76 m a step, rounded up; measure your own'
    """
    constant = procedure_constant(name)
    return constant.metric_reason if units == "metric" and constant.metric_reason else constant.reason


def all_procedure_constants(units: Literal["us", "metric"]) -> tuple[tuple[ProcedureConstant, str], ...]:
    """Give every fixed number of the procedures, with its text in the units a rig is printed in.

    Args:
        units: the rig's [name].

    Returns:
        Constant and text, in the order they are entered.

    Sources:
        Each constant names its own.

    Example:
        >>> all_procedure_constants("us")[0][1]
        '10 to 18 psi'
    """
    return tuple((constant, procedure_number(name, units)) for name, constant in PROCEDURE_CONSTANTS.items())
