"""The figures of the demo rigs against statics written out by hand, in pounds and inches.

The hand arithmetic takes no function of the product: rear + w x/L, front + w (1 - x/L), and across the
axle w (1/2 + y/track) to the left. Densities in lb/gal: AP-42 (water 8.33), COMAR (propane 4.24),
ISO 22241-1 (exhaust fluid 9.1); diesel 7.05 and gasoline 6.17 are the usual figures.
"""

import pytest

from tests.by_key import ByKey

# Weight, place along, place left of the center: what departure and everything full differ by from the
# ticket (10,720 / 16,480 lb). Two people stay the same people.
DEPARTURE = (
    ((100 - 75) * 7.05, 42, 0),
    ((15 - 10) * 9.1, 306, 38),
    ((90 - 25) * 8.33, 196, 14),
    ((0 - 10) * 8.33, 214, 34),
    ((1 - 5) * 8.33, 226, 34),
    (24 * (1 - 0.60) * 4.24, 128, -36),
    (300, 180, 0),
    (40, 376, 0),
)
FULL = (*DEPARTURE[:3], (50 * 8.33, 214, 34), (35 * 8.33, 226, 34), *DEPARTURE[5:])
WHEELBASE, STEER_TRACK, DRIVE_TRACK = 252, 83, 76


def pounds(assessment: ByKey, key: str) -> float:
    quantity = assessment.quantity(key)
    assert quantity is not None, key
    return float(quantity.to("pound").m)


def psi(assessment: ByKey, key: str) -> float | None:
    quantity = assessment.quantity(key)
    return None if quantity is None else float(quantity.to("psi").m)


def by_hand(changes: tuple[tuple[float, float, float], ...]) -> tuple[float, float]:
    rear = sum(weight * at / WHEELBASE for weight, at, _ in changes)
    return 10_720 + sum(weight for weight, _, _ in changes) - rear, 16_480 + rear


@pytest.mark.parametrize(
    ("state", "changes", "printed"),
    [
        ("departure", DEPARTURE, (11_048, 17_180, 28_228)),
        ("everything_full", FULL, (11_157, 17_896, 29_052)),
    ],
)
def test_larkspurs_axles_are_the_scale_ticket_and_statics(
    larkspur: ByKey,
    state: str,
    changes: tuple[tuple[float, float, float], ...],
    printed: tuple[float, ...],
) -> None:
    front, rear = by_hand(changes)

    for axle, exact, rounded in zip(
        ("steer", "drive", "total"), (front, rear, front + rear), printed, strict=True
    ):
        load = pounds(larkspur, f"weights.coach.{axle}.{state}.load")
        assert load == pytest.approx(exact, abs=0.01)
        assert 0 <= rounded - load < 1


def test_the_heavier_drive_end_is_by_lateral_statics_and_the_steer_end_by_the_ratio(
    larkspur: ByKey,
) -> None:
    """9,499 lb at the left rear; keeping the ratio alone would give 9,144 lb and a row too low."""
    front, rear = by_hand(FULL)
    left_rear = 8_420 + sum(w * at / WHEELBASE * (0.5 + y / DRIVE_TRACK) for w, at, y in FULL)
    left_front = front * 5_480 / 10_720

    assert pounds(larkspur, "weights.coach.drive.everything_full.heavier_end") == pytest.approx(left_rear)
    assert left_rear == pytest.approx(9_499, abs=1)
    assert rear * 8_420 / 16_480 == pytest.approx(9_144, abs=1)
    across = 5_480 + sum(w * (1 - at / WHEELBASE) * (0.5 + y / STEER_TRACK) for w, at, y in FULL)
    assert pounds(larkspur, "weights.coach.steer.everything_full.heavier_end") == pytest.approx(
        max(left_front, across, 10_720 + (front - 10_720) - across)
    )
    assert pounds(larkspur, "tires.coach.steer.load_per_tire") == pytest.approx(5_744, abs=1)
    assert pounds(larkspur, "tires.coach.drive.load_per_tire") == pytest.approx(left_rear / 2)


def test_larkspurs_combination_and_coupling(larkspur: ByKey) -> None:
    assert pounds(larkspur, "weights.combination.heaviest.load") == pytest.approx(33_112, abs=1)
    assert pounds(larkspur, "coupling.coach_car.limit") == pytest.approx(8_000)
    assert pounds(larkspur, "coupling.coach_car.towed") == pytest.approx(4_060)
    assert pounds(larkspur, "coupling.coach_car.margin") == pytest.approx(3_940)
    assert larkspur.figure("coupling.coach_car.weakest_part").value == "tow bar, base plate"


@pytest.mark.parametrize(("axle", "printed"), [("steer", (100, 105, 100, 84)), ("drive", (90, 95, 90, 76))])
def test_larkspurs_pressures(larkspur: ByKey, axle: str, printed: tuple[int, ...]) -> None:
    """Row, set-point, low alarm and run-flat line; its valves were never read, which leaves no cap."""
    entries = ("row_pressure", "set_point", "low_alarm", "run_flat_below")
    found = [psi(larkspur, f"tires.coach.{axle}.{entry}") for entry in entries]

    assert found == pytest.approx(printed)
    assert psi(larkspur, f"tires.coach.{axle}.add_if_below") == pytest.approx(printed[1])
    assert psi(larkspur, f"tires.coach.{axle}.cap") is None
    assert psi(larkspur, f"tires.coach.{axle}.leave_up_to") is None


def test_the_towed_car_stands_on_its_placard(larkspur: ByKey) -> None:
    for axle in ("front", "rear"):
        assert psi(larkspur, f"tires.car.{axle}.set_point") == pytest.approx(33)
        assert psi(larkspur, f"tires.car.{axle}.cap") == pytest.approx(44)
        assert psi(larkspur, f"tires.car.{axle}.row_pressure") is None


@pytest.mark.parametrize(
    ("degrees", "steer", "drive", "car"),
    [
        (30, 105, 95, 34),
        (40, 106, 96, 35),
        (50, 109, 98, 36),
        (60, None, 100, 37),
        (70, None, 102, 38),
        (80, None, 105, 39),
        (90, None, 107, 40),
    ],
)
def test_the_fill_of_today_covers_the_coldest_morning(
    larkspur: ByKey, degrees: int, steer: int | None, drive: int, car: int
) -> None:
    """24 degF at 6,240 ft in Stanley; over the cap stands no number but "add air on the cold morning"."""
    cells = [
        psi(larkspur, f"tires.{axle}.fill_at.{degrees}")
        for axle in ("coach.steer", "coach.drive", "car.rear")
    ]

    assert cells == [steer, pytest.approx(drive), pytest.approx(car)]
    coldest = larkspur.figure(f"tires.coach.drive.fill_at.{degrees}").inputs[1]
    assert (coldest.name, coldest.origin) == ("cold morning that asks for most", "Stanley, Idaho")


def test_kestrel_departs_within_its_rating_by_fifty_pounds(kestrel: ByKey) -> None:
    changes = (
        (14 * 6.17, 150),
        (25 * 8.33, 150),
        (25 * 8.33, 185),
        (20 * 8.33, 190),
        (150, 150),
        (150, 150),
    )
    rear = sum(weight * at / 176 for weight, at in changes)
    front = sum(weight for weight, _ in changes) - rear

    assert pounds(kestrel, "weights.coach.steer.departure.load") == pytest.approx(3_900 + front)
    assert pounds(kestrel, "weights.coach.drive.departure.load") == pytest.approx(7_580 + rear)
    assert pounds(kestrel, "weights.coach.steer.departure.load") == pytest.approx(3_964, abs=1)
    assert pounds(kestrel, "weights.coach.drive.departure.load") == pytest.approx(8_486, abs=1)
    assert pounds(kestrel, "weights.coach.total.departure.margin") == pytest.approx(50, abs=1)


def test_kestrel_stands_on_its_labels_though_its_rows_are_far_lower(kestrel: ByKey) -> None:
    assert pounds(kestrel, "tires.coach.steer.load_per_tire") == pytest.approx(2_018, abs=1)
    assert pounds(kestrel, "tires.coach.drive.load_per_tire") == pytest.approx(2_177, abs=1)
    rows = [psi(kestrel, f"tires.coach.{axle}.row_pressure") for axle in ("steer", "drive")]
    fills = [psi(kestrel, f"tires.coach.{axle}.set_point") for axle in ("steer", "drive")]
    caps = [psi(kestrel, f"tires.coach.{axle}.cap") for axle in ("steer", "drive")]

    assert rows == pytest.approx([45, 60])
    assert fills == pytest.approx([65, 80])
    assert caps == pytest.approx([80, 80])


def test_no_demo_rig_may_not_drive(larkspur: ByKey, kestrel: ByKey) -> None:
    for assessment in (larkspur, kestrel):
        assert [found.text for found in assessment.findings if found.grade == "do not drive"] == []
