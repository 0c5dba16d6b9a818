"""What the plan says about safety gear: what is aboard and good, what binds her, and what is bought once for many.

Numbers are counted by hand from the laws' texts as the packs cite them: 33 CFR 175 (flares of 42 months), Italy's annex V,
Spain's order on life-saving gear, Division 240, the collision regulations.
"""

from __future__ import annotations

from typing import Any

import pytest

from plangen.plan.draft import draft_plan
from plangen.plan.gear.lines import GearLine
from plangen.plan.model import Plan
from plangen.plan.yaml_text import yaml_text
from plangen.spec.load import load_spec_node
from plangen.spec.problems import InputProblems
from plangen.spec.yaml_source import read_yaml
from tests.conftest import shipped


def plan(use: dict[str, Any], vessel: dict[str, Any] | None = None, **sections: Any) -> Plan:
    """Draft a small sailing boat."""
    spec = {
        "vessel": {
            "name": "A",
            "hull": "sailing-monohull",
            "length_hull": "12 m",
            "persons": 8,
            **(vessel or {}),
        },
        "use": use,
        "zones": [{"name": "cabin", "kind": "cabin"}],
        **sections,
    }
    return draft_plan(load_spec_node(read_yaml(yaml_text(spec), "boat"), {}), shipped()).plan


def line(found: Plan, item: str) -> GearLine:
    """Return the inventory's line for an item."""
    return next(one for one in found.gear if one.item == item)


def buys(found: Plan, strength: str = "required") -> dict[str, int]:
    """Return what is bought, by id."""
    return {one.id: one.quantity for one in found.shopping if one.strength == strength}


ITALY = {"registry": "italy", "distance_from_shelter": "5 nmi"}
US = {"registry": "us-federal", "distance_from_shelter": "2 nmi"}
TRIAL = {"date": "2027-05-10", "delivery": "2027-06-01"}


def test_italian_extinguishers_have_a_place_each() -> None:
    """Annex V, table 1 letter B: over 294 kW and a cabin without a fixed system: 2 of 13B, 1 of 21B, 1 of 34B; four, not two."""
    engines = [{"name": "engine", "power": "300 kW", "fuel": "diesel", "drive": "shaft"}]
    old = {"ce_marked": False, "length_hull": "14 m"}
    bare = plan(ITALY, old, engines=engines)
    asked = {k: v for k, v in buys(bare).items() if k.startswith("extinguisher")}
    assert asked == {"extinguisher-13b": 2, "extinguisher-21b": 1, "extinguisher-34b": 1}
    two = {"extinguishers": [{"name": "one", "rating": "34B"}, {"name": "two", "rating": "34B"}]}
    fitted = plan(ITALY, old, engines=engines, fire_protection=two)
    assert {k: v for k, v in buys(fitted).items() if k.startswith("extinguisher")} == {"extinguisher-13b": 2}


def test_a_raft_counts_for_the_persons_it_takes() -> None:
    use = {"registry": "france", "distance_from_shelter": "100 nmi"}
    raft = {"item": "liferaft-iso-9650-1", "quantity": 1, "persons": 6, "serviced": "2026-01-01"}
    assert line(plan(use, {"persons": 6}, safety_gear=[raft], trial=TRIAL), "liferaft-iso-9650-1").aboard == 6
    six, seven = (plan(use, {"persons": n}, safety_gear=[raft], trial=TRIAL) for n in (6, 7))
    assert "liferaft-iso-9650-1" not in buys(six)
    assert buys(seven)["liferaft-iso-9650-1"] == 1


@pytest.mark.parametrize(
    ("made", "bought"),
    [("2023-11-10", 3), ("2023-12-10", 0), ("2023-12-01", 0), ("2023-11-30", 3)],
)
def test_american_flares_last_42_months_from_make(made: str, bought: int) -> None:
    """33 CFR 175.130: not past the date marked, at most 42 months after manufacture; here by the day of delivery."""
    flares = {"item": "hand-flare-red", "quantity": 3, "made": made, "approval": "USCG 160.021"}
    found = plan(US, safety_gear=[flares], trial=TRIAL)
    assert buys(found).get("hand-flare-red--uscg", 0) == bought


def test_gear_is_good_on_the_day_it_expires_and_no_longer_the_day_after() -> None:
    for expires, bought in (("2027-06-01", 0), ("2027-05-31", 3)):
        flares = {"item": "hand-flare-red", "quantity": 3, "expires": expires}
        assert buys(plan(US, safety_gear=[flares], trial=TRIAL)).get("hand-flare-red--uscg", 0) == bought


def test_a_raft_past_its_service_does_not_count_and_says_why() -> None:
    use = {"registry": "france", "distance_from_shelter": "100 nmi"}
    raft = {"item": "liferaft-iso-9650-1", "quantity": 1, "persons": 8, "serviced": "2020-05-01"}
    found = plan(use, safety_gear=[raft], trial=TRIAL)
    assert buys(found)["liferaft-iso-9650-1"] == 8
    assert "due for service" in line(found, "liferaft-iso-9650-1").lapsed[0]


def test_without_any_day_dates_are_not_judged_and_the_line_says_so() -> None:
    flares = {"item": "hand-flare-red", "quantity": 3, "expires": "2015-01-01"}
    found = line(plan(US, safety_gear=[flares]), "hand-flare-red")
    assert found.note == "dates not judged: no day of trial or delivery"


def test_without_a_trial_the_day_of_delivery_judges() -> None:
    flares = {"item": "hand-flare-red", "quantity": 3, "expires": "2015-01-01"}
    found = plan(US, safety_gear=[flares], trial={"delivery": "2027-06-01"})
    assert buys(found)["hand-flare-red--uscg"] == 3


def test_two_laws_are_met_by_one_purchase() -> None:
    """Spain beyond 60 miles asks 275 N for all, France 150 N for all: 275 N once."""
    use = {
        "registry": "spain",
        "waters": ["france"],
        "residence": "France",
        "distance_from_shelter": "100 nmi",
    }
    bought = {k: v for k, v in buys(plan(use)).items() if k.startswith("lifejacket-") and k[11].isdigit()}
    assert sum(bought.values()) == next(iter(bought.values()))
    assert next(iter(bought)).startswith("lifejacket-275")


def test_a_mark_of_one_country_does_not_stand_for_that_of_another() -> None:
    flares = {"item": "hand-flare-red", "quantity": 3, "approval": "160.021"}
    use = {"registry": "australia-vic", "distance_from_shelter": "5 nmi"}
    found = plan(use, safety_gear=[flares])
    assert buys(found)["hand-flare-red--as-2092"] > 0
    assert "isn't AS 2092" in line(found, "hand-flare-red").lapsed[0]


def test_a_flag_or_place_without_a_text_is_named_and_stops_nothing() -> None:
    use = {"registry": "atlantis", "waters": ["Frnce"], "distance_from_shelter": "5 nmi"}
    found = plan(use)
    assert [one.place for one in found.unheld] == ["Atlantis", "Frnce"]
    assert found.unheld[1].nearest == "france"
    assert plan({"registry": "other"}).unheld[0].place == "her flag"


def test_a_visitor_is_told_what_binds_her() -> None:
    use = {"registry": "france", "waters": ["spain"], "distance_from_shelter": "5 nmi"}
    spain = next(law for law in plan(use).law if law.jurisdiction == "spain")
    assert spain.state == "visitor"
    assert spain.says is not None
    assert "own flag" in spain.says


def test_without_a_flag_the_flag_is_asked_for() -> None:
    assert "use.registry" in {question.key for question in plan({}).questions}


def test_gear_that_the_catalogue_does_not_know_is_a_fault_with_the_nearest_name() -> None:
    with pytest.raises(InputProblems) as faults:
        plan(US, safety_gear=[{"item": "hand-flares-red"}])
    (problem,) = faults.value.problems
    assert problem.nearest == "hand-flare-red"


def test_case_and_blanks_of_a_jurisdiction_do_not_matter() -> None:
    assert plan({"registry": "US Federal"}).law[0].jurisdiction == "us-federal"


def test_a_change_of_law_before_delivery_is_told() -> None:
    """Italy's annex V changes on 2024-10-21: the old list on the day of trial, the change listed."""
    trial = {"date": "2024-10-01", "delivery": "2024-12-01"}
    use = {"registry": "italy", "distance_from_shelter": "100 nmi"}
    italy = plan(use, {"ce_marked": True}, trial=trial).law[0]
    assert "2024-10-21: Red hand flare, 4, goes out" in italy.changes
    assert "2024-10-21: Red hand flare, 3, comes in" in italy.changes
    assert italy.day == "2024-10-01"


def test_a_flag_with_a_list_of_her_own_eases_the_international_compass() -> None:
    """SOLAS chapter V regulation 1.4 leaves regulation 19 to the flag under 150 gross tonnage."""
    small = {"length_hull": "4.2 m", "hull": "motor-planing", "persons": 2}
    assert "compass" not in {one.item for one in plan(US, small).gear}
    assert "compass" in {one.item for one in plan({"registry": "germany"}, small).gear}


def test_recommended_and_required_are_counted_apart() -> None:
    use = {"registry": "new-zealand", "distance_from_shelter": "5 nmi"}
    found = plan(use)
    assert line(found, "hand-flare-red").strength == "recommended"
    assert "hand-flare-red" not in buys(found)


@pytest.mark.parametrize(
    ("use", "vessel"),
    [
        ({"registry": "france"}, {"length_hull": "24.01 m"}),
        ({"registry": "italy"}, {"length_hull": "35 m"}),
        ({"registry": "spain"}, {"persons": 13}),
        ({"registry": "italy"}, {"length_hull": "2.49 m"}),
    ],
)
def test_outside_its_limits_a_law_says_so_and_asks_nothing(
    use: dict[str, Any], vessel: dict[str, Any]
) -> None:
    found = plan({**use, "distance_from_shelter": "5 nmi"}, vessel)
    law = next(one for one in found.law if one.jurisdiction == use["registry"])
    assert law.state == "outside"
    assert law.says
    assert not [d for one in found.gear for d in one.demands if d.jurisdiction == use["registry"]]


def test_a_demanded_radio_brings_its_licence() -> None:
    """South Africa asks for a radio at sea; the Radio Regulations ask for the station licence, article 18."""
    use = {"registry": "south-africa", "distance_from_shelter": "50 nmi"}
    items = {one.item for one in plan(use).gear}
    assert "vhf-fixed" in items or "vhf" in items or "radio" in items
    assert {"radio-licence", "radio-operator-certificate"} <= items


def test_blowers_are_counted_by_compartment() -> None:
    """33 CFR 183.610(a): each compartment with a petrol engine, not each engine."""
    zones = [{"name": "engine room", "kind": "machinery"}, {"name": "port space", "kind": "machinery"}]

    def engines(*where: str) -> list[dict[str, str]]:
        return [
            {"name": f"e{i}", "fuel": "petrol", "drive": "stern-drive", "zone": z}
            for i, z in enumerate(where)
        ]

    vessel = {"hull": "motor-planing", "built": 2015}
    one = plan(US, vessel, zones=zones, engines=engines("engine room", "engine room"))
    two = plan(US, vessel, zones=zones, engines=engines("engine room", "port space"))
    assert (line(one, "petrol-blower").quantity, line(two, "petrol-blower").quantity) == (1, 2)


def test_a_sailing_boat_under_engine_has_her_masthead_light_at_its_height() -> None:
    """Annex I section 2(c): under 20 m, at least 2.5 m above the gunwale."""
    engines = [{"name": "engine", "power": "30 kW"}]
    note = line(plan({"registry": "other"}, engines=engines), "navigation-lights").demands[0].note
    assert note is not None
    assert "2.5 m above the gunwale" in note


def test_hull_numbers_leave_out_three_letters_and_agree_with_the_year_of_build() -> None:
    for hull_id, built in (("FR-ABC1234IA627", 2026), ("FR-ABC12345A627", 2015)):
        with pytest.raises(InputProblems):
            plan(US, {"hull_id": hull_id, "built": built})
    assert plan(US, {"hull_id": "FR-ABC12345A627", "built": 2026}).boat.hull_id


def test_the_builders_duties_are_apart_and_for_new_craft_only() -> None:
    new = plan({"registry": "france"}, {"ce_marked": True, "built": 2026})
    assert line(new, "builders-plate").strength == "builder"
    assert "builders-plate" not in buys(new)
    used = plan({"registry": "france"}, {"ce_marked": True, "built": 2006, "condition": "used"})
    assert "builders-plate" not in {one.item for one in used.gear}
    builder = next(law for law in used.law if law.kind == "builder")
    assert builder.state == "outside"


def test_what_is_only_inferred_is_not_aboard() -> None:
    """A spec that says nothing of radio or anchors: the plan infers some, the shopping list doesn't count on them."""
    found = plan({"registry": "france", "distance_from_shelter": "100 nmi"})
    assert {line.item: line.aboard for line in found.gear if line.aboard} == {}


def test_kits_of_different_contents_are_one_purchase_with_both_lists() -> None:
    """Spain lists medicines, Division 240 dressings: one kit, and both lists go with it."""
    use = {
        "registry": "spain",
        "waters": ["france"],
        "residence": "france",
        "distance_from_shelter": "100 nmi",
    }
    kit = next(one for one in plan(use).shopping if one.item == "first-aid-kit-coastal")
    assert kit.quantity == 1
    assert len(kit.contents) == 2
