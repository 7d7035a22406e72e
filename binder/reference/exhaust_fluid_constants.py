"""Fixed numbers of exhaust fluid: when it freezes, the air it needs then, the container that is carried."""

from binder.reference.procedure_constant import Amount, ProcedureConstant

EXHAUST_FLUID = (
    ProcedureConstant(
        "exhaust fluid freezes",
        Amount("12", "°F"),
        Amount("-11", "°C"),
        "Exhaust fluid freezes; the engine thaws it, and it is as good as before.",
        "S-ISO22241-1",
        "up to 1 °F",
    ),
    ProcedureConstant(
        "exhaust fluid air",
        Amount("7", "%"),
        Amount("7", "%"),
        "Air left in its tank where it may freeze, for it swells.",
        "S-ISO22241-1",
    ),
    ProcedureConstant(
        "exhaust fluid carried",
        Amount("2.5", "gal"),
        Amount("10", "L"),
        "A common container to carry.",
        "practice",
        "10 L is how it is sold",
    ),
)
"""Numbers of exhaust fluid, in the order they are met."""
