"""Two people at one check: what one read and the other left out counts together."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.print.report.document import report_html
from tests.assess.building import check, expectation, findings, plan

PUMP = check("pump@bilge", expectation("flow", low=10.0, unit="L/min"), expectation("dry", text="yes"))


def judged(*attempts: dict[str, Any]) -> Any:
    (found,) = assess_findings(plan(PUMP), findings({PUMP.id: list(attempts)})).checks
    return found


def test_each_read_a_part() -> None:
    found = judged({"found": {"flow": 12}, "by": "AL"}, {"found": {"dry": "yes"}, "by": "BK", "beside": 1})
    assert (found.verdict, found.disagreement) == ("pass", None)
    assert [reading.found for reading in found.attempts[-1].readings] == ["12 L/min", "yes"]


def test_the_second_part_fails() -> None:
    found = judged({"found": {"flow": 12}, "by": "AL"}, {"found": {"dry": "no"}, "by": "BK", "beside": 1})
    assert found.verdict == "fail"


def test_a_retest_keeps_what_it_did_not_read_again() -> None:
    found = judged({"found": {"flow": 12, "dry": "no"}}, {"found": {"dry": "yes"}})
    assert found.verdict == "pass"
    assert [(one.id, one.found, one.from_attempt) for one in found.attempts[-1].readings] == [
        ("flow", "12 L/min", 1),
        ("dry", "yes", None),
    ]


def test_a_bad_reading_stays_bad_until_it_is_read_again() -> None:
    found = judged({"found": {"flow": 2, "dry": "no"}}, {"found": {"dry": "yes"}}, {"note": "no time"})
    assert (found.verdict, [one.verdict for one in found.attempts]) == ("fail", ["fail", "fail", "not-done"])


@pytest.mark.parametrize("typed", ["12.0", "12 L/min", 12.0])
def test_the_same_number_written_otherwise_is_no_disagreement(typed: object) -> None:
    found = judged(
        {"found": {"flow": 12, "dry": "yes"}, "by": "AL"}, {"found": {"flow": typed}, "by": "BK", "beside": 1}
    )
    assert (found.verdict, found.disagreement) == ("pass", None)


def test_remarks_of_the_sheets_reach_the_report() -> None:
    said = findings({PUMP.id: {"flow": 12}}, remarks=["gear: 2 flares found"])
    found = assess_findings(plan(PUMP), said)
    assert "gear: 2 flares found" in report_html(plan(PUMP), found, "A4", {})
