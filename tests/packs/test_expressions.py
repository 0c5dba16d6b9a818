"""Expressions: what they can say, and what they can't reach."""

from __future__ import annotations

import time

import pytest
from hypothesis import given
from hypothesis import strategies as st
from pydantic import TypeAdapter

from plangen.formulas import OutOfRange
from plangen.packs.base import ConditionField
from plangen.packs.evaluate import Scope, evaluate, holds, render
from plangen.packs.facts import Assumed, Facts, Missing, Subject
from plangen.packs.functions import MissingInput
from plangen.packs.inference import infer_expression
from plangen.packs.syntax import ExpressionError
from plangen.packs.types import TypeFault
from plangen.packs.values import literal, value_of
from plangen.spec.quantity import registry
from tests.conftest import spec_from

SPEC = """
vessel: {name: X, hull: sailing-monohull, length_hull: 12 m, built: 2009}
trial: {date: 2027-05-10}
engines: [{name: port, power: 42 kW, fuel: diesel}, {name: starboard, power: 40 kW}]
tanks: [{name: holding, holds: black, capacity: 120 L}, {name: fuel, holds: fuel}]
heads: [{name: forward head, flush_volume: 3 L, tank: holding}]
"""


@pytest.fixture
def scope() -> Scope:
    facts = Facts(spec_from(SPEC).spec)
    head = Subject(facts.spec.heads[0], ("heads", 0))
    return Scope(facts, {"head": head})


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("2 + 3 * 4", 14),
        ("count(engines)", 2),
        ("number(total(engines, 'power'), 'kW')", 82),
        ("head.tank.name", "holding"),
        ("number(head.tank.capacity / head.flush_volume, '%')", 4000),
        ("number(q('46 ft 6 in'), 'ft')", 46.5),
        ("count(where(tanks, 'holds', 'black'))", 1),
        ("engines[0].fuel == 'diesel' and not engines[1].fuel", True),
        ("'stern' if count(engines) > 2 else 'bow'", "bow"),
        ("vessel.hull in ['sailing-monohull', 'sailing-trimaran']", True),
        ("number(age(vessel.built), 'years')", 18),
        ("greatest(1, 3, 2) - least([4, 5])", -1),
        ("rounded_up(2.01) + rounded_down(2.99)", 5),
        ("number(rounded(q('1234 rpm'), q('100 rpm')), 'rpm')", 1200),
        ("engines[1].idle_speed or q('800 rpm') > q('1 rpm')", True),
        ("engines|count", 2),
    ],
)
def test_expressions_give_their_values(scope: Scope, text: str, value: object) -> None:
    assert evaluate(text, scope) == (pytest.approx(value) if isinstance(value, float) else value)


def test_a_list_is_reckoned_element_by_element(scope: Scope) -> None:
    quarters = evaluate("[0.25, 0.5, 0.75, 1.0] * head.tank.capacity", scope)
    assert [q.to("litre").magnitude for q in quarters] == [30, 60, 90, 120]


def test_text_shows_values_with_their_units(scope: Scope) -> None:
    assert render("{{ head.tank.name }} holds {{ head.tank.capacity }}", scope) == "holding holds 120 L"
    assert render("{{ head.tank.vent_bore }}", scope) == "–"


def test_what_the_spec_leaves_out_is_missing_and_named(scope: Scope) -> None:
    with pytest.raises(MissingInput) as found:
        evaluate("tanks[1].capacity * 2", scope)
    assert found.value.missing.path == ("tanks", 1, "capacity")
    assert not holds("tanks[1].capacity > q('1 L')", scope)


def test_every_value_that_is_read_is_noted_with_its_origin(scope: Scope) -> None:
    scope.facts.start_notes()
    evaluate("head.flush_volume", scope)
    holds("head.basin and tanks[1].capacity", scope)
    noted = {read.key: read.origin for read in scope.facts.notes()}
    assert noted == {
        "heads[1].flush_volume": "spec",
        "heads[1].basin": "default",
        "tanks[2].capacity": "missing",
    }


@pytest.mark.parametrize(
    "text",
    [
        "1 / 0",
        "q('1 V') / 0",
        "q('1 V') + q('1 A')",
        "'a' * 3",
        "head.tank + 1",
        "least([])",
        "1e999",
        "number(q('1e300 m'), 'mm') * 1e300",
        "q('1e300 m') * 1e300",
        "1e308 * 10 - 1e308 * 10",
        "rounded(7, 0)",
        "rounded(q('7 m'), q('-1 m'))",
    ],
)
def test_what_has_no_value_is_an_error_with_a_name(scope: Scope, text: str) -> None:
    with pytest.raises(ExpressionError):
        evaluate(text, scope)


def test_a_formula_outside_its_range_says_so(scope: Scope) -> None:
    with pytest.raises(OutOfRange, match="above zero"):
        evaluate("hull_speed(q('0 m'))", scope)


ESCAPES = [
    "vessel.__class__",
    "''.__class__.__mro__",
    "head._section",
    "engines.__init__.__globals__",
    "(1).real.__class__",
    "q.__globals__",
    "total.call",
    "__import__('os')",
    "open('/etc/passwd')",
    "lipsum",
    "self",
    "cycler",
    "range(10)",
    "namespace()",
    "vessel['__class__']",
    "vessel.model_fields_set",
    "vessel.model_dump()",
    "vessel|attr('__class__')",
    "[].append",
    "'x'.format(1)",
    "'%s'|format(1)",
    "head.tank.capacity.magnitude",
    "9**9**9",
    "1 is defined",
    "engines[0:1]",
    "{'a': 1}",
    "x.y(z)",
    "engines[0].name.upper()",
    "config",
    "request.application",
    "joiner()",
]


@pytest.mark.parametrize("text", ESCAPES)
def test_no_expression_reaches_pythons_internals(scope: Scope, text: str) -> None:
    with pytest.raises((ExpressionError, TypeFault)):
        evaluate(text, scope)
    with pytest.raises((ExpressionError, TypeFault)):
        infer_expression(text, {"head": infer_expression("heads[0]", {})})


@pytest.mark.parametrize(
    "text",
    [
        "{% for x in engines %}{% endfor %}",
        "{% set a = 1 %}",
        "{% include 'x' %}",
        "{% import 'os' as os %}",
        "{% macro a() %}{% endmacro %}",
    ],
)
def test_statements_are_refused_in_text(scope: Scope, text: str) -> None:
    with pytest.raises(ExpressionError):
        render(text, scope)


@pytest.mark.parametrize(
    "text",
    [
        "(" * 3000 + "1" + ")" * 3000,
        "1" + "+1" * 5000,
        "-" * 1500 + "1",
        "not " * 400 + "true",
        "[" * 200 + "]" * 200,
    ],
)
def test_no_expression_runs_without_bound(scope: Scope, text: str) -> None:
    start = time.perf_counter()
    with pytest.raises(ExpressionError):
        evaluate(text, scope)
    assert time.perf_counter() - start < 2


@given(st.text(alphabet="abq(){}[]'\"._|%+-*/ 0123456789<>=~,:engines", max_size=60))
def test_whatever_is_written_gives_a_value_or_a_named_error(text: str) -> None:
    facts = Facts(spec_from(SPEC).spec)
    try:
        evaluate(text, Scope(facts))
    except (ExpressionError, OutOfRange):
        return


def test_a_bare_quantity_is_itself_and_all_else_an_expression(scope: Scope) -> None:
    assert literal("0.5 V") is not None
    assert literal("5 + 0.5 * count(engines)") is None
    assert value_of("5 + 0.5 * count(engines)", scope) == 6


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("engnes", "unknown name"),
        ("engines[0].powr", "no key 'powr'"),
        ("engines[0].power + vessel.length_hull", "power"),
        ("engines[0].power > 3", "compared with a plain number"),
        ("engines[0].fuel == 'disel'", "never its value"),
        ("where(tanks, 'holds', 'blak')", "never its value"),
        ("where(tanks, 'hold', 'black')", "no key 'hold'"),
        ("hull_speed(vessel.displacement.light)", "length_waterline is a quantity of mass"),
        ("hull_speed()", "called without length_waterline"),
        ("hull_speed(vessel.length_hull, fineness=1)", "no argument 'fineness'"),
        ("hul_speed(vessel.length_hull)", "unknown formula"),
        ("q('12 parsec')", "the unit 'parsec'"),
        ("[1, q('1 V')]", "a list of"),
        ("engines * 2", "can't be reckoned with"),
        ("vessel.length_hull[0]", "can't be indexed"),
    ],
)
def test_static_checking_finds_what_can_be_right_for_no_boat(text: str, part: str) -> None:
    with pytest.raises(TypeFault) as found:
        infer_expression(text, {})
    assert part in found.value.found + found.value.accepted


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("q('0 m') / q('0 m')", "division by zero"),
        ("number(vessel.length_hull, 'm') / (2 - 2)", "division by zero"),
        ("vessel.length_hull / q('0 m') > 3", "division by zero"),
        ("1 if heads else 1 / 0", "division by zero"),
        ("hull_speed(q('4 m') / 0)", "division by zero"),
        ("number(vessel.length_hull, 'm**9999999')", "a unit in quotes"),
        ("number(vessel.length_hull, 'kg')", "counted in kg"),
        ("rounded(1, 0)", "a step"),
        ("rounded(vessel.length_hull, q('0 m'))", "a step"),
        ("greatest([])", "of nothing"),
        ("1e999", "too large"),
        ("number(vessel.length_hull, 'm') * (1e200 * 1e200)", "too large"),
        ("hull_speed(q('-1 m'))", "above zero"),
    ],
)
def test_static_checking_finds_what_has_a_value_on_no_boat(text: str, part: str) -> None:
    with pytest.raises(ExpressionError) as found:
        infer_expression(text, {})
    assert part in str(found.value)


@pytest.mark.parametrize("word", ["true", "false"])
def test_a_condition_may_be_a_plain_yes_or_no(scope: Scope, word: str) -> None:
    text = TypeAdapter(ConditionField).validate_python(word == "true")
    assert infer_expression(text, {}).word == "flag"
    assert holds(text, scope) is (word == "true")


def test_what_is_only_assumed_is_not_stated(scope: Scope) -> None:
    scope.facts.assumed[("vessel", "beam")] = Assumed(registry.Quantity(4, "m"), "a guess", "common-practice")
    assert evaluate("number(vessel.beam, 'm')", scope) == 4
    assert isinstance(evaluate("stated(vessel.beam)", scope), Missing)
    assert isinstance(evaluate("stated(vessel.length_hull / vessel.beam)", scope), Missing)
    assert evaluate("number(stated(vessel.length_hull), 'm')", scope) == 12
    assert evaluate("'no' if not stated(vessel.beam) else 'yes'", scope) == "no"
