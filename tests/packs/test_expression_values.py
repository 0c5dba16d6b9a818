"""What each form and function of an expression gives, as rulepacks/README says it; the arithmetic stands beside each."""

from __future__ import annotations

import pytest

from plangen.packs.constants import require_values
from plangen.packs.evaluate import Scope, evaluate, holds, number_in, render, show
from plangen.packs.facts import Assumed, Facts, Missing, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.syntax import ExpressionError, parse_expression
from plangen.spec.quantity import registry
from tests.conftest import spec_from

SPEC = """
vessel: {name: X, hull: sailing-monohull, length_hull: 12 m, built: 2009-05-10}
trial: {date: 2027-05-10}
engines: [{name: port, power: 42 kW, fuel: diesel}, {name: starboard, power: 40 kW, fuel: petrol}]
tanks: [{name: holding, holds: black, capacity: 120 L}, {name: main, holds: fuel, capacity: 300 L}, {name: day, holds: fuel, zone: galley}]
heads: [{name: forward head, flush_volume: 3 L, tank: holding}, {name: aft head}]
"""


@pytest.fixture
def scope() -> Scope:
    facts = Facts(spec_from(SPEC).spec)
    head, other = (Subject(one, ("heads", place)) for place, one in enumerate(facts.spec.heads))
    return Scope(facts, {"head": head, "other": other})


@pytest.mark.parametrize(
    ("text", "value"),
    [
        # relations: of numbers, of quantities in two units, of names
        ("1 < 2 < 3", True),
        ("1 < 3 < 2", False),
        ("2 < 2", False),
        ("2 <= 2", True),
        ("2 > 2", False),
        ("2 >= 2", True),
        ("1 == 1.0", True),
        ("1 != 1", False),
        ("1 != 2", True),
        # 65 ft are 65 × 0.3048 m = 19.812 m, exactly; neither is more
        ("q('65 ft') > q('19.812 m')", False),
        ("q('65 ft') >= q('19.812 m')", True),
        ("q('19.812 m') < q('65 ft')", False),
        ("q('19.812 m') <= q('65 ft')", True),
        ("q('19.813 m') > q('65 ft')", True),
        ("0.1 + 0.2 > 0.3", False),
        ("0.1 + 0.2 <= 0.3", True),
        ("0.30001 > 0.3", True),
        ("trial.date > vessel.built", True),
        ("vessel.built > trial.date", False),
        ("head.tank == 'holding'", True),
        ("head.tank != 'holding'", False),
        ("head.tank == tanks[0]", True),
        ("head.tank == tanks[1]", False),
        # what the spec leaves out equals nothing, not even itself
        ("other.tank == 'holding'", False),
        ("'holding' == other.tank", False),
        ("other.tank == tanks[2].capacity", False),
        ("other.tank != 'holding'", True),
        # membership
        ("'a' in ['a', 'b']", True),
        ("'c' in ['a', 'b']", False),
        ("'a' not in ['a', 'b']", False),
        ("'c' not in ['a', 'b']", True),
        ("'holding' in tanks", True),
        ("head.tank in tanks", True),
        ("head.tank in ['holding']", True),
        ("engines[0] in tanks", False),
        ("'a' in other.tank", False),
        ("'a' not in other.tank", True),
        ("'old' in 'holding'", True),
        # and, or, not, if
        ("1 and 0", False),
        ("0 and 1", False),
        ("1 and 2", True),
        ("0 or 3", 3),
        ("2 or 3", 2),
        ("not 0", True),
        ("not q('0 m')", True),
        ("not q('1 m')", False),
        ("1 if 0 else 2", 2),
        ("1 if 3 else 2", 1),
        ("(1 if 0) or 5", 5),
        # lists
        ("tanks[-1].name", "day"),
        ("tanks[-3].name", "holding"),
        ("tanks[-4].name or 'none'", "none"),
        ("tanks[2].name", "day"),
        ("tanks[3].name or 'none'", "none"),
        ("first(tanks).name", "holding"),
        ("first(other.tank) or 'none'", "none"),
        ("count(other.tank)", 0),
        ("[1, 2] + [3]", [1, 2, 3]),
        ("10 - [1, 2]", [9, 8]),
        ("[1, 2] - 10", [-9, -8]),
        # dates and signs
        ("trial.date.year", 2027),
        ("trial.date.month", 5),
        ("trial.date.day", 10),
        ("-3 + 5", 2),
        ("+3", 3),
        ("year(vessel.built)", 2009),
        ("year(1987)", 1987),
        # 18 calendar years with the leap days of 2012, 2016, 2020 and 2024: 18 × 365 + 4 = 6574 days; / 365.25 = 17.9986
        ("rounded(number(age(vessel.built), 'year'), 0.0001)", pytest.approx(17.9986)),
        ("number(age(2009), 'year')", 18),
        ("number(age(2009), 'months')", 216),
        # a list by a key
        ("count(where(tanks, 'holds', 'fuel'))", 2),
        ("count(where(tanks, 'holds', 'fuel', 'black'))", 3),
        ("count(where(tanks, 'holds', 'water'))", 0),
        ("count(where(tanks, 'capacity'))", 2),
        ("count(where(heads, 'tank', 'holding'))", 1),
        ("count(where(heads, 'tank.holds', 'black'))", 1),
        ("count(where(heads, 'tank'))", 1),
        ("first(where(tanks, 'holds', 'fuel')).name", "main"),
        ("number(total(where(tanks, 'capacity'), 'capacity'), 'L')", 420),
        ("number(total(engines, 'power'), 'kW')", 82),
        ("total(where(tanks, 'holds', 'water'), 'capacity')", 0),
        ("each(engines, 'fuel')", ["diesel", "petrol"]),
        # two of them hold fuel; of `zone` one is told, and the two that don't tell count as one each
        ("different(tanks, 'holds')", 2),
        ("different(tanks, 'zone')", 3),
        ("different(heads, 'tank')", 2),
        ("different(engines, 'name')", 2),
        # extremes and rounding
        ("least(3, 1, 2)", 1),
        ("least([3, 1, 2])", 1),
        ("greatest(3, 1)", 3),
        ("greatest([3, 4, 1])", 4),
        ("number(greatest(q('1 m'), q('2 ft')), 'm')", 1),
        ("least(5)", 5),
        ("rounded(2.6)", 3),
        ("rounded(2.4)", 2),
        ("rounded(17, 5)", 15),
        ("rounded(18, 5)", 20),
        ("number(rounded(q('1.26 m'), q('10 cm')), 'cm')", 130),
        ("rounded_up(2.0)", 2),
        ("rounded_up(2.0000001)", 3),
        ("rounded_down(3.0)", 3),
        ("rounded_down(2.9999999)", 2),
        # 0.1 + 0.2 is 0.30000000000000004 in a machine; ten times that is still three
        ("rounded_up((0.1 + 0.2) * 10)", 3),
        ("rounded_down((0.1 + 0.7) * 10)", 8),
        ("rounded_up(q('1 m') / q('40 cm'))", 3),
        ("rounded_down(q('1 m') / q('40 cm'))", 2),
        ("rounded_up(q('150 %'))", 2),
        ("rounded_down(q('150 %'))", 1),
        ("number(q('2 ft'), 'in')", pytest.approx(24)),
        ("text(q('3 m'))", "3 m"),
        ("text(3)", "3"),
        ("stated(head.tank.name)", "holding"),
        ("'a' ~ 1 ~ true", "a1yes"),
    ],
)  # fmt: skip
def test_an_expression_gives_its_value(scope: Scope, text: str, value: object) -> None:
    found = evaluate(text, scope)
    assert found == value
    assert isinstance(found, bool) == isinstance(value, bool)


@pytest.mark.parametrize(
    "text",
    [
        "tanks[true]", "tanks['a']", "head[0]", "trial.date.hour", "head.colour", "'a'.b", "[1] * [2]", "true + 1",
        "1 + 'a'", "head + 1", "1 < q('1 m')", "q('1 m') < 1", "trial.date < 3", "3 < trial.date", "age(vessel.hull)",
        "age('a')", "year('a')", "number(3, 'm')", "where(3, 'name')", "where([3], 'name')", "hull_speed(1, 2, 3)", "hull_speed()",
        "hull_speed(q('9 m'), fineness=1)", "stated(1, 2)", "greatest([])", "rounded(1, 0)", "rounded(1, -1)",
        "q('1 parsec')", "q('one')", "[1 / 0]", "1e308 + 1e308", "-1e308 - 1e308", "nobody(1)",
    ],
)  # fmt: skip
def test_what_has_no_value_is_refused(scope: Scope, text: str) -> None:
    with pytest.raises(ExpressionError):
        evaluate(text, scope)


@pytest.mark.parametrize(
    "text",
    [
        "tanks[2].capacity + 1", "1 + tanks[2].capacity", "tanks[2].capacity > q('1 L')", "q('1 L') > tanks[2].capacity",
        "-tanks[2].capacity", "+tanks[2].capacity", "total(tanks, 'capacity')", "each(tanks, 'capacity')",
        "least(1, tanks[2].capacity)", "rounded(tanks[2].capacity)", "rounded_up(tanks[2].capacity)", "rounded_down(tanks[2].capacity)",
        "number(tanks[2].capacity, 'L')", "text(tanks[2].capacity)", "age(tanks[2].capacity)", "year(tanks[2].capacity)",
        "hull_speed(tanks[2].capacity)",
    ],
)  # fmt: skip
def test_what_the_spec_leaves_out_is_needed_by_name(scope: Scope, text: str) -> None:
    with pytest.raises(MissingInput) as found:
        evaluate(text, scope)
    assert found.value.missing.path == ("tanks", 2, "capacity")


#: How many values each function takes, as rulepacks/README writes its calls.
COUNTS = {
    "q": (1, 1), "count": (1, 1), "first": (1, 1), "total": (2, 2), "each": (2, 2), "different": (2, 2), "age": (1, 1),
    "year": (1, 1), "rounded": (1, 2), "rounded_up": (1, 1), "rounded_down": (1, 1), "number": (2, 2), "text": (1, 1), "stated": (1, 1),
    "where": (2, 12), "least": (1, 12), "greatest": (1, 12),
}  # fmt: skip


def said(text: str, scope: Scope) -> str:
    try:
        return str(evaluate(text, scope))
    except ExpressionError as error:
        return str(error)


@pytest.mark.parametrize("name", COUNTS)
def test_a_function_takes_so_many_values_and_no_other_number(scope: Scope, name: str) -> None:
    fewest, most = COUNTS[name]
    for count in (fewest - 1, most + 1):
        with pytest.raises(ExpressionError, match="wrong number of values"):
            evaluate(f"{name}({', '.join(['1'] * count)})", scope)
    for count in {fewest, most}:
        assert "wrong number of values" not in said(f"{name}({', '.join(['1'] * count)})", scope)
    with pytest.raises(ExpressionError, match="wrong number of values"):
        evaluate(f"{name}({', '.join(['1'] * fewest)}, more=1)", scope)


def test_a_filter_is_the_function_with_what_stands_before_it_as_its_first_value(scope: Scope) -> None:
    assert evaluate("tanks|where('holds', 'fuel')|count", scope) == 2
    assert evaluate("17|rounded(5)", scope) == 15


def test_a_formula_takes_values_by_place_and_by_name_and_notes_its_call(scope: Scope) -> None:
    # hull speed in knots: 1.34 × √(36 ft) = 8.04 (the rule of thumb of every handbook)
    for text in ("hull_speed(q('36 ft'))", "hull_speed(length_waterline=q('36 ft'))"):
        assert number_in(evaluate(text, scope), "knot") == pytest.approx(8.04, abs=0.02)
    assert [call.name for call in scope.calls] == ["hull_speed", "hull_speed"]
    assert [list(call.inputs) for call in scope.calls] == [["length_waterline"], ["length_waterline"]]
    with pytest.raises(ExpressionError, match="called without length_waterline"):
        evaluate("hull_speed()", scope)


def test_more_names_are_bound_beside_those_there_are_and_calls_are_noted_in_one_list(scope: Scope) -> None:
    inner = scope.with_bound(point=registry.Quantity(36, "foot"))
    evaluate("hull_speed(point)", inner)
    assert evaluate("head.tank.name", inner) == "holding"
    assert len(scope.calls) == 1


@pytest.mark.parametrize(
    ("condition", "true"),
    [
        (None, True), (True, True), (False, False), ("1 < 2", True), ("2 < 1", False), ("tanks[2].capacity > q('1 L')", False),
        ("hull_speed(q('0 m')) > q('1 kn')", False), ("head.flush_volume", True), ("other.flush_volume", False),
    ],
)  # fmt: skip
def test_a_condition_on_what_has_no_value_is_not_met(
    scope: Scope, condition: str | bool | None, true: bool
) -> None:
    assert holds(condition, scope) is true


@pytest.mark.parametrize(
    ("text", "shown"),
    [
        ("plain", "plain"),
        ("{{ head }} and {{ other }}", "forward head and aft head"),
        ("{{ 1 == 1 }}, {{ 1 == 2 }}", "yes, no"),
        ("{{ [1, head] }}", "1, forward head"),
        ("{{ tanks[2].capacity * 2 }} or {{ hull_speed(q('0 m')) }}", "– or –"),
        ("{{ tanks[2].capacity }}", "–"),
        ("{{ 0.5 }}", "0.5"),
    ],
)
def test_text_shows_what_people_read(scope: Scope, text: str, shown: str) -> None:
    assert render(text, scope) == shown


@pytest.mark.parametrize("text", ["{{ 1 / 0 }}", "{{ q('1 m') + q('1 V') }}", "{{ rounded(1e308, 1e-9) }}"])
def test_text_with_a_part_that_has_no_value_is_refused(scope: Scope, text: str) -> None:
    with pytest.raises(ExpressionError):
        render(text, scope)


def test_values_are_written_in_the_units_that_are_asked_for(scope: Scope) -> None:
    # 1 m = 3.28 ft
    assert show(registry.Quantity(1.0, "metre"), "us").startswith("3.28")
    assert show([registry.Quantity(1.0, "metre")], "us").startswith("3.28")
    us = Scope(scope.facts, scope.bound, "us")
    assert "ft" in render("{{ vessel.length_hull }}", us)
    assert "ft" in evaluate("'L ' ~ vessel.length_hull", us)


def test_a_joined_text_has_an_end(scope: Scope) -> None:
    long = scope.with_bound(long="a" * 5_000)
    assert len(evaluate("long ~ long", long)) == 10_000
    with pytest.raises(ExpressionError, match="longer"):
        evaluate("long ~ long ~ 1", long)


def test_what_was_read_before_is_still_noted_beside_what_is_stated(scope: Scope) -> None:
    scope.facts.assumed[("vessel", "beam")] = Assumed(registry.Quantity(4, "m"), "a guess", "common-practice")
    scope.facts.start_notes()
    value = evaluate("vessel.length_hull if stated(vessel.beam) else stated(head.flush_volume)", scope)
    assert number_in(value, "L") == 3
    assert {read.key for read in scope.facts.notes()} == {"vessel.beam", "heads[1].flush_volume"}
    found = evaluate("stated(vessel.beam)", scope)
    assert isinstance(found, Missing)
    assert found.path == ("vessel", "beam")


def test_a_number_is_taken_in_its_unit_and_a_quantity_changed_to_it() -> None:
    assert number_in(3, "m") == 3
    assert number_in(registry.Quantity(3, "cm"), "m") == pytest.approx(0.03)
    with pytest.raises(MissingInput):
        number_in(Missing(("vessel", "beam")), "m")
    with pytest.raises(ExpressionError):
        number_in(float("inf"), "m")


@pytest.mark.parametrize(
    ("text", "sound"),
    [
        ("vessel.beam / 2", True), ("vessel.beam / 0", False), ("vessel.beam / (3 - 3)", False), ("2 / vessel.beam", True),
        ("vessel.beam / count(engines)", True), ("rounded(vessel.beam, q('1 cm'))", True), ("rounded(vessel.beam, q('0 cm'))", False),
        ("rounded(vessel.beam, -1)", False), ("rounded(vessel.beam, 1)", True), ("rounded(vessel.beam)", True),
        ("rounded(vessel.beam, vessel.draught)", True), ("hull_speed(q('0 m'))", False), ("hull_speed(q('9 m'))", True),
        ("[1, least([])]", False), ("first([])", True), ("vessel.beam > 1e999", False), ("least(vessel.beam, least([]))", False),
        ("total(engines, 'power')", True), ("age(2009)", True), ("hull_speed(length_waterline=q('0 m'))", False), ("vessel.beam|rounded(1 / 0)", False),
        ("first([]) / 2 > vessel.beam", True), ("vessel.beam > 3 > 1 / 0", False),
    ],
)  # fmt: skip
def test_what_is_the_same_for_every_boat_must_have_a_value(text: str, sound: bool) -> None:
    if sound:
        require_values(parse_expression(text))
    else:
        with pytest.raises(ExpressionError):
            require_values(parse_expression(text))
