"""What is read aboard: the boats, the readings of a sound one, and findings made of them."""

from __future__ import annotations

import datetime
from collections.abc import Mapping
from functools import cache
from pathlib import Path
from typing import Any

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.findings.model import Attempt, Findings, Typed
from plangen.packs.evaluate import Scope
from plangen.packs.facts import Missing
from plangen.packs.functions import MissingInput
from plangen.packs.items import singular_at
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.plan.draft import Draft, draft_plan
from plangen.plan.drafted import DraftedCheck
from plangen.plan.model import Expectation
from plangen.spec.load import load_spec_file
from plangen.spec.quantity import Quantity, is_quantity, parse_quantity, unit_from_label
from plangen.spec.yaml_source import read_yaml_file
from tests.conftest import SPECS, shipped

HERE = Path(__file__).parent
BOATS: dict[str, Path] = {
    "catamaran": SPECS / "catamaran.yaml",
    "monohull": SPECS / "monohull.yaml",
    "hull-101": SPECS / "yard" / "hull-101.yaml",
    **{path.stem: path for path in sorted((HERE / "specs").glob("*.yaml"))},
}
FAULTY: dict[str, Path] = {path.stem: path for path in sorted((HERE / "faulty").glob("*.yaml"))}
#: What a bad check of these grades means: she isn't used, or isn't handed over, until it is put right.
DECIDING = ("stop", "before-handover")


@cache
def table(name: str) -> Mapping[str, Any]:
    """Return one of the tables beside this file."""
    content: Mapping[str, Any] = read_yaml_file(HERE / name).plain()
    return content


@cache
def boat(name: str) -> Draft:
    """Return a boat's plan, with everything that was looked at for it."""
    library = shipped()
    return draft_plan(load_spec_file({**BOATS, **FAULTY}[name], library.zone_sets()), library)


def faulty_boats() -> tuple[str, ...]:
    """Return the boats that are there for faults only."""
    return tuple(FAULTY)


def bindings(name: str, draft: Draft, one: DraftedCheck) -> dict[str, Any]:
    """Return what an expression of the table may name beside the spec: the check's item, and what the boats list says."""
    rule, bound = one.rule, dict[str, Any]()
    if rule.for_each is not None and one.subject is not None:
        value = draft.facts.at(rule.for_each)
        listed = singular_at(rule.for_each) if isinstance(value, list) else rule.for_each.split(".")[-1]
        bound[rule.as_ or listed] = one.subject
    mains = draft.facts.at("ac.system")
    volts = "120 V" if str(mains).startswith("120") else "230 V"
    hull = draft.facts.spec.vessel.hull
    return {
        **bound,
        "ac_voltage": parse_quantity(volts),
        "top_speed": float(table("sound.yaml")["boats"][name]["top_speed"]),
        "planing": hull in ("motor-planing", "motor-semi-displacement"),
    }


def sound_reading(name: str, draft: Draft, one: DraftedCheck, expected: Expectation) -> Typed:
    """Return what an honest person reads; nothing where the table doesn't know."""
    if expected.text is not None:
        return expected.text
    day = draft.facts.spec.trial.date or datetime.date(2027, 5, 4)
    if expected.record in ("expiry-date", "service-date", "date"):
        return day + datetime.timedelta(days=400 if expected.record == "expiry-date" else -60)
    if expected.record in ("serial-number", "text"):
        return "A 1234"
    key = f"{one.check.rule}/{expected.id}"
    given = table("sound.yaml")["readings"].get(key)
    if given is None:
        zero = expected.unit in table("sound.yaml")["zero"] and expected.high is not None
        return 0 if zero else (1 if expected.record == "count" and not expected.series else None)
    bound = bindings(name, draft, one)
    if expected.series:
        return [
            _number(given[0], Scope(draft.facts, {**bound, "point": row.point}), expected)
            for row in expected.series
        ]
    if "point" in str(given[0]):
        return None
    return _number(given[0], Scope(draft.facts, bound), expected)


def _number(given: Any, scope: Scope, expected: Expectation) -> float | None:
    try:
        value = value_of(given, scope) if isinstance(given, str) else given
    except MissingInput:
        return None
    except ExpressionError as error:
        raise ValueError(f"{expected.id}: {given}: {error}") from error
    if isinstance(value, Missing):
        return None
    if is_quantity(value):
        quantity: Quantity = value
        plain = "dimensionless" if not quantity.dimensionality else unit_from_label(expected.unit)
        value = quantity.to(plain).magnitude
    return round(float(value), 4)


def findings_of(draft: Draft, found: Mapping[str, Mapping[str, Typed]]) -> Findings:
    """Return findings with one attempt at each check."""
    return Findings(
        boat=draft.plan.boat.name,
        plan=draft.plan.digest,
        checks={id: (Attempt(found=dict(readings)),) for id, readings in found.items()},
    )


@cache
def sound_findings(name: str) -> Mapping[str, Mapping[str, Typed]]:
    """Return a full set of readings of a sound boat, check by check."""
    draft = boat(name)
    return {
        one.check.id: {
            expected.id: sound_reading(name, draft, one, expected) for expected in one.check.expect
        }
        for one in draft.checks
        if one.check.grade in DECIDING
    }


@cache
def sound_boat(name: str) -> Assessment:
    """Return the verdicts on a sound boat."""
    draft = boat(name)
    return assess_findings(draft.plan, findings_of(draft, sound_findings(name)))
