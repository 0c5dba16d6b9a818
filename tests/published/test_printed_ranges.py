"""Range, fuel per mile and fuel at full power as makers, owners and magazines print them, each with its address."""

import pytest

from plangen.formulas.fuel_and_range import fuel_per_mile, fuel_rate_under_way, range_under_power
from plangen.formulas.propeller import apparent_slip, theoretical_propeller_speed

GALLON = 3.785411784
#: kilowatts of a metric horsepower
HORSE = 0.73549875


@pytest.mark.parametrize(
    ("usable", "rate", "speed", "reserve", "printed"),
    [
        # Ken Williams, Thinking about fuel efficiency: a twin of 68 ft, 3,000 US gallons less 300.
        # https://www.kensblog.com/thinking-about-fuel-efficiency/
        (2700.0, 7.3, 6.7, 0.0, 2478.0),
        (2700.0, 14.2, 8.6, 0.0, 1635.0),
        (3000.0, 27.7, 10.6, 10.0, 1033.0),
        # Power & Motoryacht, Sabre 48, 500 US gallons, a tenth kept. http://www.powerandmotoryacht.com/node/155608?tab=boat
        (500.0, 4.1, 7.7, 10.0, 849.0),
        # Sabre Yachts, Sabre 40 Sedan, 400 US gallons, a tenth kept. https://sabreyachts.com/blog/page/17
        (400.0, 1.5, 5.0, 10.0, 1200.0),
        # BoatTEST, Nordic Tug 39, 320 US gallons, a tenth kept. https://www.boattest.com/review/nordic-tugs/2872_nordic-tug-39
        (320.0, 11.25, 12.7, 10.0, 326.0),
        # Glen-L, Mirage design notes, 450 US gallons. https://www.glen-l.com/designs/cruiser/mirage-notes.html
        (450.0, 17.5, 18.7, 0.0, 480.6),
    ],
)
def test_range(usable: float, rate: float, speed: float, reserve: float, printed: float) -> None:
    assert range_under_power(usable * GALLON, rate * GALLON, speed, reserve) == pytest.approx(
        printed, rel=0.006
    )


@pytest.mark.parametrize(
    ("rate", "speed", "printed"),
    # Cibernautica, a 200 hp diesel planing boat. http://www.cibernautica.com.ar/temasutiles/economia/autonomia.htm
    [(46.7, 30.0, 1.55), (34.13, 25.0, 1.36)],
)
def test_fuel_for_each_mile(rate: float, speed: float, printed: float) -> None:
    assert fuel_per_mile(rate, speed) == pytest.approx(printed, abs=0.011)


@pytest.mark.parametrize(("fuel", "printed"), [("diesel", 40.0), ("petrol", 66.0)])
def test_fuel_at_full_power_by_the_rule_of_thumb(fuel: str, printed: float) -> None:
    # Ocqueteau: a turbo-diesel burns a fifth of its horsepower in litres an hour, a petrol engine a third; 200 cv.
    # http://ocqueteau.com/en-savoir-plus/technique-securite/consommation-des-bateaux-a-moteur.html,9,41,19,0,354
    assert fuel_rate_under_way("motor-planing", fuel, 200.0 * HORSE, 100.0) == pytest.approx(
        printed, rel=0.07
    )


def test_knots_from_pitch_and_slip() -> None:
    # SailboatOwners forum, New motor: knots = rpm x 60 x pitch / 72,913.2 and 45 % slip of a displacement hull.
    # https://forums.sailboatowners.com/threads/new-motor.27276
    without = theoretical_propeller_speed(13.0, 1000.0, 1.0)
    assert without == pytest.approx(1000.0 * 60.0 * 13.0 / 72913.2, rel=0.001)
    assert apparent_slip(0.55 * without, without) == pytest.approx(45.0)
