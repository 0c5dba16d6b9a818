"""What a formula's own words say of its range is what it refuses: at either end it holds, a little beyond it doesn't."""

from __future__ import annotations

import inspect
import math
import re
from datetime import date

import pytest

from plangen.formulas import FORMULAS, OutOfRange
from plangen.formulas.clear_sky import sum_over_day
from plangen.formulas.moist_air import saturation_vapour_pressure
from plangen.formulas.pipe_flow import friction_factor
from plangen.formulas.uncertainty import conformity
from plangen.formulas.water_heating import water_density

MIDSUMMER = date(2027, 6, 21)
OTHERS = {
    "conformity": conformity, "friction_factor": friction_factor, "saturation_vapour_pressure": saturation_vapour_pressure,
    "sum_over_day": sum_over_day, "water_density": water_density,
}  # fmt: skip
#: Formula, the argument that is tried, its range, and what else is given.
RANGES: list[tuple[str, str, float, float, dict[str, object]]] = [
    ("cooling_capacity_needed", "load_per_cubic_foot", 8, 25, {"volume": 30}),
    ("cooling_water_rise", "rejection_ratio", 1.1, 1.6, {"capacity": 3.5, "flow": 12}),
    ("alternator_speed", "pulley_ratio", 1, 4, {"engine_speed": 2000}),
    ("delivered_capacity", "rated_hours", 1, 120, {"capacity": 100, "current": 5, "exponent": 1.2}),
    ("delivered_capacity", "exponent", 1, 1.5, {"capacity": 100, "current": 5}),
    ("capacity_at_temperature", "temperature", 0, 40, {"capacity": 100}),
    ("rest_voltage", "temperature", -18, 50, {"state_of_charge": 50, "chemistry": "flooded"}),
    ("rest_voltage", "state_of_charge", 0, 100, {"chemistry": "flooded"}),
    ("specific_gravity", "temperature", -18, 50, {"state_of_charge": 50}),
    ("specific_gravity", "state_of_charge", 0, 100, {}),
    ("charge_time", "state_of_charge", 0, 100, {"capacity": 100, "net_current": 20, "chemistry": "agm"}),
    ("compensated_voltage", "temperature", 0, 45, {"set_voltage": 14.4}),
    ("compensated_voltage", "millivolts_per_cell", 0, 6, {"set_voltage": 14.4, "temperature": 20}),
    ("absorption_voltage", "temperature", 0, 45, {"chemistry": "agm"}),
    ("float_voltage", "temperature", 0, 45, {"chemistry": "agm"}),
    ("noon_sun_height", "latitude", -90, 90, {"day": MIDSUMMER}),
    ("hazy_sky_irradiance", "turbidity", 1, 8, {"sun_height": 60, "day": MIDSUMMER}),
    ("sum_over_day", "latitude", -66, 66, {"power": lambda height: height, "day": MIDSUMMER}),
    ("deviation_on_heading", "heading", 0, 360, dict.fromkeys([f"coefficient_{letter}" for letter in "abcde"], 1.0)),
    ("deviation_on_heading", "coefficient_a", -25, 25, {"heading": 90, **dict.fromkeys([f"coefficient_{letter}" for letter in "bcde"], 1.0)}),
    ("allowable_current", "area", 0.82, 120, {}),
    ("standard_rating_above", "allowable_current", 1, 1000, {}),
    ("conductor_resistance", "temperature", 0, 105, {"area": 2.5, "length": 5}),
    ("hull_speed", "speed_length_ratio", 0.5, 3, {"length_waterline": 36}),
    ("engine_vent_area", "duct_allowance", 0, 100, {"power": 40}),
    ("engine_space_depression", "discharge_coefficient", 0.4, 1, {"airflow": 500, "free_area": 300}),
    ("hole_inflow", "discharge_coefficient", 0.5, 1, {"diameter": 25, "depth": 0.5}),
    ("wind_generator_power", "wind_speed", 3, 20, {"rotor_diameter": 1.17}),
    ("wind_generator_power", "power_share", 0.05, 16 / 27, {"rotor_diameter": 1.17, "wind_speed": 7.7}),
    ("fuel_rate", "specific_consumption", 180, 450, {"power": 40}),
    ("fuel_rate", "density", 700, 900, {"power": 40}),
    ("range_under_power", "reserve", 0, 50, {"usable_fuel": 400, "rate": 6, "speed": 7}),
    ("gas_pressure_drift", "gauge_pressure", 0, 2000, {"temperature": 15}),
    ("gas_pressure_drift", "temperature", -20, 50, {"gauge_pressure": 37}),
    ("gas_pressure_drift", "temperature_change", -20, 20, {"gauge_pressure": 37, "temperature": 15}),
    ("gas_pipework_test_pressure", "working_pressure", 20, 60, {}),
    ("chain_mass", "diameter", 6, 16, {"length": 30}),
    ("steel_mass_in_water", "water_density", 990, 1040, {"mass": 20}),
    ("windlass_pull", "factor", 1, 5, {"anchor_mass": 20, "rode_mass": 60}),
    ("rode_for_scope", "bow_height", 0, 5, {"depth": 8}),
    ("rode_for_scope", "scope", 2, 12, {"depth": 8, "bow_height": 1}),
    ("flushes_to_fill", "lockout_share", 0.5, 1, {"capacity": 120, "flush_volume": 3}),
    ("tube_pressure_at_temperature", "pressure", 0.001, 1000, {"temperature": 20, "new_temperature": 20}),
    ("tube_pressure_at_temperature", "temperature", -20, 70, {"pressure": 240, "new_temperature": 20}),
    ("tube_pressure_at_temperature", "new_temperature", -20, 70, {"pressure": 240, "temperature": 20}),
    ("insulation_resistance_minimum", "nominal_voltage", 0.001, 1000, {}),
    ("filament_light", "drop", 0, 15, {}),
    ("luminous_intensity", "range_of_visibility", 0.1, 10, {}),
    ("luminous_intensity", "transmissivity", 0.1, 1, {"range_of_visibility": 2}),
    ("saturation_vapour_pressure", "temperature", 0, 100, {}),
    ("dew_point", "temperature", 0, 60, {"relative_humidity": 100}),
    ("backbone_voltage_drop", "length", 0.001, 100, {"load_equivalence": 20}),
    ("backbone_voltage_drop", "resistance", 0.005, 0.1, {"length": 10, "load_equivalence": 20}),
    ("friction_factor", "relative_roughness", 0, 0.05, {"reynolds": 1e5}),
    ("vent_overflow_pressure", "rise", 0, 10, {"flow": 60, "bore": 19, "length": 1.5}),
    ("planing_speed", "hull_constant", 130, 235, {"shaft_power": 600, "displacement": 10_000}),
    ("inverter_input_current", "efficiency", 0.7, 1, {"power": 1500, "terminal_voltage": 12.5}),
    ("charger_input_current", "efficiency", 0.6, 1, {"output_current": 60, "output_voltage": 14.4, "supply_voltage": 230}),
    ("shaft_speed", "gear_ratio", 0.5, 10, {"engine_speed": 2600}),
    ("propeller_law_power", "exponent", 2, 3.2, {"rated_power": 40, "engine_speed": 2400, "rated_speed": 3000}),
    ("propeller_law_power", "engine_speed", 20, 110, {"rated_power": 40, "rated_speed": 100}),
    ("standing_wave_ratio_at_antenna", "cable_loss", 0, 10, {"standing_wave_ratio": 1.05}),
    ("standing_wave_ratio_at_set", "cable_loss", 0, 10, {"standing_wave_ratio": 1.05}),
    ("thick_cable_loss", "length", 0.001, 200, {}),
    ("radio_horizon", "antenna_height", 0.001, 2000, {"other_antenna_height": 4}),
    ("radio_horizon", "other_antenna_height", 0.001, 2000, {"antenna_height": 4}),
    ("insulation_heat_leak", "conductivity", 0.002, 0.1, {"area": 2, "thickness": 50, "inside_temperature": 5, "outside_temperature": 30}),
    ("refrigeration_daily_energy", "performance", 0.5, 4, {"heat_leak": 30}),
    ("ground_fault_interrupter_time", "current", 6, 264, {}),
    ("wire_stretch", "tension", 0, 30, {}),
    ("velocity_made_good", "true_wind_angle", 0, 180, {"boat_speed": 6}),
    ("practical_salinity", "temperature", -2, 35, {"conductivity": 30}),
    ("practical_salinity", "pressure", 0, 10_000, {"conductivity": 50, "temperature": 20}),
    ("sea_water_conductivity", "salinity", 0.1, 42, {"temperature": 20}),
    ("sea_water_conductivity", "temperature", -2, 35, {"salinity": 35}),
    ("sea_water_density", "salinity", 0, 42, {"temperature": 20}),
    ("sea_water_density", "temperature", -2, 40, {"salinity": 35}),
    ("osmotic_pressure", "salinity", 1, 60, {"temperature": 25}),
    ("osmotic_pressure", "temperature", 0, 35, {"salinity": 35}),
    ("coupling_gap_limit", "coupling_diameter", 40, 400, {}),
    ("shore_power", "share", 1, 100, {"rated_current": 16, "voltage": 230}),
    ("cell_temperature", "irradiance", 0, 1300, {"air_temperature": 20}),
    ("cell_temperature", "air_temperature", -20, 50, {"irradiance": 800}),
    ("string_open_circuit_voltage", "cell_temperature", -40, 90, {"open_circuit_voltage": 24, "panels_in_series": 2}),
    ("string_open_circuit_voltage", "coefficient", -0.005, -0.002, {"open_circuit_voltage": 24, "panels_in_series": 2, "cell_temperature": 0}),
    ("speed_under_power", "engine_speed_share", 20, 110, {"hull": "sailing-monohull", "displacement": 8000, "engine_power": 30, "length_waterline": 33}),
    ("load_test_voltage", "temperature", -12, 50, {}),
    ("starting_circuit_drop_limit", "cranking_current", 20, 3000, {}),
    ("tank_gauge_volume", "height_share", 0, 1, {"capacity": 100}),
    ("fuel_tank_test_pressure", "head", 0, 10, {}),
    ("full_load_rise", "exponent", 1.6, 2, {"rise": 8, "current": 40, "full_current": 50}),
    ("expanded_uncertainty", "coverage_factor", 1, 4, {"error_limit": 0.1}),
    ("conformity", "factor", 0, 3, {"reading": 5, "uncertainty": 0.1, "low": 0, "high": 10}),
    ("saturation_pressure", "temperature", -40, 65, {"substance": "propane"}),
    ("voltage_drop", "temperature", 0, 105, {"current": 20, "path_length": 6.4, "area": 2.5}),
    ("water_density", "temperature", 0, 100, {}),
    ("water_heating_energy", "start_temperature", 0, 60, {"volume": 40, "end_temperature": 60.1}),
    ("water_heating_energy", "end_temperature", 15, 100, {"volume": 40, "start_temperature": 14.9}),
    ("water_heating_time", "efficiency", 0.1, 1, {"volume": 40, "start_temperature": 15, "end_temperature": 60, "power": 750}),
    ("mixed_water", "usable_share", 0.5, 1, {"volume": 40, "hot_temperature": 60, "cold_temperature": 20}),
    ("membrane_temperature_factor", "water_temperature", 5, 35, {}),
    ("membrane_temperature_factor", "water_temperature", 5, 30, {"table": "older"}),
    ("net_driving_pressure", "recovery", 0, 0.3, {"feed_pressure": 55}),
    ("net_driving_pressure", "salinity", 1, 42, {"feed_pressure": 70}),
    ("watermaker_pressure", "flow_share", 0.1, 1.2, {"water_temperature": 25, "salinity": 35}),
    ("watermaker_product_solids", "rejection", 90, 100, {"feed": 35_000}),
]  # fmt: skip


def numbers_in(words: str) -> set[float]:
    found = {
        float(number.replace(",", ""))
        for number in re.findall(r"(?<![\w.])-?[0-9][0-9,]*(?:\.[0-9]+)?", words)
    }
    return found | {-number for number in found}


@pytest.mark.parametrize(
    ("name", "argument", "low", "high", "others"),
    RANGES,
    ids=[f"{row[0]} {row[1]} {row[3]}" for row in RANGES],
)
def test_it_holds_to_either_end_of_its_range_and_no_further(
    name: str, argument: str, low: float, high: float, others: dict[str, object]
) -> None:
    function = OTHERS[name] if name in OTHERS else FORMULAS[name].function
    said = numbers_in(inspect.getdoc(function) or "")
    # nothing at all, and what has to be more than nothing, needs no words; 16/27 is written 0.593
    assert {round(end, 3) for end in (low, high)} - {0, 0.001} <= said
    for end in (low, high):
        result = function(**others, **{argument: end})
        assert math.isnan(result) is False if isinstance(result, float) else result is not None
    beyond = (high - low) * 0.004
    for outside in (low - beyond, high + beyond):
        with pytest.raises(OutOfRange):
            function(**others, **{argument: outside})
