"""SailGrib, How do I set the swing radius, https://sailgrib.com/en/apps/sailgrib-aa/faq/general/how-do-i-set-the-swing-radius/;
Anchor Knight, Anchor watch radius by boat length, https://www.anchorknight.com/blog/anchor-watch-radius-by-boat-length/;
Sailing USA, Swinging radius, http://www.sailingusa.info/swinging_radius.htm; scope: Trawler Forum,
https://www.trawlerforum.com/forums/showpost.php?p=472623&postcount=1 (all undated)."""

import pytest

from plangen.formulas.ground_tackle import anchor_watch_radius, rode_for_scope, swing_radius


def test_swinging_circle_of_a_ship() -> None:
    # Swinging circle page: 6 shackles of 27.5 m, 100 m from bridge to bow: 265 m, 0.1431 nautical miles.
    radius = swing_radius(6.0 * 27.5, 0.0, 0.0, 100.0)
    assert radius == pytest.approx(265.0)
    assert radius / 1852.0 == pytest.approx(0.1431, abs=0.0001)


@pytest.mark.parametrize(
    ("rode", "boat", "error", "radius"),
    [
        (30.0, 10.0, 10.0, 50.0),  # first anchor alarm page
        (20.0, 10.0, 5.0, 35.0),  # second page: 4 m of depth at 5 : 1
    ],
)
def test_anchor_alarm_without_depth(rode: float, boat: float, error: float, radius: float) -> None:
    assert anchor_watch_radius(rode, 0.0, 0.0, boat, error) == pytest.approx(radius)


def test_depth_makes_the_circle_smaller() -> None:
    # The simple rule of the page is the upper bound of the true circle.
    assert anchor_watch_radius(30.0, 5.0, 1.5, 10.0, 10.0) < 50.0


def test_scope() -> None:
    # Forum case: 10 ft of depth, 5 ft to the bow, 5 : 1, so 75 ft of rode.
    assert rode_for_scope(10.0 * 0.3048, 5.0 * 0.3048, 5.0) == pytest.approx(75.0 * 0.3048)
