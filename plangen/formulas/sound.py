"""Sound levels: the whistle, and the noise of a boat passing by.

Levels are plain numbers in decibels, since a level can't be scaled as other units are.
"""

from __future__ import annotations

from plangen.formulas.declare import NUMBER, OutOfRange, formula, require_positive, require_within

#: Least length in metres, audible range in miles, and level in decibels by frequency band in hertz.
_WHISTLES = (
    (200.0, 2.0, ((130.0, 180.0, 145.0), (180.0, 250.0, 143.0), (250.0, 1200.0, 140.0))),
    (75.0, 1.5, ((130.0, 180.0, 140.0), (180.0, 250.0, 138.0), (250.0, 1200.0, 134.0))),
    (20.0, 1.0, ((250.0, 450.0, 130.0), (450.0, 800.0, 125.0), (800.0, 1600.0, 121.0))),
    (12.0, 0.5, ((250.0, 450.0, 120.0), (450.0, 800.0, 115.0), (800.0, 2100.0, 111.0))),
)


def _whistle(length: float) -> tuple[float, tuple[tuple[float, float, float], ...]]:
    """Return the audible range and the levels of the whistle that a vessel of this length must have."""
    for least, audible, bands in _WHISTLES:
        if length >= least:
            return audible, bands
    raise OutOfRange(f"length is {length:g} m; below 12 m no whistle of a stated level is asked for")


@formula(length="metre", returns="nautical_mile")
def whistle_audible_range(length: float) -> float:
    """Return the range in nautical miles at which a vessel's whistle may usually be heard.

    Arguments:
        length: length of the vessel, m.

    Valid from 12 m; below any efficient sound signal serves. Raises `OutOfRange` below.

    Source: 33 CFR 86.05 table 86.05 (text read); the ranges of COLREG Annex III section 1 (c) are the same,
    from memory.

    >>> whistle_audible_range(14.1)
    0.5
    """
    return _whistle(length)[0]


@formula(length="metre", frequency="hertz", returns=NUMBER)
def whistle_sound_level(length: float, frequency: float) -> float:
    """Return the least level in decibels at 1 m of a vessel's whistle at a frequency.

    Arguments:
        length: length of the vessel, m.
        frequency: middle of the third-octave band that was measured, Hz.

    Valid from 12 m and within the rule's frequencies. Raises `OutOfRange` outside. Caution: wear hearing
    protection.

    Source: 33 CFR 86.05 table 86.05 (text read). COLREG Annex III section 1 (c) has one band for each length
    from 20 m on (143, 138 and 130 dB), and below it the same 120, 115 and 111 dB, from memory.

    >>> whistle_sound_level(14.1, 400.0)
    120.0
    """
    for low, high, level in _whistle(length)[1]:
        if low <= frequency <= high:
            return level
    raise OutOfRange(f"frequency is {frequency:g} Hz; the rule gives no level for it at this length")


def _energy(level: float) -> float:
    """Return the energy of a level relative to that of 0 dB."""
    require_within("level", level, 0.0, 200.0)
    return float(10.0 ** (level / 10.0))


@formula(engine_power="kilowatt", engines=NUMBER, returns=NUMBER)
def noise_pass_by_limit(engine_power: float, engines: float = 1.0) -> float:
    """Return the greatest level in decibels of a recreational craft passing by at 25 m.

    Arguments:
        engine_power: rated power of one engine, kW.
        engines: number of propulsion engines.

    67 dB to 10 kW, 72 dB to 40 kW, 75 dB above, and 3 dB more for two or more engines. Raises `OutOfRange`
    for powers not above zero and for fewer than one engine.

    Source: Directive 2013/53/EU Annex I Part C 1.1, from texts that repeat its table (secondary).

    >>> noise_pass_by_limit(42.0, 2.0)
    78.0
    """
    require_positive(engine_power=engine_power)
    require_within("engines", engines, 1.0, 8.0)
    limit = 67.0 if engine_power <= 10.0 else 72.0 if engine_power <= 40.0 else 75.0
    return limit + (3.0 if engines >= 2.0 else 0.0)
