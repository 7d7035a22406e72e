"""The fixed numbers of procedures, handed up to the cards, which read no publication themselves."""

from typing import Literal

from binder.reference.procedure_constants import PROCEDURE_CONSTANTS, Amount, ProcedureConstant


def procedure_constant(name: str) -> ProcedureConstant:
    """Find one fixed number of the procedures, with its reason and source."""
    return PROCEDURE_CONSTANTS[name]


def procedure_number(name: str, units: Literal["us", "metric"]) -> str:
    """Give the text of one fixed number in the units a rig is printed in."""
    return amount_of(name, units).text


def amount_of(name: str, units: Literal["us", "metric"]) -> Amount:
    """Give one fixed number and its unit in the units a rig is printed in."""
    constant = procedure_constant(name)
    return constant.us if units == "us" else constant.metric


def procedure_reason(name: str, units: Literal["us", "metric"]) -> str:
    """Give the reason of one fixed number, with the numbers in it in the rig's own units."""
    constant = procedure_constant(name)
    return constant.metric_reason if units == "metric" and constant.metric_reason else constant.reason


def all_procedure_constants(units: Literal["us", "metric"]) -> tuple[tuple[ProcedureConstant, str], ...]:
    """Give every fixed number of the procedures, with its text in the units a rig is printed in."""
    return tuple((constant, procedure_number(name, units)) for name, constant in PROCEDURE_CONSTANTS.items())
