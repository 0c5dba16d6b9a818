"""Whose paper a plan is, and what it is for, survive plan.yaml and count in the digest."""

from __future__ import annotations

from plangen.plan.digest import with_digest
from plangen.plan.draft import draft_plan
from plangen.plan.house import House, HouseChange, Letterhead, Logo, Recommendation
from plangen.plan.read import read_plan
from plangen.plan.yaml_text import yaml_text
from tests.conftest import shipped, spec_from

SPEC = "vessel: {name: X, hull: motor-planing, length_hull: 9 m}\n"


def test_what_a_plan_is_for_stands_in_it() -> None:
    assert draft_plan(spec_from(SPEC), shipped()).plan.purpose == "delivery"
    survey = draft_plan(spec_from(f"{SPEC}trial: {{purpose: survey}}"), shipped()).plan
    assert survey.purpose == "survey"


def test_the_house_is_read_back_as_it_was_and_counts_in_the_digest(write) -> None:
    plan = draft_plan(spec_from(f"{SPEC}trial: {{purpose: survey}}"), shipped()).plan
    house = House(
        letterhead=Letterhead(name="A. Surveyor", logo=Logo(type="png", width=1, height=1, data="AAAA")),
        recommendations=(Recommendation(words="Renew it", urgency="before-use", rules=("own",)),),
        changes=(
            HouseChange(rule="own", title="Own", change="dropped", words="dropped", reason="r", was="stop"),
        ),
    )
    with_house = with_digest(plan.model_copy(update={"house": house}))
    assert with_house.digest != plan.digest
    again = read_plan(write("plan.yaml", yaml_text(with_house.plain())))
    assert again == with_house
    assert again.house is not None
    assert again.house.letterhead is not None
    assert again.house.letterhead.logo is not None
    assert again.house.letterhead.logo.uri == "data:image/png;base64,AAAA"
