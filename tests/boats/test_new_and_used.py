"""A used boat is asked what used boats are asked, and nothing of a new one's; an item's age is its own."""

from __future__ import annotations

import pytest

from plangen.plan.draft import Draft, draft_plan
from tests.boats.aboard import BOATS, boat
from tests.conftest import shipped, spec_from

#: What only makes sense between a buyer and the builder of a new boat.
NEW_ONLY = {
    "order-against-specification",
    "options-against-boat",
    "decision-rules",
    "crew-training",
    "laminate-hardness",
    "declaration-of-conformity",
}
#: What only makes sense on a boat that has a past.
USED_ONLY = {"sale-inventory", "survey-scope", "service-due", "engine-oil-sample", "engine-elbow", "engine-compression", "hull-moisture", "rig-dye-test",
             "history-repower", "history-charter"}  # fmt: skip


def rules(draft: Draft) -> set[str]:
    return {one.rule.id for one in draft.checks}


@pytest.mark.parametrize("name", list(BOATS))
def test_no_check_of_the_other_kind_of_boat(name: str) -> None:
    draft = boat(name)
    new = draft.facts.spec.vessel.condition == "new"
    assert rules(draft) & (USED_ONLY if new else NEW_ONLY) == set()
    builders = [law.jurisdiction for law in draft.plan.law if law.kind == "builder"]
    assert bool(builders) <= new
    assert all(check.used_boat == () for check in draft.plan.checks) or not new


def with_engine(engine: str, history: str = "{}") -> Draft:
    return draft_plan(
        spec_from(f"""
vessel: {{name: Hull of 1988, hull: sailing-monohull, length_hull: 10 m, built: 1988, condition: used}}
trial: {{date: 2027-05-04}}
engines: {{power: 20 kW, drive: shaft, fuel: diesel, cooling: heat-exchanger, exhaust: wet{engine}}}
history: {history}
"""),
        shipped(),
    )


def said(draft: Draft, rule: str) -> str:
    return " ".join(text for one in draft.checks if one.rule.id == rule for text in one.check.used_boat)


def test_a_new_engine_in_an_old_hull_is_young_and_looked_at_as_a_repower() -> None:
    new, old = with_engine(", year: 2025, hours: 150 h"), with_engine(", year: 1988, hours: 4200 h")
    assert "history-repower" in rules(new) - rules(old)
    assert "engine-compression" in rules(old) - rules(new)
    for rule in ("exhaust-layout", "engine-cold-look"):
        assert len(said(old, rule)) > len(said(new, rule)), rule


def test_hours_wear_an_engine_as_years_do() -> None:
    worn, young = with_engine(", year: 2015, hours: 7000 h"), with_engine(", year: 2015, hours: 900 h")
    assert "engine-compression" in rules(worn) - rules(young)


def test_a_new_gas_hose_in_an_old_hull_is_not_renewed_again() -> None:
    def told(date: str) -> str:
        return said(
            draft_plan(
                spec_from(f"""
vessel: {{name: A, hull: sailing-monohull, length_hull: 10 m, built: 1988, condition: used}}
trial: {{date: 2027-05-04}}
gas: {{kind: butane{date}}}
"""),
                shipped(),
            ),
            "gas-pipework",
        )

    assert "Renew hoses" in told("")
    assert "Renew hoses" in told(", hose_date: 2019-05-01")
    assert "Renew hoses" not in told(", hose_date: 2026-05-01")


def test_an_engine_whose_year_nobody_told_is_as_old_as_the_hull_or_as_the_repower() -> None:
    untold = with_engine("")
    assert said(untold, "exhaust-layout") == said(with_engine(", year: 1988"), "exhaust-layout")
    repowered = with_engine("", "{repowered: 2024}")
    assert "history-repower" in rules(repowered)
    assert said(repowered, "exhaust-layout") == said(with_engine(", year: 2024"), "exhaust-layout")
    year = next(question for question in repowered.plan.questions if question.key == "engines[1].year")
    assert year.assumed == "2024"


def test_hours_and_interval_decide_what_is_due() -> None:
    few, many = with_engine(", hours: 300 h"), with_engine(", hours: 3600 h, service_interval: 400 h")
    due = {one.check.rule: one.check for one in many.checks}["history/service-due"]
    assert next(e.high for e in due.expect if e.id == "hours-since") == 400
    assert "long-jobs" in {e.id for e in due.expect}
    assert "long-jobs" not in {
        e.id for one in few.checks if one.rule.id == "service-due" for e in one.check.expect
    }


@pytest.mark.parametrize(
    ("told", "rule"),
    [("grounded: true", "history-grounding"), ("collision: true", "history-grounding"), ("flooded: true", "history-flooding"), ("fire: true", "history-fire"),
     ("lightning: true", "history-lightning"), ("chartered: true", "history-charter"), ("laid_up: 2 years", "history-lay-up"),
     ("papers_missing: [title]", "history-papers"), ("modified: true", "history-altered")],
)  # fmt: skip
def test_what_happened_to_her_changes_the_checks(told: str, rule: str) -> None:
    assert rule in rules(with_engine("", f"{{{told}}}"))
    assert rule not in rules(with_engine("", "{owners: 2}"))


def test_a_used_boat_without_a_history_is_asked_for_it_and_a_new_one_is_not() -> None:
    used = draft_plan(
        spec_from("vessel: {name: A, hull: sailing-monohull, length_hull: 10 m, condition: used}"), shipped()
    ).plan
    new = draft_plan(
        spec_from("vessel: {name: A, hull: sailing-monohull, length_hull: 10 m}"), shipped()
    ).plan
    assert "history" in {question.key for question in used.questions if question.has}
    assert "history" not in {question.key for question in new.questions}
