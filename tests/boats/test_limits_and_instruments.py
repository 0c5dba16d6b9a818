"""Limits that depend on the boat are held against the instrument too, on every boat of the tests."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from plangen.packs.library import load_library
from plangen.plan.draft import draft_plan
from plangen.plan.undecidable import undecidable
from tests.boats.aboard import BOATS, boat
from tests.conftest import shipped, spec_from

PACK = """
pack: fine
title: Too fine
edition: 2026-11
checks:
  - id: too-fine
    title: Too fine for the meter
    for_each: engines
    setting: alongside
    procedure: [Read the meter.]
    expect:
      - {id: two-sided, reading: voltage, unit: V, about: 0.5 * engine.alternator.voltage, tolerance: 0.1 %, instrument: multimeter}
      - {id: one-sided, reading: height, unit: mm, at_most: 'q("0.1 mm") * engine.gear_ratio', instrument: tape-measure}
      - {id: wide, reading: voltage, unit: V, about: 0.5 * engine.alternator.voltage, tolerance: 20 %, instrument: multimeter}
    instruments: [multimeter, tape-measure]
"""


def test_no_instrument_is_too_coarse_for_a_limit_on_any_boat() -> None:
    assert [str(problem) for problem in undecidable([boat(name) for name in BOATS], shipped())] == []


def test_a_limit_within_the_instruments_own_error_is_found_with_its_place(
    write: Callable[[str, str], Path],
) -> None:
    folder = write("packs/fine.yaml", PACK).parent
    library = load_library([folder])
    spec = spec_from(
        "vessel: {name: A, hull: sailing-monohull, length_hull: 10 m}\nengines: {power: 20 kW, gear_ratio: 2}"
    )
    problems = undecidable([draft_plan(spec, library)], library)
    assert [problem.key for problem in problems] == ["checks[1].expect[1]", "checks[1].expect[2]"]
    assert all("on A" in problem.found and problem.mark.file.endswith("fine.yaml") for problem in problems)
