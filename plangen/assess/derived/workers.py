"""Every figure that a rule may name, with how it is worked out."""

from __future__ import annotations

from collections.abc import Mapping

from plangen.assess.derived.data import SINGLE, Curve, Data, Point, Work, Worker, pointwise
from plangen.formulas import OutOfRange
from plangen.formulas.charge_time import charge_balance
from plangen.formulas.compass import (
    DeviationCoefficients,
    deviation_coefficients,
    deviation_on_heading,
    fitted_deviation_coefficients,
)
from plangen.formulas.fuel_and_range import fuel_per_mile, range_under_power
from plangen.formulas.holding_tank import flushes_to_fill
from plangen.formulas.propeller import apparent_slip, theoretical_propeller_speed
from plangen.formulas.reciprocal_runs import mean_of_means
from plangen.formulas.sea_water import sea_water_dissolved_solids, sea_water_salinity
from plangen.formulas.tanks import tank_gauge_error
from plangen.formulas.voltage_drop import voltage_loss_percent
from plangen.formulas.watermaker import salt_rejection

_TURNS = ("outward", "back", "outward_again", "back_again")


def _mean(here: Mapping[str, float], data: Data, point: Point) -> float:
    return mean_of_means([here[turn] for turn in _TURNS if turn in here])


def _mean_of_means(data: Data) -> Curve:
    runs = data.series("runs")
    return {SINGLE: mean_of_means([runs[number] for number in sorted(runs)])}


MEAN_OF_RUNS = Worker(
    "mean of the speeds on opposite courses, weighted 1, 1 for two runs and 1, 3, 3, 1 for four",
    pointwise(_mean),
)
MEAN_OF_MEANS = Worker("mean of means of the runs in turn, four of them weighted 1, 3, 3, 1", _mean_of_means)


def _slip(here: Mapping[str, float], data: Data, point: Point) -> float:
    if point is SINGLE and "engine_speed" not in data.inputs:
        raise OutOfRange("the engine speed of the run isn't known")
    engine_speed = data.number("engine_speed") if point is SINGLE else point
    theoretical = theoretical_propeller_speed(data.number("pitch"), engine_speed, data.number("gear_ratio"))
    return apparent_slip(here["speed"], theoretical)


APPARENT_SLIP = Worker(
    "one less the speed over that without slip, which is pitch times shaft speed", pointwise(_slip)
)


def _per_mile(here: Mapping[str, float], data: Data, point: Point) -> float:
    return fuel_per_mile(here["rate"], here["speed"])


def _range(here: Mapping[str, float], data: Data, point: Point) -> float:
    reserve = {"reserve": data.number("reserve")} if "reserve" in data.inputs else {}
    return range_under_power(data.number("usable_fuel"), here["rate"], here["speed"], **reserve)


FUEL_PER_MILE = Worker("fuel rate of all engines over the speed", pointwise(_per_mile))
RANGE_UNDER_POWER = Worker(
    "usable fuel less the reserve (a tenth where none is named) over the fuel rate, times the speed",
    pointwise(_range),
)


def _rise(here: Mapping[str, float], data: Data, point: Point) -> float:
    return here["outlet"] - here["inlet"]


TEMPERATURE_RISE = Worker("temperature at the outlet less that at the inlet", pointwise(_rise))


#: Conductivities are read brought to this temperature.
_REFERENCE_TEMPERATURE = 25.0


def _rejection(here: Mapping[str, float], data: Data, point: Point) -> float:
    return salt_rejection(here["feed"] if "feed" in here else _solids(here), here["product"])


def _solids(here: Mapping[str, float]) -> float:
    salinity = sea_water_salinity(here["feed_conductivity"], _REFERENCE_TEMPERATURE)
    return sea_water_dissolved_solids(salinity, _REFERENCE_TEMPERATURE)


SALT_REJECTION = Worker(
    "one less the product's dissolved solids over the feed's; a feed given as conductivity is turned into "
    "salinity by PSS-78",
    pointwise(_rejection),
)


def _balance(here: Mapping[str, float], data: Data, point: Point) -> float:
    return charge_balance(here["charge_in"], here["charge_out"], str(data.inputs["chemistry"]))


CHARGE_BALANCE = Worker(
    "charge put in, times the charge efficiency of the chemistry, less the charge taken out",
    pointwise(_balance),
)


def _error(here: Mapping[str, float], data: Data, point: Point) -> float:
    if point is None:
        raise OutOfRange("the volume at which the gauge was read isn't known")
    return tank_gauge_error(here["gauge"], point, data.number("capacity"))


TANK_GAUGE_ERROR = Worker("reading less metered volume, of the tank's capacity", pointwise(_error))


def _excess(here: Mapping[str, float], data: Data, point: Point) -> float:
    share = {"lockout_share": data.number("lockout_share")} if "lockout_share" in data.inputs else {}
    measured = data.number("flushes_measured") if "flushes_measured" in data.inputs else 1.0
    worked_out = flushes_to_fill(data.number("capacity"), here["flush_volume"] / measured, **share)
    return 100.0 * (here["counted"] - worked_out) / worked_out


FLUSH_COUNT = Worker(
    "flushes counted, against those that the tank takes at the measured water of one flush",
    pointwise(_excess),
)


_PRINCIPAL = {0.0, 45.0, 90.0, 135.0, 180.0, 225.0, 270.0, 315.0}


def _coefficients(data: Data) -> DeviationCoefficients:
    swing = data.series("deviation")
    return deviation_coefficients(swing) if set(swing) == _PRINCIPAL else fitted_deviation_coefficients(swing)


def _one(letter: str) -> Work:
    def work(data: Data) -> Curve:
        return {SINGLE: float(getattr(_coefficients(data), letter))}

    return work


def _residual(data: Data) -> Curve:
    coefficients = _coefficients(data)
    return {
        heading: deviation - deviation_on_heading(heading, *coefficients)
        for heading, deviation in data.series("deviation").items()
    }


_HOW = {
    "a": "mean of the deviations on all headings",
    "b": "half of the deviation on east less that on west",
    "c": "half of the deviation on north less that on south",
    "d": "a quarter of north-east less south-east plus south-west less north-west",
    "e": "a quarter of north less east plus south less west",
}

COEFFICIENTS = {f"deviation-coefficient-{letter}": Worker(how, _one(letter)) for letter, how in _HOW.items()}
DEVIATION_RESIDUAL = Worker(
    "deviation read, less that which coefficients A to E give; a large rest is a heading read wrong",
    _residual,
)


def _percent(here: Mapping[str, float], data: Data, point: Point) -> float:
    return voltage_loss_percent(here["lost"], data.number("nominal_voltage"))


VOLTAGE_DROP_PERCENT = Worker(
    "voltage lost on both sides together, of the nominal voltage", pointwise(_percent)
)


WORKERS: Mapping[str, Worker] = {
    "mean-of-runs": MEAN_OF_RUNS,
    "mean-of-means": MEAN_OF_MEANS,
    "apparent-slip": APPARENT_SLIP,
    "fuel-per-mile": FUEL_PER_MILE,
    "range-under-power": RANGE_UNDER_POWER,
    "temperature-rise": TEMPERATURE_RISE,
    "salt-rejection": SALT_REJECTION,
    "charge-balance": CHARGE_BALANCE,
    "tank-gauge-error": TANK_GAUGE_ERROR,
    "flush-count": FLUSH_COUNT,
    **COEFFICIENTS,
    "deviation-residual": DEVIATION_RESIDUAL,
    "voltage-drop-percent": VOLTAGE_DROP_PERCENT,
}
