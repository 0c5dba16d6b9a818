"""The figures that can be worked out of several readings: what each one needs, and the unit it comes in."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from plangen.formulas.declare import NUMBER, TEXT


@dataclass(frozen=True)
class Role:
    """What one reading is to a figure: the label of its unit, and whether several readings are added up."""

    unit: str
    optional: bool = False
    summed: bool = False


@dataclass(frozen=True)
class Figure:
    """One figure: its usual title, its unit, the readings and the values of the spec that it is worked out of.

    `points` is the label of the unit of the points where its readings are series; `one_of` names readings of
    which one is enough.
    """

    title: str
    unit: str
    readings: Mapping[str, Role]
    inputs: Mapping[str, str] = field(default_factory=dict)
    optional_inputs: tuple[str, ...] = ()
    points: str | None = None
    one_of: tuple[str, ...] = ()


def _coefficient(letter: str) -> Figure:
    return Figure(f"Compass coefficient {letter}", "°", {"deviation": Role("°")}, points="°")


#: By the name that a rule's `derive:` uses.
FIGURES: Mapping[str, Figure] = {
    "mean-of-runs": Figure(
        "Mean of reciprocal runs",
        "kn",
        {
            "outward": Role("kn"),
            "back": Role("kn"),
            "outward_again": Role("kn", optional=True),
            "back_again": Role("kn", optional=True),
        },
        points="rpm",
    ),
    "mean-of-means": Figure("Mean of means of the runs", "kn", {"runs": Role("kn")}, points=""),
    "apparent-slip": Figure(
        "Apparent slip",
        "%",
        {"speed": Role("kn")},
        {"pitch": "inch", "gear_ratio": NUMBER, "engine_speed": "revolutions_per_minute"},
        ("engine_speed",),
        points="rpm",
    ),
    "fuel-per-mile": Figure(
        "Fuel for each mile", "L/nmi", {"rate": Role("L/h", summed=True), "speed": Role("kn")}, points="rpm"
    ),
    "range-under-power": Figure(
        "Range under power",
        "nmi",
        {"rate": Role("L/h", summed=True), "speed": Role("kn")},
        {"usable_fuel": "litre", "reserve": "percent"},
        ("reserve",),
        points="rpm",
    ),
    "temperature-rise": Figure(
        "Temperature rise", "K", {"inlet": Role("°C"), "outlet": Role("°C")}, points="rpm"
    ),
    "salt-rejection": Figure(
        "Salt rejection",
        "%",
        {
            "feed": Role("mg/L", optional=True),
            "feed_conductivity": Role("mS/cm", optional=True),
            "product": Role("mg/L"),
        },
        one_of=("feed", "feed_conductivity"),
    ),
    "charge-balance": Figure(
        "Charge balance",
        "Ah",
        {"charge_in": Role("Ah", summed=True), "charge_out": Role("Ah", summed=True)},
        {"chemistry": TEXT},
    ),
    "tank-gauge-error": Figure(
        "Error of the tank gauge", "%", {"gauge": Role("L")}, {"capacity": "litre"}, points="L"
    ),
    "flush-count": Figure(
        "Flushes counted, more than the water of one flush makes",
        "%",
        {"counted": Role(""), "flush_volume": Role("L")},
        {"capacity": "litre", "lockout_share": NUMBER, "flushes_measured": NUMBER},
        ("lockout_share", "flushes_measured"),
    ),
    **{f"deviation-coefficient-{letter}": _coefficient(letter.upper()) for letter in "abcde"},
    "deviation-residual": Figure(
        "Deviation less that of the coefficients", "°", {"deviation": Role("°")}, points="°"
    ),
    "voltage-drop-percent": Figure(
        "Voltage lost", "%", {"lost": Role("V", summed=True)}, {"nominal_voltage": "volt"}
    ),
}
