"""Every household, climate, gas and uncertainty formula refuses a value that is no number, and unknown words."""

import math

import pytest

from plangen.formulas import FORMULAS, OutOfRange
from plangen.formulas.declare import TEXT

SAMPLES: dict[str, tuple[float | str, ...]] = {
    "accumulator_drawdown": (8.0, 1.2, 1.4, 2.8),
    "accumulator_precharge": (1.7,),
    "bilge_pump_minimum": (12.0,),
    "cold_box_heat_leak": (130.0, 50.0, 4.0, 25.0),
    "cooling_capacity_needed": (30.0, 1.0, 2.0, 14.0),
    "cooling_water_flow_needed": (3.5,),
    "cooling_water_rise": (3.5, 12.0, 1.3),
    "dew_point": (25.0, 50.0),
    "element_power_at_voltage": (750.0, 230.0, 220.0),
    "expanded_uncertainty": (0.1, 2.0),
    "flooding_time": (500.0, 55.0, 30.0),
    "flushes_to_fill": (120.0, 3.0, 0.2, 0.9),
    "fuel_tank_test_pressure": (1.0, 1000.0),
    "fuel_tank_test_time": (300.0,),
    "gas_mass_to_explode": (2.0, "propane"),
    "gas_pipework_test_pressure": (37.0,),
    "gas_pressure_drift": (37.0, 15.0, 1.0),
    "gas_ventilation_area": (5.0, 6.0, 2.0),
    "hole_inflow": (25.0, 0.5, 0.6),
    "holding_tank_days": (120.0, 4.0, 12.0),
    "ice_melt_heat_leak": (5.0, 24.0),
    "insulation_heat_leak": (2.0, 50.0, 5.0, 30.0, 0.025),
    "membrane_temperature_factor": (15.0, "thin-film"),
    "mixed_water": (40.0, 60.0, 20.0, 40.0, 0.8),
    "net_driving_pressure": (55.0, 25.0, 35.0, 0.1, 0.0),
    "osmotic_pressure": (35.0, 25.0),
    "practical_salinity": (50.0, 20.0, 0.0),
    "pump_flow_at_head": (60.0, 5.0, 2.0, 1.0),
    "pump_out_time": (80.0, 16.0),
    "refrigeration_daily_energy": (30.0, 1.5),
    "regulator_lock_up_limit": ("30 mbar",),
    "salt_rejection": (35800.0, 215.0),
    "saturation_pressure": ("propane", 5.0),
    "sea_water_conductivity": (35.0, 20.0),
    "sea_water_density": (35.0, 20.0),
    "sea_water_dissolved_solids": (35.0, 20.0),
    "sea_water_salinity": (50.0, 20.0),
    "stroke_volume_needed": (15.0, 45.0),
    "tank_fill_time": (600.0, 40.0),
    "tank_gauge_error": (34.0, 30.0, 120.0),
    "tank_gauge_volume": (100.0, 0.5, "box"),
    "uncertainty_ratio": (-0.1, 0.1, 0.02),
    "vent_air_pressure": (100.0, 19.0, 3.0),
    "vent_overflow_pressure": (60.0, 19.0, 1.5, 1.0),
    "water_expansion": (40.0, 15.0, 60.0),
    "water_heating_energy": (40.0, 15.0, 60.0),
    "water_heating_time": (40.0, 15.0, 60.0, 750.0, 1.0),
    "watermaker_flow": (60.0, 15.0, 35.0, 55.0, 0.1, "thin-film"),
    "watermaker_pressure": (15.0, 35.0, 1.0, 55.0, 0.1, "thin-film"),
    "watermaker_product_solids": (35800.0, 99.4),
}

ARGUMENTS = [(name, position) for name, values in SAMPLES.items() for position in range(len(values))]


@pytest.mark.parametrize("name", SAMPLES)
def test_sample_gives_one_finite_number(name: str) -> None:
    entry = FORMULAS[name]
    assert len(SAMPLES[name]) == len(entry.units)
    result = entry.function(*SAMPLES[name])
    assert isinstance(result, float)
    assert math.isfinite(result)


@pytest.mark.parametrize(("name", "position"), ARGUMENTS)
def test_no_number_and_unknown_word_are_refused(name: str, position: int) -> None:
    entry = FORMULAS[name]
    unit = list(entry.units.values())[position]
    nonsense = "no such word" if unit == TEXT else math.nan
    values = [*SAMPLES[name][:position], nonsense, *SAMPLES[name][position + 1 :]]
    with pytest.raises(OutOfRange):
        entry.function(*values)
