"""Cards with every kind of block, made up for the tests of paper; no value is of a real vehicle."""

from binder.cards.blocks import (
    Big,
    BinderDocument,
    Blank,
    Box,
    Card,
    Drawing,
    End,
    Heading,
    Line,
    Note,
    Page,
    Reason,
    Side,
    Step,
    Table,
    ValueRow,
    ValueTable,
)

RIG, EFFECTIVE = "Larkspur", "2026-06-01"
ADDRESS = "HTTPS://EXAMPLE.COM/"


def card(number: str, name: str, title: str, *sides: Side, wrong: str = "", **more: object) -> Card:
    code = f"{name[:1]}{len(title):02}kd"
    values = {"rig": RIG, "effective": EFFECTIVE, "code": code, "target": f"{ADDRESS}#{number}.{code}"} | more
    return Card(number, name, title, sides, wrong, **values)  # type: ignore[arg-type]


SAMPLE_SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="110mm" height="34mm" viewBox="0 0 110 34">'
    "<title>Plan of the rig with set-points</title>"
    '<rect x="1" y="7" width="70" height="20" rx="2" fill="none" stroke="#000" stroke-width=".5"/>'
    '<rect x="82" y="10" width="26" height="14" rx="3" fill="none" stroke="#000" stroke-width=".5"/>'
    '<path d="M71 17 L82 13 M71 17 L82 21" stroke="#000" stroke-width=".4"/>'
    '<path d="M10 8h7v2h-7z M10 24h7v2h-7z M50 8h7v2h-7z M50 24h7v2h-7z"/>'
    '<text x="13.5" y="19" font-family="Binder Sans" font-weight="700" font-size="4.586" '
    'text-anchor="middle">105</text></svg>'
)

TIRES = card(
    "3",
    "tires",
    "Tires",
    Side(
        "Every morning, before the sun is on them. Read, then do.",
        (
            ValueTable(
                "",
                ("cold fill, psi", "leave up to", "run flat below"),
                (
                    ValueRow("Steer", "5,744 lb each, 31 to next row", "105", ("110", "84")),
                    ValueRow("Drive, pairs", "4,750 lb each, 180 to next row", "95", ("110", "76")),
                    ValueRow("Towed car", "placard", "33", ("44", "27")),
                ),
            ),
            Note("Tires to 75 mph, 110 psi. Wheels 7,400 lb, 120 psi."),
            Box(
                "Driven below “run flat”?",
                ("Coach: no air. Stand clear. Tire service.", "Car: off, and inspected inside."),
                "WARNING",
            ),
            Heading("Adding air"),
            Line("Chuck and hose", "CLIPPED ON"),
            Line("You", "OUT OF LINE OF THE SIDEWALL", killer=True, consequence="DO NOT MOVE"),
            Line("Hot tire", "NEVER BLED"),
        ),
    ),
    Side(
        "Fill today, so that the load is carried on the coldest morning of the trip: 24 °F at 6,240 ft.",
        (
            Table(
                ("Tire temperature", "steer, psi", "drive", "car"),
                tuple(
                    (f"{30 + 10 * step} °F", str(105 + 2 * step), str(95 + 2 * step), str(34 + step))
                    for step in range(7)
                ),
            ),
            Heading("Monitor"),
            Line("Low alarm, steer / drive / car", "100 / 90 / 29 psi", "set against the cold fill"),
            Line("Fast-leak alarm", "ON", consequence="FIX FIRST"),
            Heading("At a stop, hot"),
            Line("Above cold, coach", "10 to 18 psi"),
            Line("Mates of one axle", "WITHIN 10 %", consequence="DO NOT MOVE"),
            Box("One of a pair flat or low?", ("Stop now. Its mate carries double.",)),
        ),
    ),
    wrong="a steer end over 5,775 lb, a drive end over 9,860 lb, colder than 24 °F at 6,240 ft, any tire, "
    "wheel or towed vehicle changed.",
    reasons=(
        Reason(
            "Steer 105 psi", "The heavier end is 5,744 lb; the row for 5,775 lb is 100 psi.", "maker's table"
        ),
        Reason(
            "Drive 95 psi", "Half of 9,499 lb is 4,750 lb; the dual row for 4,930 lb is 90.", "maker's table"
        ),
        Reason("Run flat", "A tire driven at less than 80 % of its set pressure is taken off.", "maker"),
    ),
)


def _stop(challenge: str, answer: str, *, killer: bool = False) -> Line:
    return Line(challenge, answer, "", "DO NOT MOVE" if killer else "FIX FIRST", killer, 4)


EVERY_STOP = card(
    "2",
    "every_stop",
    "Every stop",
    Side(
        "Do, then confirm. One walk from the driver's seat to the entry door. Interrupted: say the line.",
        (
            Heading("Before stopping"),
            _stop("Tire monitor, moving", "NO ALARM"),
            Heading("Smell, heat"),
            _stop("Hubs, near the hand", "MATES ALIKE", killer=True),
            Heading("From behind"),
            _stop("Between the duals", "NO BULGE"),
            _stop("Rims and nuts", "NO CRACK, NO RUST"),
            Heading("Coupling"),
            _stop("Pins, clips, cables, cord", "IN", killer=True),
            _stop("Push with the foot", "NO CLUNK", killer=True),
            Heading("Round, to the door"),
            _stop("Bay doors, by hand", "LOCKED"),
            Line("Glass, mirrors, lamps", "CLEAN", ticks=4, consequence="OK TO GO"),
            End("Every stop: complete"),
        ),
    ),
    wrong="a bay, a door or the towed car is changed.",
)

COUPLING = card(
    "4",
    "coupling",
    "Coupling and uncoupling",
    Side(
        "Read, then do. Level, straight ground.",
        (
            Heading("Coupling"),
            Step("Set the coach's parking brake.", "1", killer=True),
            Step("Raise the arms onto the base plate.", "2", "within 3 in of level"),
            Step("Push each pin home; clip it.", "3", killer=True),
            Step("Cord comes up short:"),
            Step("Move the car forward one foot.", "", indent=True),
            Heading("Proof"),
            Line("Pins and clips", "4 AND 4", "", "DO NOT MOVE", killer=True),
            Line("Cord", "DRIP LOOP", "clear of the ground", "FIX FIRST"),
            Line("Lights with the stick", "ALL SEVEN", "", "DO NOT MOVE", killer=True),
            Line("Battery of the car", "OVER 12.4 V", "it drains while towed", "OK TO GO"),
            Box("Never back up coupled.", ("The bar folds.",), "DANGER"),
            End("Coupling: complete"),
        ),
    ),
    wrong="the bar, the plate or the car is changed.",
    family="stop",
)

WINDSHIELD_SLIP = card(
    "12",
    "windshield_slip",
    "Windshield slip",
    Side(
        "At a meter's distance.",
        (
            Big("Overall height", "12 ft 8 in", "at ride height, dish down", 40),
            Big("Width with mirrors", "10 ft 2 in", "", 32),
            Big("Length, coupled", "58 ft 2 in", "", 32),
            Big("Weight, all", "33,112 lb", "", 24),
            Note("To stop: foot brake, then the yellow knob out. Then call."),
        ),
    ),
    wrong="anything is put on the roof.",
    family="help",
)

DAY_SHEET = card(
    "5.1",
    "day_sheet",
    "Day sheet 1",
    Side(
        "Read before leaving.",
        (
            Big("Overall height", "12 ft 8 in"),
            Line("Distance, driving time", "214 mi, 4 h 50 min"),
            Line("Tonight's gate", "closes at 20:00", "Office 555-0142", "OK TO GO"),
            Drawing(SAMPLE_SVG, "Plan of the rig with set-points", 110, 34),
            Blank("Odometer, morning"),
            Blank("Odometer, evening"),
            Table(("Stop", "mile", "fill"), (("Fuel at the junction", "118", "62 gal"),), small=True),
            Box("Grade 6 % for 5 mi", ("Gear before the crest.",), "CAUTION"),
            Box("Low clearance 13 ft 0 in", (), "NOTICE"),
        ),
    ),
    wrong="the route is changed.",
    target="",
)

RING = (EVERY_STOP, TIRES, COUPLING, DAY_SHEET, WINDSHIELD_SLIP)

PAGE = Page(
    "weights",
    "Weights",
    "Where each pound is, and what is left.",
    (
        Heading("Axles"),
        Table(
            ("Axle", "load", "rating", "margin"),
            (("Front", "11,048 lb", "12,000 lb", "952 lb"), ("Rear", "17,180 lb", "19,000 lb", "1,820 lb")),
        ),
        Note("Loads are rounded up, margins down."),
        Table(
            ("Source", "What"), (("Ticket", "Scale ticket of the full rig"),), small=True, caption="Sources"
        ),
    ),
)

BINDER = BinderDocument(
    "Road binder",
    RIG,
    "High plains, six days",
    EFFECTIVE,
    invented="INVENTED DATA: do not use on a real vehicle",
    attention=("Rear axle: 1,820 lb left of 19,000 lb.",),
    missing=("Torque of the wheel nuts.",),
    assumed=("Two people, 360 lb together.", "Fuel full at departure."),
    parts=(PAGE, *RING),
)
