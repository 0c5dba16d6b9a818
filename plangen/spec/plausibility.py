"""Faults of sense: values that are each well written and can't be true together, or can't be true of any boat."""

from __future__ import annotations

import datetime
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import Any

from plangen.spec.explain import Path, key_text
from plangen.spec.hull_identification import hull_id_fault, year_fault
from plangen.spec.model import Spec
from plangen.spec.problems import Problem
from plangen.spec.quantity import STATED, Quantity, QuantityError, parse_quantity, quantity_text
from plangen.spec.references import written
from plangen.spec.yaml_source import Node

Fault = tuple[Path, str, str]


def check_sense(spec: Spec, node: Node, stood_in: frozenset[Path] = frozenset()) -> list[Problem]:
    """Return a problem for each value that makes no sense for a boat, or beside another value.

    Nothing is said of a value that only stands in for one that is faulty.
    """
    faults = [*_implausible(node)]
    for rule in _RULES:
        faults.extend(rule(spec))
    faults.extend(_tanks_hold(spec, stood_in))
    return [Problem(node.mark_at(path), key_text(path), found, accepted) for path, found, accepted in faults]


def _stated(value: Quantity) -> str:
    return quantity_text(value, digits=STATED)


def _implausible(node: Node) -> Iterator[Fault]:
    for path, shape, child in written(node):
        for value in child.items if shape.is_list and child.items is not None else [child]:
            if shape.within is None or not isinstance(value.value, str):
                continue
            with suppress(QuantityError):
                quantity = parse_quantity(value.value, shape.kind)
                if not _between(quantity, *shape.within):
                    yield path, _stated(quantity), f"{shape.within[0]} to {shape.within[1]}"


def _between(value: Quantity, low: str, high: str) -> bool:
    return bool(parse_quantity(low) <= value <= parse_quantity(high))


def _longer(spec: Spec) -> Iterator[Fault]:
    vessel = spec.vessel
    pairs: tuple[tuple[str, Quantity | None, str, Quantity | None], ...] = (
        ("length_waterline", vessel.length_waterline, "length_hull", vessel.length_hull),
        ("length_hull", vessel.length_hull, "length_overall", vessel.length_overall),
        ("beam", vessel.beam, "length_hull", vessel.length_hull),
    )
    for small, small_value, large, large_value in pairs:
        if small_value is not None and large_value is not None and small_value > large_value:
            found = f"{_stated(small_value)}, more than {large} ({_stated(large_value)})"
            yield ("vessel", small), found, f"not more than {large}"
    light, loaded = vessel.displacement.light, vessel.displacement.loaded
    if light is not None and loaded is not None and loaded < light:
        found = f"{_stated(loaded)}, less than light ({_stated(light)})"
        yield ("vessel", "displacement", "loaded"), found, "not less than light"
    if vessel.children is not None and vessel.persons is not None and vessel.children > vessel.persons:
        yield (
            ("vessel", "children"),
            f"{vessel.children}, more than persons ({vessel.persons})",
            "not more than persons",
        )


def _identified(spec: Spec) -> Iterator[Fault]:
    hull_id, built = spec.vessel.hull_id, _year(spec.vessel.built)
    if hull_id is None:
        return
    if fault := hull_id_fault(hull_id):
        found = f"{hull_id!r}: {fault}"
        yield ("vessel", "hull_id"), found, "the structure of ISO 10087, as FR-ABC12345A627"
    elif built is not None and (fault := year_fault(hull_id, built)):
        found = f"{hull_id!r}: {fault}, but she was built in {built}"
        yield ("vessel", "hull_id"), found, "years that agree with `vessel.built`"


def _tanks_hold(spec: Spec, stood_in: frozenset[Path]) -> Iterator[Fault]:
    holds = {
        tank.name: tank.holds
        for index, tank in enumerate(spec.tanks)
        if ("tanks", index, "holds") not in stood_in
    }

    def wrong(path: Path, tank: str | None, *wanted: str) -> Iterator[Fault]:
        if tank is not None and tank in holds and holds[tank] not in wanted:
            yield path, f"{tank!r}, which holds {holds[tank]}", f"a tank that holds {' or '.join(wanted)}"

    for index, head in enumerate(spec.heads):
        yield from wrong(("heads", index, "tank"), head.tank, "black")
    for index, engine in enumerate(spec.engines):
        yield from wrong(
            ("engines", index, "tank"), engine.tank, "petrol" if engine.fuel == "petrol" else "fuel"
        )
    for index, maker in enumerate(spec.watermakers):
        yield from wrong(("watermakers", index, "tank"), maker.tank, "fresh")
    for index, pump in enumerate(spec.fresh_water.pumps if spec.fresh_water else ()):
        yield from wrong(("fresh_water", "pumps", index, "tank"), pump.tank, "fresh")
    for index, generator in enumerate(spec.ac.generators if spec.ac else ()):
        fuel = "petrol" if generator.fuel == "petrol" else "fuel"
        yield from wrong(("ac", "generators", index, "tank"), generator.tank, fuel)
    for index, tank in enumerate(spec.tanks):
        if tank.usable is not None and tank.capacity is not None and tank.usable > tank.capacity:
            found = f"{_stated(tank.usable)}, more than the capacity ({_stated(tank.capacity)})"
            yield ("tanks", index, "usable"), found, "not more than capacity"


def _engines_turn(spec: Spec) -> Iterator[Fault]:
    for index, engine in enumerate(spec.engines):
        if (
            engine.idle_speed is not None
            and engine.rated_speed is not None
            and engine.idle_speed >= engine.rated_speed
        ):
            found = f"{_stated(engine.idle_speed)}, not below rated_speed ({_stated(engine.rated_speed)})"
            yield ("engines", index, "idle_speed"), found, "below rated_speed"


def _propeller_can(spec: Spec) -> Iterator[Fault]:
    """A speed that the propeller can't reach without slip means a wrong pitch, ratio, engine speed or promise."""
    promised = spec.contract.speed_at_rated
    for index, engine in enumerate(spec.engines):
        pitch = engine.propeller.pitch if engine.propeller else None
        speed = engine.speed_at_rated or promised
        if pitch is None or speed is None or engine.rated_speed is None or engine.gear_ratio is None:
            continue
        turns = float(engine.rated_speed.to("rpm").magnitude) / engine.gear_ratio
        reached = parse_quantity(f"{turns * float(pitch.to('metre').magnitude) * 60 / 1852:.1f} kn")
        if reached <= speed:
            found = f"{_stated(pitch)}, which gives {_stated(reached)} without slip, not over the {_stated(speed)} stated"
            accepted = "a pitch, gear ratio, rated speed and boat speed that leave some slip"
            yield ("engines", index, "propeller", "pitch"), found, accepted


def _rig_suits(spec: Spec) -> Iterator[Fault]:
    if spec.rig is not None and spec.vessel.hull.startswith("motor-") and spec.rig.sails:
        yield (
            ("rig", "sails"),
            f"sails on a hull of type {spec.vessel.hull}",
            "a sailing hull type, or no sails",
        )


def _year(built: Any) -> int | None:
    return built.year if isinstance(built, datetime.date) else built


def _dates(spec: Spec) -> Iterator[Fault]:
    day, delivery, built = spec.trial.date, spec.trial.delivery, _year(spec.vessel.built)
    if day and delivery and delivery < day:
        yield ("trial", "delivery"), f"{delivery}, before the trial ({day})", "on or after the day of trial"
    for index, engine in enumerate(spec.engines):
        if engine.year is not None and day and engine.year > day.year:
            yield ("engines", index, "year"), f"{engine.year}, after the trial ({day})", "not after the trial"
    repowered = _year(spec.history.repowered) if spec.history else None
    if repowered and built and repowered < built:
        yield (
            ("history", "repowered"),
            f"{repowered}, before she was built ({built})",
            "not before she was built",
        )
    if day and built and built > day.year:
        yield ("vessel", "built"), f"{built}, after the trial ({day})", "not after the trial"


def _pumps_switch(spec: Spec) -> Iterator[Fault]:
    for index, pump in enumerate(spec.fresh_water.pumps if spec.fresh_water else ()):
        if pump.cut_in is not None and pump.cut_out is not None and pump.cut_in >= pump.cut_out:
            found = f"{_stated(pump.cut_in)}, not below cut_out ({_stated(pump.cut_out)})"
            yield ("fresh_water", "pumps", index, "cut_in"), found, "below cut_out"


_RULES: tuple[Callable[[Spec], Iterator[Fault]], ...] = (
    _longer, _identified, _engines_turn, _propeller_can, _rig_suits, _dates, _pumps_switch,
)  # fmt: skip
