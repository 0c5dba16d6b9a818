"""The match of an antenna to its cable, and how far a radio on the VHF band reaches."""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

_HIGHEST_RATIO = 100.0


def _reflection(standing_wave_ratio: float) -> float:
    """Return the reflection coefficient of a standing wave ratio."""
    require_within("standing_wave_ratio", standing_wave_ratio, 1.0, _HIGHEST_RATIO)
    return (standing_wave_ratio - 1.0) / (standing_wave_ratio + 1.0)


@formula(standing_wave_ratio=NUMBER, returns="percent")
def reflected_power_share(standing_wave_ratio: float) -> float:
    """Return the part in percent of the forward power that comes back from the antenna.

    Arguments:
        standing_wave_ratio: voltage standing wave ratio.

    Valid for ratios from 1 to 100. Raises `OutOfRange` outside.

    Source: transmission line theory.

    A published calculator gives 4 % for 1.5:

    >>> round(reflected_power_share(1.5), 1)
    4.0
    """
    return float(100.0 * _reflection(standing_wave_ratio) ** 2)


@formula(standing_wave_ratio=NUMBER, cable_loss=NUMBER, returns=NUMBER)
def standing_wave_ratio_at_antenna(standing_wave_ratio: float, cable_loss: float) -> float:
    """Return the standing wave ratio at the antenna from that at the set, which the cable's loss flatters.

    Arguments:
        standing_wave_ratio: voltage standing wave ratio read at the set.
        cable_loss: loss of the cable one way, dB.

    Valid for losses from 0 to 10 dB. Raises `OutOfRange` outside, and where the reading can't be had with so
    much loss even from an open cable.

    Source: return loss at the set = return loss at the antenna + twice the cable's loss, a published note,
    page read.

    An open antenna behind a loss of 1 dB reads 8.7 at the set; 1.5 behind 3 dB is 2.3 at the antenna:

    >>> round(standing_wave_ratio_at_antenna(1.5, 3.0), 1)
    2.3
    """
    require_within("cable_loss", cable_loss, 0.0, 10.0)
    coefficient = _reflection(standing_wave_ratio) * 10.0 ** (cable_loss / 10.0)
    if coefficient >= 1.0:
        raise OutOfRange(
            f"a cable loss of {cable_loss:g} dB can't show a ratio of {standing_wave_ratio:g}; check it"
        )
    return float((1.0 + coefficient) / (1.0 - coefficient))


@formula(length="metre", returns=NUMBER)
def thick_cable_loss(length: float) -> float:
    """Return the least loss in decibels of an antenna cable on the marine VHF band: that of thick RG-213.

    Arguments:
        length: length of the cable, up to 200 m.

    Thinner cable loses more: RG-8X 4.5 dB and RG-58 5.6 dB in 100 ft. Raises `OutOfRange` outside.

    Source: American Radio Relay League, corrected table 6-1 of its licence manual: 2.53 dB in 100 ft at 150 MHz.

    >>> round(thick_cable_loss(30.48), 2)
    2.53
    """
    require_positive(length=length)
    require_within("length", length, 0.0, 200.0)
    return 2.53 * length / 30.48


@formula(standing_wave_ratio=NUMBER, cable_loss=NUMBER, returns=NUMBER)
def standing_wave_ratio_at_set(standing_wave_ratio: float, cable_loss: float) -> float:
    """Return the standing wave ratio that shows at the set, from that at the antenna and the cable's loss.

    Arguments:
        standing_wave_ratio: voltage standing wave ratio at the antenna.
        cable_loss: loss of the cable one way, dB.

    Valid for ratios from 1 to 100 and losses from 0 to 10 dB. Raises `OutOfRange` outside.

    Source: as `standing_wave_ratio_at_antenna`, the other way round.

    A bad antenna of 5 behind 3 dB reads 2.0 at the set:

    >>> round(standing_wave_ratio_at_set(5.0, 3.0), 1)
    2.0
    """
    require_within("cable_loss", cable_loss, 0.0, 10.0)
    coefficient = _reflection(standing_wave_ratio) * 10.0 ** (-cable_loss / 10.0)
    return float((1.0 + coefficient) / (1.0 - coefficient))


@formula(antenna_height="metre", other_antenna_height="metre", returns="nautical_mile")
def radio_horizon(antenna_height: float, other_antenna_height: float) -> float:
    """Return the distance in nautical miles at which two antennas on the VHF band reach each other.

    Arguments:
        antenna_height: height of one antenna above the sea, m.
        other_antenna_height: height of the other above the sea, m.

    Valid for heights up to 2,000 m. Raises `OutOfRange` outside and for heights not above zero.

    Source: 2.25 x (square root of one height + that of the other), a course on the maritime distress and
    safety system, page read.

    The course gives 30.04 for antennas at 30 m and 62 m:

    >>> round(radio_horizon(30.0, 62.0), 2)
    30.04
    """
    require_positive(antenna_height=antenna_height, other_antenna_height=other_antenna_height)
    require_within("antenna_height", antenna_height, 0.0, 2000.0)
    require_within("other_antenna_height", other_antenna_height, 0.0, 2000.0)
    return float(2.25 * (antenna_height**0.5 + other_antenna_height**0.5))
