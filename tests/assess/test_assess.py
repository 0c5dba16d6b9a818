"""Checks, snags, handover, sums and the retest, from findings against a small plan."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.plan.model import SettingSummary
from tests.assess.building import check, expectation, findings, instrument, plan

VOLTAGE = expectation("voltage", unit="V", low=12.6, high=12.8)
BOAT = plan(
    check("battery@house", VOLTAGE, grade="before-handover", instruments=("meter",)),
    check("gas@galley", expectation("tight", text="yes"), grade="stop", setting="alongside"),
    check("lamp@saloon", expectation("lit", text="yes"), grade="remark"),
    check(
        "load@house",
        expectation("held", text="yes"),
        after=("battery@house",),
        setting="under-way",
        minutes=20,
    ),
    check("serial@engine", expectation("number", record="serial-number")),
    kit=[instrument("meter"), instrument("stopwatch")],
).model_copy(
    update={
        "settings": (
            SettingSummary(setting="alongside", title="Alongside", checks=4, minutes=20),
            SettingSummary(setting="under-way", title="Under way", checks=1, minutes=20),
        )
    }
)
GOOD: dict[str, Any] = {
    "battery@house": {"voltage": 12.7},
    "gas@galley": {"tight": "yes"},
    "lamp@saloon": {"lit": "yes"},
    "load@house": {"held": "yes"},
    "serial@engine": {"number": "E-1"},
}


def assessed(changes: dict[str, Any] | None = None, **fields: Any) -> Assessment:
    return assess_findings(BOAT, findings({**GOOD, **(changes or {})}, **fields))


def verdict(assessment: Assessment, id: str) -> str:
    return next(check.verdict for check in assessment.checks if check.id == id)


def test_all_good() -> None:
    found = assessed()
    assert found.snags == ()
    assert found.handover.advisable
    assert found.handover.answer == "yes"
    assert [(line.done, line.passed, line.to_do) for line in found.summary] == [(5, 5, 0)]
    assert [(one.check, one.found) for one in found.recorded] == [("serial@engine", "E-1")]


def test_nothing_found_is_not_done_and_says_what_waits() -> None:
    found = assess_findings(BOAT, findings({}))
    assert found.not_done == tuple(check.id for check in BOAT.checks)
    assert (found.handover.answer, found.handover.not_done, found.handover.deciding) == (
        "cannot-be-said",
        2,
        2,
    )
    assert "2 of 2 checks of grade stop or before handover aren't done" in found.handover.line


@pytest.mark.parametrize("snag", ["gas@galley", "battery@house"])
def test_an_open_snag_of_grade_stop_or_before_handover_forbids_handover(snag: str) -> None:
    bad = {"gas@galley": {"tight": "no"}, "battery@house": {"voltage": 11.9}}
    found = assessed({snag: bad[snag]})
    assert not found.handover.advisable
    assert found.handover.forbidding == (snag,)
    assert found.handover.line.startswith(
        "Handover is not advisable: 1 snag of grade stop or before handover"
    )


def test_a_remark_doesn_t_forbid_handover() -> None:
    found = assessed({"lamp@saloon": {"lit": "no"}})
    assert [(snag.check, snag.state) for snag in found.snags] == [("lamp@saloon", "open")]
    assert found.handover.advisable


def test_the_gravest_snag_comes_first() -> None:
    bad = {"lamp@saloon": {"lit": "no"}, "gas@galley": {"tight": "no"}, "battery@house": {"voltage": 12.0}}
    snags = assessed(bad).snags
    assert [(snag.number, snag.grade) for snag in snags] == [
        (1, "stop"),
        (2, "before-handover"),
        (3, "remark"),
    ]
    assert (snags[1].expected, snags[1].found) == ("voltage: as planned", "voltage: 12 V")


def test_the_last_attempt_decides_and_a_mended_snag_keeps_its_history() -> None:
    attempts = [
        {"found": {"voltage": 12.0}, "by": "AL", "when": "2027-05-14"},
        {},
        {"found": {"voltage": 12.7}, "by": "BM", "when": "2027-05-20"},
    ]
    found = assessed({"battery@house": attempts})
    assert verdict(found, "battery@house") == "pass"
    snag = found.snags[0]
    assert snag.state == "mended"
    assert snag.found == "voltage: 12 V"
    assert snag.history == (
        "attempt 1: fail, 2027-05-14, AL (voltage 12 V)",
        "attempt 3: pass, 2027-05-20, BM",
    )
    assert found.handover.advisable


def test_a_snag_that_came_back_is_open() -> None:
    attempts = [{"found": {"voltage": value}} for value in (12.0, 12.7, 11.8)]
    found = assessed({"battery@house": attempts})
    assert [(snag.state, snag.found) for snag in found.snags] == [("open", "voltage: 11.8 V")]


def test_what_does_not_apply_is_no_snag() -> None:
    found = assessed({"gas@galley": [{"does_not_apply": "no gas aboard"}]})
    assert verdict(found, "gas@galley") == "does-not-apply"
    assert found.snags == ()
    assert found.summary[0].does_not_apply == 1
    assert next(c for c in found.checks if c.id == "gas@galley").attempts[0].note == "no gas aboard"


def test_a_note_alone_leaves_the_readings_to_do() -> None:
    assert verdict(assessed({"lamp@saloon": [{"note": "bulb missing"}]}), "lamp@saloon") == "not-done"


def test_two_people_who_disagree_are_both_named_and_asked() -> None:
    attempts = [
        {"found": {"voltage": 12.7}, "by": "AL"},
        {"found": {"voltage": 12.1}, "by": "BM", "beside": 1},
    ]
    found = assessed({"battery@house": attempts})
    said = next(check.disagreement for check in found.checks if check.id == "battery@house")
    assert verdict(found, "battery@house") == "unclear"
    assert said is not None
    assert "voltage: 12.7 (AL) or 12.1 (BM)" in said
    assert found.snags[0].state == "open"
    settled = assessed({"battery@house": [*attempts, {"found": {"voltage": 12.7}}]})
    assert verdict(settled, "battery@house") == "pass"


def test_two_people_who_agree_are_one_finding() -> None:
    attempts = [{"found": {"voltage": 12.7}}, {"found": {"voltage": 12.7}, "beside": 1}]
    assert verdict(assessed({"battery@house": attempts}), "battery@house") == "pass"


@pytest.mark.parametrize(
    ("settlement", "state", "advisable"),
    [
        ("accepted", "accepted", True),
        ("price-reduced", "accepted", True),
        ("disputed", "disputed", False),
        ("mended-by-date", "open", False),
    ],
)
def test_a_settlement_changes_the_state(settlement: str, state: str, advisable: bool) -> None:
    found = assessed(
        {"battery@house": {"voltage": 12.0}}, snags={"battery@house": {"settlement": settlement}}
    )
    assert (found.snags[0].state, found.handover.advisable) == (state, advisable)


def test_sums_are_added_by_currency_and_mended_snags_don_t_count() -> None:
    bad = {
        "gas@galley": {"tight": "no"},
        "lamp@saloon": {"lit": "no"},
        "load@house": {"held": "no"},
        "battery@house": [{"found": {"voltage": 12.0}}, {"found": {"voltage": 12.7}}],
    }
    sums = {
        "gas@galley": "1 200.50 EUR",
        "lamp@saloon": "99.50 EUR",
        "load@house": "300 USD",
        "battery@house": "5000 EUR",
    }
    found = assessed(bad, snags={check: {"sum": held} for check, held in sums.items()})
    assert found.sums_held_back == {"EUR": "1 300.00", "USD": "300"}
