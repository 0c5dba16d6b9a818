"""A bad boat fails: published faults, seeded as readings, each caught by a named check whose limit the reading breaks."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.findings.model import Typed
from plangen.plan.draft import Draft
from plangen.plan.model import Expectation, PlannedCheck
from tests.boats.aboard import BOATS, boat, faulty_boats, findings_of, table

FAULTS: list[Mapping[str, Any]] = table("faults.yaml")["faults"]
IN_REACH = [fault for fault in FAULTS if "out_of_reach" not in fault]


@cache
def places() -> Mapping[tuple[str, str], list[tuple[str, PlannedCheck, Expectation]]]:
    """Return the boats and checks for each rule and reading, of all boats of the tests."""
    found: dict[tuple[str, str], list[tuple[str, PlannedCheck, Expectation]]] = {}
    for name in (*BOATS, *faulty_boats()):
        for check in boat(name).plan.checks:
            for one in check.expect:
                found.setdefault((check.rule.partition("/")[2], one.id), []).append((name, check, one))
    return found


def place_of(fault: Mapping[str, Any]) -> tuple[str, PlannedCheck, Expectation]:
    """Return the first boat and check that can show the fault: where it names a part, one whose tick has that part."""
    listed = places().get((fault["check"], fault["reading"]), [])
    part = str(fault["found"]).removeprefix("no: ") if str(fault["found"]).startswith("no: ") else ""
    fitting = [
        place
        for place in listed
        if (not part or any(part in one for one in place[2].parts))
        and (place[2].record is None or place[2].series)
    ]
    assert fitting, f"no boat of the tests has {fault['check']}/{fault['reading']} {part}"
    return fitting[0]


def seeded(draft: Draft, check: PlannedCheck, one: Expectation, found: Any) -> Typed:
    """Return what is read where the fault is there; a share is of the limit's own value, `stuck` a gauge that doesn't move."""
    if found == "stuck":
        return [row.value or 0 for row in one.series[:1]] * len(one.series)
    if isinstance(found, str) and found.endswith(" %"):
        share = float(found.removesuffix(" %")) / 100
        if one.low is not None and one.high is None:
            pump = next(bilge for bilge in draft.facts.spec.bilges if bilge.name == check.item)
            assert pump.pump_flow is not None
            return share * float(pump.pump_flow.to("litre/minute").magnitude)
        volts = draft.facts.spec.dc.nominal_voltage
        assert volts is not None
        return share * 1.2 * float(volts.to("volt").magnitude)
    typed: Typed = found
    return typed


@pytest.mark.parametrize("fault", IN_REACH, ids=lambda fault: f"{fault['id']} {fault['what']}"[:60])
def test_a_published_fault_is_caught(fault: Mapping[str, Any]) -> None:
    name, check, expected = place_of(fault)
    draft = boat(name)
    found = seeded(draft, check, expected, fault["found"])
    assessment = assess_findings(draft.plan, findings_of(draft, {check.id: {expected.id: found}}))
    judged = next(one for one in assessment.checks if one.id == check.id)
    reading = next(one for one in judged.attempts[-1].readings if one.id == expected.id)
    assert reading.verdict == "fail", (reading.expected, reading.found, reading.verdict)
    assert "no such part" not in (reading.reason or ""), reading.reason
    assert judged.verdict == "fail"
    assert any(snag.check == check.id for snag in assessment.snags)


def test_at_least_95_in_100_published_faults_are_within_reach() -> None:
    assert len(IN_REACH) >= 0.95 * len(FAULTS)
    assert len({fault["id"] for fault in FAULTS}) == len(FAULTS) >= 117
    assert all(fault["source"] and fault.get("out_of_reach", "caught") for fault in FAULTS)
