"""Pressure of an inflatable's tubes when the temperature changes."""

from __future__ import annotations

from plangen.formulas.declare import formula, require_positive, require_within

_ATMOSPHERE = 1013.25
_ZERO_CELSIUS = 273.15


@formula(pressure="millibar", temperature="degC", new_temperature="degC", returns="millibar")
def tube_pressure_at_temperature(pressure: float, temperature: float, new_temperature: float) -> float:
    """Return the pressure in millibars above the air's that a tight tube has at another temperature.

    Arguments:
        pressure: pressure in the tube above the air's, mbar.
        temperature: temperature of the tube at that pressure, degrees Celsius.
        new_temperature: temperature of the tube at the second reading, degrees Celsius.

    For a tube of fixed volume; real fabric gives way, so makers quote about 4 mbar for each degree, and the
    formula is the worst case. A leak test is judged against it. Valid for -20 to 70 degrees and pressures up
    to 1,000 mbar. Raises `OutOfRange` outside.

    Source: gas law; Zodiac, Futura Commando, p. 9, and Avon, Seasport Deluxe, p. 8, owner's manuals, 4 mbar for each
    degree, pages read.

    >>> round(240.0 - tube_pressure_at_temperature(240.0, 50.0, 20.0))
    116
    """
    require_positive(pressure=pressure)
    require_within("pressure", pressure, 0.0, 1000.0)
    require_within("temperature", temperature, -20.0, 70.0)
    require_within("new_temperature", new_temperature, -20.0, 70.0)
    ratio = (new_temperature + _ZERO_CELSIUS) / (temperature + _ZERO_CELSIUS)
    return float((pressure + _ATMOSPHERE) * ratio - _ATMOSPHERE)
