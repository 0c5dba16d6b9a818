"""Ratios of a sailing boat, the apparent wind, and the speed to expect under sail."""

from __future__ import annotations

from math import atan2, cos, degrees, hypot, radians, sin

from plangen.formulas.declare import NUMBER, formula, require_positive, require_within
from plangen.formulas.interpolation import interpolate

_WIND_SPEEDS = (6.0, 8.0, 10.0, 12.0, 14.0, 16.0, 20.0)
_WIND_ANGLES = (52.0, 60.0, 75.0, 90.0, 110.0, 120.0, 135.0, 150.0)
#: Boat speeds in knots of the rating certificate ITA13672 (a 33 ft cruiser-racer), by wind angle and wind speed.
_BOAT_SPEEDS = (
    (5.07, 5.97, 6.53, 6.79, 6.89, 6.94, 7.00),
    (5.34, 6.21, 6.72, 6.98, 7.10, 7.16, 7.23),
    (5.53, 6.39, 6.87, 7.16, 7.36, 7.48, 7.62),
    (5.42, 6.34, 6.91, 7.20, 7.45, 7.68, 7.99),
    (5.35, 6.43, 7.03, 7.42, 7.75, 8.01, 8.33),
    (5.16, 6.27, 6.95, 7.36, 7.73, 8.08, 8.68),
    (4.61, 5.72, 6.56, 7.08, 7.48, 7.87, 8.65),
    (3.88, 4.97, 5.90, 6.62, 7.10, 7.47, 8.22),
)
#: The speed of that boat in 12 knots of wind abeam.
_REFERENCE_SPEED = 7.20


@formula(sail_area="foot**2", displacement="pound", returns=NUMBER)
def sail_area_displacement_ratio(sail_area: float, displacement: float) -> float:
    """Return the ratio of sail area to displacement.

    Arguments:
        sail_area: mainsail and full foretriangle, square feet.
        displacement: displacement in sailing trim, lb.

    14 and below is slow in light air, 18 to 21 above average. Raises `OutOfRange` for values not above zero.

    Source: area / (lb / 64)^(2/3), Sailboat ratios, ipass.net/sailboat/calratio.htm, page read.

    >>> round(sail_area_displacement_ratio(861.1, 20944.0), 1)
    18.1
    """
    require_positive(sail_area=sail_area, displacement=displacement)
    return float(sail_area / (displacement / 64.0) ** (2.0 / 3.0))


@formula(displacement="pound", length_waterline="foot", returns=NUMBER)
def displacement_length_ratio(displacement: float, length_waterline: float) -> float:
    """Return the ratio of displacement to length.

    Arguments:
        displacement: displacement, lb.
        length_waterline: waterline length, ft.

    In long tons of 2,240 lb over the cube of a hundredth of the length. Below 180 is light, 180 to 270
    moderate, above heavy. Raises `OutOfRange` for values not above zero.

    Source: Sailboat ratios, ipass.net/sailboat/calratio.htm; sailboat-cruising.com, Boat displacement; pages read.

    >>> round(displacement_length_ratio(20944.0, 35.1))
    216
    """
    require_positive(displacement=displacement, length_waterline=length_waterline)
    return float(displacement / 2240.0 / (0.01 * length_waterline) ** 3)


def _apparent_wind(true_wind_speed: float, true_wind_angle: float, boat_speed: float) -> tuple[float, float]:
    """Return the parts of the apparent wind from ahead and from abeam, in knots."""
    require_positive(true_wind_speed=true_wind_speed)
    require_within("true_wind_angle", true_wind_angle, 0.0, 180.0)
    require_within("boat_speed", boat_speed, 0.0, 60.0)
    angle = radians(true_wind_angle)
    return true_wind_speed * cos(angle) + boat_speed, true_wind_speed * sin(angle)


@formula(true_wind_speed="knot", true_wind_angle="degree", boat_speed="knot", returns="knot")
def apparent_wind_speed(true_wind_speed: float, true_wind_angle: float, boat_speed: float) -> float:
    """Return the apparent wind speed in knots.

    Arguments:
        true_wind_speed: true wind speed, kn.
        true_wind_angle: angle of the true wind from the bow, degrees.
        boat_speed: speed through the water, kn, without leeway.

    Raises `OutOfRange` for wind speeds not above zero, angles outside 0 to 180 and boat speeds outside 0 to
    60.

    Source: vector sum of wind and boat's own motion.

    An example in Yachting and Boating World forums, 12 kn of wind at 30 degrees and 7 kn of speed, gives 18.4 kn:

    >>> round(apparent_wind_speed(12.0, 30.0, 7.0), 1)
    18.4
    """
    return float(hypot(*_apparent_wind(true_wind_speed, true_wind_angle, boat_speed)))


@formula(true_wind_speed="knot", true_wind_angle="degree", boat_speed="knot", returns="degree")
def apparent_wind_angle(true_wind_speed: float, true_wind_angle: float, boat_speed: float) -> float:
    """Return the angle of the apparent wind from the bow, degrees.

    Arguments:
        true_wind_speed: true wind speed, kn.
        true_wind_angle: angle of the true wind from the bow, degrees.
        boat_speed: speed through the water, kn, without leeway.

    Errors and source: those of `apparent_wind_speed`.

    >>> round(apparent_wind_angle(12.0, 30.0, 7.0))
    19
    """
    ahead, abeam = _apparent_wind(true_wind_speed, true_wind_angle, boat_speed)
    return float(degrees(atan2(abeam, ahead)))


@formula(boat_speed="knot", true_wind_angle="degree", returns="knot")
def velocity_made_good(boat_speed: float, true_wind_angle: float) -> float:
    """Return the speed in knots made good to windward; negative before the wind.

    Arguments:
        boat_speed: speed through the water, kn.
        true_wind_angle: angle of the true wind from the track, degrees.

    Raises `OutOfRange` for speeds not above zero and angles outside 0 to 180.

    Source: plane trigonometry. At 60 degrees half the speed is made good:

    >>> round(velocity_made_good(6.0, 60.0), 1)
    3.0
    """
    require_positive(boat_speed=boat_speed)
    require_within("true_wind_angle", true_wind_angle, 0.0, 180.0)
    return float(boat_speed * cos(radians(true_wind_angle)))


@formula(
    true_wind_speed="knot",
    true_wind_angle="degree",
    length_waterline="foot",
    reference_speed="knot",
    returns="knot",
)
def expected_sailing_speed(
    true_wind_speed: float,
    true_wind_angle: float,
    length_waterline: float,
    reference_speed: float | None = None,
) -> float:
    """Return the speed in knots to expect of a cruising monohull under sail, where she has no polar diagram.

    Arguments:
        true_wind_speed: true wind speed, kn.
        true_wind_angle: angle of the true wind from the bow, degrees.
        length_waterline: waterline length, ft.
        reference_speed: her known speed in 12 kn of wind abeam, kn; without it 1.2 x square root of the
            length.

    A heuristic: it serves to ask why a boat is below about 80 % of it and is never a contract figure. Not
    valid for multihulls and light racing boats. Valid for 6 to 20 kn of wind from 52 to 150 degrees. Raises
    `OutOfRange` outside and for values not above zero.

    Source: the shape of the speed prediction on certificate ITA13672 of the Offshore Racing Congress, as
    transcribed in a public file; the default of the reference speed is from memory.

    >>> round(expected_sailing_speed(12.0, 90.0, 36.0), 1)
    7.2
    """
    require_positive(length_waterline=length_waterline)
    reference = 1.2 * length_waterline**0.5 if reference_speed is None else reference_speed
    require_positive(reference_speed=reference)
    by_angle = [
        (angle, interpolate("true wind speed", true_wind_speed, list(zip(_WIND_SPEEDS, speeds, strict=True))))
        for angle, speeds in zip(_WIND_ANGLES, _BOAT_SPEEDS, strict=True)
    ]
    return float(reference * interpolate("true wind angle", true_wind_angle, by_angle) / _REFERENCE_SPEED)
