"""Speed and fuel under power against published boats: the error table, and the bands that the plan prints.

Data: speed_under_power.yaml beside this file, each boat with its publisher, title and address. Where a source leaves
out rated speed or waterline, those are taken as the catalogue assumes them (rulepacks/catalogue/defaults_propulsion.yaml),
as a plan for that boat would. The resistance of the Delft hulls is that of the Yacht Hydrodynamics data set, UCI
Machine Learning Repository, https://archive.ics.uci.edu/dataset/243/yacht+hydrodynamics.
"""

from __future__ import annotations

import math
from collections import defaultdict
from pathlib import Path
from statistics import median
from typing import Any

import pytest

from plangen.formulas.fuel_and_range import fuel_rate_under_way
from plangen.formulas.speed_under_power import (
    published_boats,
    published_boats_inside,
    speed_scatter,
    speed_under_power,
)
from plangen.spec.yaml_source import read_yaml_file

POUNDS, HORSEPOWER, FEET = 2.20462, 1.0 / 0.7457, 3.28084
#: Waterline over hull length, and rated speeds, of the catalogue's defaults.
WATERLINE = {
    "sailing-monohull": 0.92, "sailing-catamaran": 0.97, "motor-displacement": 0.92,
    "motor-semi-displacement": 0.88, "motor-planing": 0.84, "motor-catamaran": 0.95,
}  # fmt: skip
BOATS: list[dict[str, Any]] = read_yaml_file(Path(__file__).with_name("speed_under_power.yaml")).plain()
KINDS = sorted({boat["kind"] for boat in BOATS})


def rated_speed(boat: dict[str, Any]) -> float:
    """Return the rated engine speed, as the catalogue assumes it where the source leaves it out."""
    if "rated_rpm" in boat:
        return float(boat["rated_rpm"])
    if boat["fuel"] == "petrol":
        return 5500.0 if boat.get("drive") == "outboard" else 4800.0
    each = boat["power_kw"] / boat.get("engines", 1)
    fast = boat["kind"] in ("motor-planing", "motor-semi-displacement", "motor-catamaran")
    steps = [(30.0, 3600.0), (75.0, 3000.0), *([(300.0, 3500.0), (500.0, 3000.0)] if fast else [])]
    return next((speed for limit, speed in steps if each <= limit), 2300.0)


def waterline(boat: dict[str, Any]) -> float:
    """Return the waterline in metres; planing hulls need none, so any will do where no length is printed."""
    return float(boat.get("waterline_m") or WATERLINE[boat["kind"]] * boat.get("length_m", 12.0))


def tank_errors(hull: dict[str, Any]) -> list[float]:
    """Return the errors of a towing-tank hull, of the power that its resistance asks for.

    Measured residuary resistance, flat-plate friction with a quarter added and a propulsive efficiency of 0.5. Wetted
    surface of the canoe body: Gerritsma and others, Delft series; friction line: ITTC 1957.
    """
    form, length, mass = hull["hull_form"], hull["waterline_m"], hull["displacement_kg"]
    volume, draught = mass / 1025.0, length / form["length_beam"] / form["beam_draught"]
    midship = volume / (length * length / form["length_beam"] * draught * form["prismatic"])
    wetted = (1.97 + 0.171 * form["beam_draught"]) * (0.65 / midship) ** (1 / 3) * math.sqrt(volume * length)
    errors = []
    for point in hull["points"]:
        speed = point["froude"] * math.sqrt(9.81 * length)
        reynolds = speed * 0.7 * length / 1.19e-6
        friction = 0.5 * 1025.0 * speed**2 * wetted * 0.075 / (math.log10(reynolds) - 2.0) ** 2
        resistance = 1.25 * friction + point["residuary_resistance"] / 1000.0 * mass * 9.81
        power = resistance * speed / 0.5 / 1000.0 / 0.94
        found = speed_under_power("sailing-monohull", mass * POUNDS, power * HORSEPOWER, length * FEET)
        errors.append(found * 1852.0 / 3600.0 / speed - 1.0)
    return errors


def speed_errors(boat: dict[str, Any]) -> list[float]:
    """Return predicted over measured speed less one, for each point from 0.4 (hulls that may lift: 0.7) of rated speed up."""
    if "hull_form" in boat:
        return tank_errors(boat)
    if "displacement_kg" not in boat or "power_kw" not in boat:
        return []
    lowest = 0.4 if boat["kind"] in ("sailing-monohull", "sailing-catamaran", "motor-displacement") else 0.7
    errors = []
    for point in boat["points"]:
        if not point.get("full_throttle") and "rpm" not in point:
            continue
        share = 1.0 if point.get("full_throttle") else point["rpm"] / rated_speed(boat)
        if not lowest <= share <= 1.1:
            continue
        speed = speed_under_power(
            boat["kind"],
            boat["displacement_kg"] * POUNDS,
            boat["power_kw"] * HORSEPOWER,
            waterline(boat) * FEET,
            100.0 * share,
        )
        errors.append(speed / point["speed_kn"] - 1.0)
    return errors


def table() -> dict[str, list[float]]:
    """Return the median error of each boat by kind of hull."""
    errors: dict[str, list[float]] = defaultdict(list)
    for boat in BOATS:
        if found := speed_errors(boat):
            errors[boat["kind"]].append(median(found))
    return errors


@pytest.mark.parametrize("kind", KINDS)
def test_the_plan_counts_the_published_boats_as_they_are(kind: str) -> None:
    errors = table()[kind]
    inside = [error for error in errors if abs(error) <= speed_scatter(kind) / 100.0]
    assert (published_boats(kind), published_boats_inside(kind)) == (len(errors), len(inside))


@pytest.mark.parametrize("kind", [kind for kind in KINDS if len(table()[kind]) >= 5])
def test_median_is_near_and_four_of_five_points_lie_inside(kind: str) -> None:
    points = [error for boat in BOATS if boat["kind"] == kind for error in speed_errors(boat)]
    assert abs(median(table()[kind])) <= 0.05
    assert sum(abs(point) <= speed_scatter(kind) / 100.0 for point in points) >= 0.8 * len(points)


def test_over_all_kinds_the_formula_is_not_biased() -> None:
    assert abs(median(error for errors in table().values() for error in errors)) <= 0.05


def fuel_errors(boat: dict[str, Any]) -> list[float]:
    """Return predicted over measured fuel rate less one, for each point from 0.5 of rated speed up."""
    errors = []
    for point in boat["points"]:
        if "power_kw" not in boat or "fuel_l_h" not in point or "rpm" not in point or "rated_rpm" not in boat:
            continue
        share = point["rpm"] / boat["rated_rpm"]
        if 0.5 <= share <= 1.1:
            rate = fuel_rate_under_way(boat["kind"], boat["fuel"], boat["power_kw"], 100.0 * share)
            errors.append(rate / point["fuel_l_h"] - 1.0)
    return errors


FUEL = [boat for boat in BOATS if fuel_errors(boat)]


def test_fuel_of_published_boats() -> None:
    """Median within 5 %; four of five points within the plan's band: 20 % from 0.7 of rated speed up, 30 % below."""
    by_boat = [median(fuel_errors(boat)) for boat in FUEL]
    assert len(by_boat) >= 5
    assert abs(median(by_boat)) <= 0.05
    points = [error for boat in FUEL for error in fuel_errors(boat)]
    assert sum(abs(point) <= 0.20 for point in points) >= 0.8 * len(points)
