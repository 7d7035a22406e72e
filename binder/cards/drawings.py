"""What a drawing is made from: plain numbers for its geometry, finished strings for its words.

Lengths are in millimeters of the real thing. Positions along a vehicle count from its front.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

Shape: TypeAlias = Literal["motorhome", "car", "pickup", "trailer"]
End: TypeAlias = Literal["left", "right", "front", "rear"]


@dataclass(frozen=True)
class Axle:
    """An axle seen from above, with the number to be read at it.

    ``position`` counts from the vehicle's first axle; ``track`` from the middle of one tire, or of
    one pair, to that on the other side. ``tag`` is an axle with single tires behind the drive axle.
    """

    position: float
    track: float
    fitment: Literal["single", "dual", "tag"]
    set_point: str
    unit: str
    tire_diameter: float
    tire_width: float


@dataclass(frozen=True)
class Coupling:
    """How a vehicle hangs on the one ahead of it.

    ``behind_front_ahead`` is where the joint lies behind the front of the vehicle ahead;
    ``behind_own_front`` where it lies behind the front of this one: negative for a bar or a tongue
    that reaches forward, positive for a kingpin.
    """

    kind: Literal["bar", "tongue", "kingpin"]
    behind_front_ahead: float
    behind_own_front: float


@dataclass(frozen=True)
class Vehicle:
    """A vehicle seen from above. ``name`` is what stands under it, like "coach 38 ft 0 in"."""

    name: str
    shape: Shape
    length: float
    width: float
    front_overhang: float
    axles: tuple[Axle, ...]
    coupling: Coupling | None = None


@dataclass(frozen=True)
class Thing:
    """Something to be found on the rig: a filler, a bay, a valve, the entry door, an exit.

    ``vehicle`` counts from 0. A thing on the left or right is ``position`` behind the vehicle's
    front and ``inward`` from that side; one at the front or rear is ``inward`` from there, in the
    middle. ``walk`` is its number on the walk around the rig, empty for none; ``is_bold`` what is looked
    for first.
    """

    vehicle: int
    side: End
    label: str
    position: float = 0.0
    inward: float = 0.0
    walk: str = ""
    is_bold: bool = False


@dataclass(frozen=True)
class PlanView:
    """A whole rig from above, front at the left; the right side of the rig is at the top.

    ``overall`` is the length in words; ``scale_bar`` a length and ``scale_label`` its words, each left out
    where it is empty; ``width_mm`` the width of the drawing on paper, ``points`` the size of its labels;
    ``body_mm`` the most that the widest vehicle may take of its height, 0 where it may take any.
    """

    vehicles: tuple[Vehicle, ...]
    things: tuple[Thing, ...]
    overall: str
    scale_bar: float
    scale_label: str
    alternative: str
    width_mm: float = 170.0
    points: Literal[9, 13] = 9
    body_mm: float = 0.0


@dataclass(frozen=True)
class MarginBar:
    """A load against its rating: ``share`` of the rating that is used, 1.0 at the rating.

    ``margin`` is what is left or over, in words; ``is_over`` decides how the bar is drawn and is
    not read off the share, so that a drawing never contradicts the text beside it.
    """

    name: str
    share: float
    load: str
    rating: str
    margin: str
    is_over: bool = False


@dataclass(frozen=True)
class MarginBars:
    """All loads of a rig against their ratings, on one scale of shares."""

    rows: tuple[MarginBar, ...]
    alternative: str
    width_mm: float = 116.0


@dataclass(frozen=True)
class TankStrip:
    """What one tank holds along a trip: shares of the full tank at its moments, None where not known.

    ``reserve`` is the share kept back, None for a tank without one; ``least`` and ``most`` in words.
    """

    name: str
    shares: tuple[float | None, ...]
    reserve: float | None
    words: str


@dataclass(frozen=True)
class TankStrips:
    """Tanks along a trip, one strip each; ``days`` are the moments at which a day begins, with its name."""

    rows: tuple[TankStrip, ...]
    days: tuple[tuple[int, str], ...]
    alternative: str
    width_mm: float = 177.0


@dataclass(frozen=True)
class WarningDevice:
    """A triangle: how far behind the rear of the last vehicle (ahead: negative), and its steps in words."""

    behind_rear: float
    paces: str


@dataclass(frozen=True)
class WarningRoad:
    """A kind of road, with the triangles that belong on it.

    ``title`` is its name; ``count_from`` says where steps begin.
    """

    title: str
    count_from: str
    devices: tuple[WarningDevice, ...]


@dataclass(frozen=True)
class WarningDevices:
    """Where to set out triangles, one road under the other, to scale along the road.

    ``vehicle_lengths`` from the front of the rig to its rear, the gaps between them in
    ``coupling_gap``.
    """

    roads: tuple[WarningRoad, ...]
    vehicle_lengths: tuple[float, ...]
    coupling_gap: float
    alternative: str
    width_mm: float = 116.0


@dataclass(frozen=True)
class ChartRow:
    """A row of a load table: where it stands on both scales, and how both are written, without units."""

    pressure: float
    load: float
    pressure_text: str
    load_text: str


MarkKind: TypeAlias = Literal["row", "label", "set-point", "cap"]


@dataclass(frozen=True)
class ChartMark:
    """A pressure marked on a chart with its words, and all that it is; the last decides how it is drawn."""

    kinds: tuple[MarkKind, ...]
    pressure: float
    words: str


@dataclass(frozen=True)
class LoadChart:
    """One axle on its load table: what each pressure carries, the load, and the pressures that bind.

    ``axis_words`` under the pressures and over the loads.
    """

    rows: tuple[ChartRow, ...]
    marks: tuple[ChartMark, ...]
    load: float
    load_words: str
    axis_words: tuple[str, str]
    alternative: str
    width_mm: float = 177.0


@dataclass(frozen=True)
class TireBox:
    """One mounted tire: its position, its age and tread as words, and what to do where it asks for it."""

    position: str
    age: str
    tread: str
    call: str = ""


@dataclass(frozen=True)
class TireColumn:
    """One axle: its name, and its tires from the right side of the rig to the left; or the spares, apart."""

    axle: str
    tires: tuple[TireBox, ...]
    is_spare: bool = False


@dataclass(frozen=True)
class TireMap:
    """All mounted tires of a vehicle as seen from above, front at the left, right side above."""

    columns: tuple[TireColumn, ...]
    alternative: str
    width_mm: float = 177.0


@dataclass(frozen=True)
class ProfilePoint:
    """A place on a day's road from the side: ``along`` in miles, ``height`` in feet, the stop and its height.

    A point that is no stop is an end of a grade, and has no words.
    """

    along: float
    height: float
    stop: str = ""
    told: str = ""


@dataclass(frozen=True)
class ProfileGrade:
    """A long grade, from and to in miles; one that ``is_placed`` is drawn heavy, another is only marked.

    Its words stand above ``crest``, its higher end.
    """

    start: float
    end: float
    label: str
    is_placed: bool
    crest: float


@dataclass(frozen=True)
class ProfileScale:
    """What all days of a trip are drawn to: the longest day in miles, the most any climbs or falls in feet.

    ``rise`` and ``run`` are the feet and miles of its bars, each with its words.
    """

    longest: float
    highest: float
    rise: tuple[float, str]
    run: tuple[float, str]


@dataclass(frozen=True)
class ElevationProfile:
    """A day's road from the side, its points in the order they are met; heights are stretched."""

    points: tuple[ProfilePoint, ...]
    grades: tuple[ProfileGrade, ...]
    scale: ProfileScale
    alternative: str
    width_mm: float


@dataclass(frozen=True)
class ReadPoint:
    """A reading: its day, counted from any, and its value; ``begins``: no line leads to it."""

    day: float
    value: float
    begins: bool = False
    is_after_air: bool = False


@dataclass(frozen=True)
class ReadLine:
    """What was read of one thing, in the order of its days."""

    name: str
    points: tuple[ReadPoint, ...]
    is_heavy: bool = False


@dataclass(frozen=True)
class Readings:
    """Readings over time on one scale: ``values`` and ``days`` marked with their words, a level across."""

    lines: tuple[ReadLine, ...]
    values: tuple[tuple[float, str], ...]
    days: tuple[tuple[float, str], ...]
    level: tuple[float, str] | None
    alternative: str
    height_mm: float
    width_mm: float = 177.0


View: TypeAlias = (
    PlanView | MarginBars | WarningDevices | LoadChart | TireMap | ElevationProfile | TankStrips | Readings
)
