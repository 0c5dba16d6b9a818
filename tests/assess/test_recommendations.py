"""What a survey recommends: urgency by grade or by the surveyor's word, what is settled left out, the house's own words."""

from __future__ import annotations

from typing import Any

import pytest

from plangen.assess.assess import assess_findings
from plangen.assess.model import Assessment
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.read import read_findings
from plangen.plan.house import House, Recommendation
from plangen.plan.model import Plan
from plangen.spec.problems import InputProblems
from tests.assess.building import check, expectation, findings, instrument, plan

HOSE = expectation("age of the hose", unit="years", high=10.0, shown="≤ 10 years")
OWN = (
    Recommendation(words="Have every seacock serviced.", urgency="next-haul-out", rules=("gas",)),
    Recommendation(words="Have the mast unstepped.", urgency="monitor", rules=("mast",)),
    Recommendation(words="Renew flares.", urgency="before-use"),
)


def boat(purpose: str = "survey", house: House | None = None) -> Plan:
    planned = plan(
        check("gas@galley", HOSE, grade="stop"),
        check("lamp@saloon", expectation("lit", text="yes", shown="yes"), grade="remark"),
        check("pump@bilge", expectation("flow", unit="L/min", low=10.0, instrument="meter", shown="≥ 10 L/min"), grade="before-handover"),
        check("keel@boat", expectation("sound", text="yes", shown="yes"), grade="by-date"),
        kit=[instrument("meter", unit="L/min", accuracy_fixed=1.0)],
    )  # fmt: skip
    return planned.model_copy(update={"purpose": purpose, "house": house})


BAD: dict[str, Any] = {
    "gas@galley": {"age-of-the-hose": 12},
    "lamp@saloon": {"lit": "no"},
    "pump@bilge": {"flow": 10.5},
    "keel@boat": {"sound": "no"},
}


def surveyed(snags: dict[str, Any] | None = None, house: House | None = None, **more: Any) -> Assessment:
    return assess_findings(boat(house=house), findings(BAD, snags, **more))


def urgencies(done: Assessment) -> list[tuple[int, str, str | None]]:
    return [(one.number, one.urgency, one.check) for one in done.recommendations]


def test_grade_gives_the_urgency_and_the_most_urgent_come_first() -> None:
    assert urgencies(surveyed()) == [
        (1, "before-use", "gas@galley"),
        (2, "before-cover", "pump@bilge"),
        (3, "next-haul-out", "keel@boat"),
        (4, "monitor", "lamp@saloon"),
    ]
    assert surveyed().recommendations[1].do == "look-further"


def test_the_surveyors_word_goes_before_the_grade() -> None:
    done = surveyed({"lamp@saloon": {"urgency": "before-use"}, "gas@galley": {"urgency": "monitor"}})
    assert next(one.check for one in done.recommendations) == "lamp@saloon"
    assert urgencies(done)[-1] == (4, "monitor", "gas@galley")


def test_what_is_accepted_as_it_is_asks_for_nothing() -> None:
    done = surveyed({"gas@galley": {"settlement": "accepted"}})
    assert "gas@galley" not in [one.check for one in done.recommendations]


def test_a_thing_beside_the_checks_has_an_urgency_too() -> None:
    done = surveyed(also_found=[{"what": "cracked base", "grade": "remark", "urgency": "before-cover"}])
    assert [
        one.urgency
        for one in done.recommendations
        if one.item == "boat" and one.snag and one.check and "also" in one.check
    ] == ["before-cover"]


def test_the_houses_words_count_where_a_check_of_their_rules_failed() -> None:
    done = surveyed(house=House(recommendations=OWN))
    own = [(one.words, one.urgency) for one in done.recommendations if one.do == "house"]
    assert own == [("Renew flares.", "before-use"), ("Have every seacock serviced.", "next-haul-out")]


def test_the_line_counts_what_is_urgent_and_speaks_of_no_handover() -> None:
    """Before use the gas hose, before cover the pump; all of the two gravest grades were made."""
    line = surveyed().handover.line
    assert (
        line
        == "Urgent: 2 recommendations, 1 before use and 1 before cover. All 2 checks of the gravest grades were made."
    )
    assert "handover" not in line.casefold()


def test_a_delivery_has_no_recommendations() -> None:
    assert assess_findings(boat("delivery"), findings(BAD)).recommendations == ()


def test_what_the_surveyor_writes_of_the_survey_is_read_and_carried_over() -> None:
    planned = boat()
    text = (
        findings_text(planned)
        + "survey:\n  lying: ashore # in slings\n  conditions: dry\n  access: [mast, keel bolts]\n  opinion: sound\n"
    )
    read = read_findings(text, "f", planned).survey
    assert read is not None
    assert (read.lying, read.conditions, read.access, read.opinion) == (
        "ashore",
        "dry",
        ("mast", "keel bolts"),
        "sound",
    )
    assert "lying: ashore # in slings" in carry(text, "f", planned, planned).text


@pytest.mark.parametrize(("key", "value"), [("lying", "adrift"), ("weather", "dry")])
def test_a_fault_in_it_is_named_by_its_line(key: str, value: str) -> None:
    planned = boat()
    text = findings_text(planned) + f"survey:\n  {key}: {value}\n"
    with pytest.raises(InputProblems) as fault:
        read_findings(text, "f", planned)
    assert [problem.mark.line for problem in fault.value.problems] == [text.count("\n")]
