"""Federal limits of weight and groups of licenses, for comparison only: local law differs."""

from binder.quantities import registry
from binder.reference.constants import Constant

_ON_INTERSTATES = "freight vehicles on Interstate highways; states and other countries differ"


def _pounds(name: str, value: float, source: str, note: str) -> Constant:
    return Constant(name, registry.Quantity(value, "pound"), source, note)


SINGLE_AXLE_LIMIT = _pounds("one axle", 20_000.0, "23 CFR 658.17", _ON_INTERSTATES)
TANDEM_LIMIT = _pounds("axles over 40 in and up to 96 in apart", 34_000.0, "23 CFR 658.17", _ON_INTERSTATES)
GROSS_LIMIT = _pounds("all axles together", 80_000.0, "23 CFR 658.17", _ON_INTERSTATES)
SINGLE_AXLE_SPREAD = Constant(
    "axles this near count as one", registry.Quantity(40.0, "inch"), "23 CFR 658.17; W10"
)
TANDEM_SPREAD = Constant("a tandem's axles at most", registry.Quantity(96.0, "inch"), "23 CFR 658.17; W10")
BRIDGE_STEP = _pounds("the formula is rounded to the nearest", 500.0, "23 CFR 658.17", "a half: down")

HEAVY_RATING = _pounds("rating from which a group begins", 26_001.0, "49 CFR 383.91", "11,794 kg")
# The law prints both units, and a label's kilograms must not be over by their rounding: 10,000.2 lb.
TOWED_RATING = Constant(
    "towed rating over which group A begins", registry.Quantity(4536.0, "kg"), "49 CFR 383.91", "10,000 lb"
)
