from binder.assessment.assess import assess
from binder.cards.drawings import ElevationProfile
from binder.cards.ring.day_profile import elevation_picture
from tests.unknown.blanking import ON, made_up_profile


def test_the_bar_along_has_room_beside_the_road_of_short_days() -> None:
    """The usual 20 mi would be cut off at the edge of the card, and be read as less."""
    assessment = assess(made_up_profile(4003), ON)
    pictures = [elevation_picture(assessment, day) for day in range(1, 4)]
    drawn = [one.view for one in pictures if one is not None and isinstance(one.view, ElevationProfile)]

    assert drawn
    for view in drawn:
        assert view.scale.longest < 100
        assert view.scale.run == (10.0, "10 mi")
