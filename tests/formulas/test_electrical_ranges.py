"""Every electrical formula refuses what isn't a number, negative amounts and unknown words."""

import math
from collections.abc import Iterator
from datetime import date
from typing import get_args

import pytest

from plangen.formulas import FORMULAS, Formula, OutOfRange
from plangen.formulas.declare import DATE, TEXT
from plangen.spec.model.electrical import Bank

MODULES = [
    "alternator",
    "battery_capacity",
    "battery_rest_voltage",
    "charge_time",
    "charge_voltage",
    "clear_sky",
    "conductors",
    "corrosion_protection",
    "flow_generator",
    "generator_set",
    "insulation",
    "lamp_supply",
    "network_backbone",
    "power_conversion",
    "residual_current",
    "shore_supply",
    "solar_array",
    "starting_circuit",
    "thermography",
    "voltage_drop",
]

#: A good value for each argument, by its name.
GOOD: dict[str, object] = {
    "air_temperature": 20.0, "allowable_current": 60.0, "allowed_drop": 1.2, "alloy": "zinc", "area": 2.5,
    "boat_speed": 3.0, "breaker_type": "B", "capacity": 100.0, "cell_temperature": -5.0, "charge_in": 50.0,
    "charge_out": 40.0, "charging_time": 2.0, "chemistry": "agm", "circuit": "critical", "coefficient": -0.003,
    "cold_cranking_current": 800.0, "compared_with": "similar", "conductors": 4.0, "cranking_current": 300.0,
    "current": 20.0, "daily_use": 100.0, "day": date(2026, 6, 21), "device": "general", "drop": 3.0,
    "droop": 3.0, "efficiency": 0.9, "engine_speed": 2000.0, "exponent": 1.2, "first_current": 5.0,
    "first_time": 20.0, "full_current": 25.0, "full_load": 60.0, "gauge": "12", "hull": "steel",
    "insulation_temperature": 105.0, "irradiance": 800.0, "latitude": 39.5, "length": 5.0,
    "load_current": 10.0, "load_equivalence": 20.0, "lost": 0.3, "mass": 1.0, "measured": 85.0, "metal": "bronze",
    "millivolts_per_cell": 5.0, "mounting": "glued", "multiple": 1.0, "net_current": 20.0, "no_load": 62.0,
    "nominal_frequency": 50.0, "nominal_voltage": 12.0, "open_circuit_voltage": 24.0, "output_current": 60.0,
    "output_voltage": 14.4, "panel_power": 400.0, "panels_in_series": 2.0, "path_length": 6.4,
    "performance_class": "G2", "poles": 4.0, "power": 1500.0, "power_share": 0.25, "propeller_diameter": 0.24,
    "pulley_ratio": 1.78, "rated": 60.0, "rated_current": 50.0, "rated_frequency": 60.0, "rated_hours": 20.0,
    "rated_residual_current": 30.0, "rated_voltage": 230.0, "rating": 16.0, "resistance": 0.057, "rise": 8.0,
    "rotor_diameter": 1.17, "second_current": 50.0, "second_time": 1.27, "set_voltage": 14.4, "share": 80.0,
    "space": "elsewhere", "stage": "float", "speed": 1500.0, "state_of_charge": 50.0, "sun_height": 60.0,
    "supply_voltage": 230.0, "temperature": 20.0, "terminal_voltage": 12.5, "terminators": 2.0,
    "test_time": 20.0, "time": 276.0, "turbidity": 3.0, "voltage": 12.3, "wave": "AC", "wind_speed": 7.7,
    "working_diodes": 2.0,
}  # fmt: skip
#: Where one value doesn't suit every formula.
EXCEPTIONS: dict[str, dict[str, object]] = {
    "full_load_rise": {"exponent": 1.6},
    "supply_voltage_minimum": {"nominal_voltage": 230.0},
    "supply_voltage_maximum": {"nominal_voltage": 230.0},
}


def electrical() -> list[Formula]:
    """Return the formulas that the electrical modules declare."""
    return [f for f in FORMULAS.values() if f.function.__module__.rsplit(".", 1)[-1] in MODULES]


def good_inputs(formula: Formula) -> dict[str, object]:
    """Return inputs that the formula accepts."""
    return {name: GOOD[name] for name in formula.units} | EXCEPTIONS.get(formula.name, {})


def bad_inputs() -> Iterator[tuple[str, str, object]]:
    """Return formula, argument and a value that the formula must refuse."""
    for formula in electrical():
        for name, unit in formula.units.items():
            if unit == TEXT:
                yield formula.name, name, "nonsense"
            elif unit != DATE:
                yield formula.name, name, math.nan
                yield formula.name, name, -1e9


@pytest.mark.parametrize("name", [f.name for f in electrical()])
def test_good_inputs_give_a_finite_number(name: str) -> None:
    result = FORMULAS[name].function(**good_inputs(FORMULAS[name]))
    assert isinstance(result, float)
    assert math.isfinite(result)


@pytest.mark.parametrize(("name", "argument", "value"), list(bad_inputs()))
def test_bad_input_is_refused_in_words(name: str, argument: str, value: object) -> None:
    with pytest.raises(OutOfRange) as caught:
        FORMULAS[name].function(**(good_inputs(FORMULAS[name]) | {argument: value}))
    assert len(str(caught.value)) > 10


def test_charge_slower_than_the_tail_current_is_refused() -> None:
    with pytest.raises(OutOfRange, match="lead bank"):
        FORMULAS["charge_time"].function(400.0, 50.0, 5.0, "flooded")


@pytest.mark.parametrize("name", ["charged_rest_voltage", "absorption_voltage", "float_voltage"])
def test_every_chemistry_of_the_spec_is_known(name: str) -> None:
    # The words are those of the spec's own model; thin-plate pure lead is a kind of absorbed glass mat.
    words = get_args(get_args(Bank.model_fields["chemistry"].annotation)[0])
    volts = {word: FORMULAS[name].function(word) for word in words}
    assert len(volts) == 5
    assert volts["tppl"] == volts["agm"]
