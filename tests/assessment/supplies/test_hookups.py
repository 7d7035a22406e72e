from tests.assessment.conftest import Assessed
from tests.by_key import ByKey


def test_a_stop_by_day_of_unknown_length_leaves_no_time_at_hookups_to_count_on(
    assessed: Assessed, larkspur: ByKey
) -> None:
    stay = "kind: rest\n          stay: 45 min\n          arriving: {coach: {diesel: 69 gal,"
    blank = assessed("larkspur", trip=((stay, stay.replace("45 min", "")),))
    leaving = "supplies.coach.house_battery.day_3.stop_2.leaving"
    arriving = leaving.replace("leaving", "arriving")

    charged, drained = larkspur.quantity(leaving), blank.quantity(leaving)
    assert charged is not None
    assert charged > larkspur.quantity(arriving)
    assert drained is not None
    assert drained < blank.quantity(arriving)
