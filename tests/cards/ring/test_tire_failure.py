"""Card 8: what hands and feet do first, when no air is added, and what is ordered for each axle."""

from binder.cards.blocks import Big, Box, Card, Step, ValueTable
from binder.cards.ring.tire_failure import tire_failure
from tests.cards.binder_rigs import demo
from tests.cards.procedure_rigs import answers, assessed, coach, rig


def boxes(card: Card) -> dict[str, tuple[str, ...]]:
    return {
        block.title: block.lines for side in card.sides for block in side.blocks if isinstance(block, Box)
    }


def steps(card: Card) -> list[str]:
    return [block.text for side in card.sides for block in side.blocks if isinstance(block, Step)]


def test_a_few_lines_are_known_by_heart_and_the_first_word_is_no_brake() -> None:
    first = tire_failure(demo("larkspur")).sides[0].blocks[0]

    assert isinstance(first, Box)
    assert first.title == "Bang, or it pulls? NO BRAKE."
    assert first.lines == (
        "Both hands. Hold it straight.",
        "Foot stays as it is.",
        "Retarder, exhaust brake, cruise OFF.",
        "Then ease off slowly. Coast off the road.",
    )


def test_what_brakes_by_itself_goes_off_before_the_foot_comes_up() -> None:
    with_a_retarder, without = (
        next(block for block in tire_failure(demo(name)).sides[0].blocks if isinstance(block, Box)).lines
        for name in ("larkspur", "kestrel")
    )

    off, eased = (
        next(at for at, text in enumerate(with_a_retarder) if word in text)
        for word in ("Retarder, exhaust brake, cruise OFF", "ease off")
    )
    assert off < eased
    assert "Foot stays as it is. Cruise OFF." in without
    assert not [text for text in without if "etarder" in text]


def test_one_of_a_pair_stops_a_rig_with_pairs_alone() -> None:
    pair = "One of a pair flat or low? Stop now."

    assert boxes(tire_failure(demo("larkspur")))[pair] == (
        "Its mate carries double.",
        "Both come off. Both are inspected.",
    )
    assert pair not in boxes(tire_failure(demo("sandpiper")))


def test_a_trailer_that_sways_is_told_what_the_feet_leave_alone_and_a_motorhome_is_not() -> None:
    swaying = "Trailer sways? NO BRAKE PEDAL. Ease off."

    assert swaying in steps(tire_failure(demo("sandpiper")))
    assert "Stop now: the others on its side carry it." in steps(tire_failure(demo("sandpiper")))
    assert swaying not in steps(tire_failure(demo("larkspur")))


def test_a_wheel_is_watched_until_it_is_cool() -> None:
    assert "Watch it until it is cool." in steps(tire_failure(demo("larkspur")))
    assert "Flames? Everyone out: card 9." in steps(tire_failure(demo("larkspur")))


def test_the_line_under_which_no_air_is_added_stands_large_for_each_axle() -> None:
    card = tire_failure(demo("larkspur"))
    table = next(block for block in card.sides[0].blocks if isinstance(block, ValueTable))

    assert (table.caption, table.headers) == (
        "Driven flat: ADD NO AIR",
        ("cold, or less, psi", "just driven"),
    )
    assert [(row.name, row.value, row.others) for row in table.rows] == [
        ("Steer", "84", ("99",)),
        ("Drive, pairs", "76", ("91",)),
        ("Towed car", "27", ("33",)),
    ]
    assert {"tires.coach.steer.run_flat_below", "tires.coach.steer.hot_flat"} <= set(card.figures)


def test_a_truck_tire_is_left_to_the_tire_service_and_another_is_inspected() -> None:
    assert steps(tire_failure(demo("larkspur")))[-2:] == [
        "Coach: stand clear, tire service lifts it.",
        "Car: take it off, inspect inside.",
    ]


def test_a_tire_of_an_unknown_kind_counts_as_one_of_a_truck() -> None:
    unknown = assessed(rig({"coach": coach()}))

    assert steps(tire_failure(unknown))[-1] == "Coach: stand clear, tire service lifts it."


def test_what_to_order_is_told_once_for_axles_that_take_the_same() -> None:
    card = tire_failure(demo("larkspur"))
    bigs = [block for block in card.sides[1].blocks if isinstance(block, Big)]

    assert [(big.name, big.value, big.detail, big.points) for big in bigs] == [
        ("Steer, drive, pairs", "295/75R22.5 G", "cold fill 105 / 95 psi", 24),
        ("Towed car", "225/65R17 SL", "cold fill 33 psi", 24),
    ]
    assert answers(card) == {
        "Nuts: socket 33 mm, dry": "475 ft\u00b7lb",
        "Nuts: socket 19 mm, dry": "80 ft\u00b7lb",
        "Spare, coach / car": "NONE / ON A WHEEL",
        "Torque the nuts again": "AFTER 50 to 100 miles",
    }


def test_what_is_not_known_of_a_wheel_is_a_blank() -> None:
    found = answers(tire_failure(assessed(rig({"coach": coach()}))))

    assert found["Nuts: socket ______, ______"] == "______ ft\u00b7lb"
    assert found["Spare, coach"] == "______"
