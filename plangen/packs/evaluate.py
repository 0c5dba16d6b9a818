"""Working an expression out for one boat. Only the forms that `syntax` lets through are known here."""

from __future__ import annotations

import datetime
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from math import isclose, isfinite
from typing import Any

from jinja2 import nodes
from pint.errors import PintError

from plangen.formulas import FORMULAS, Formula, OutOfRange
from plangen.formulas.declare import DATE, TEXT
from plangen.packs.facts import Facts, Missing, Subject
from plangen.packs.functions import FUNCTIONS, MissingInput, need
from plangen.packs.syntax import ExpressionError, parse_expression, parse_text
from plangen.spec.quantity import UnitSystem, amount_in, is_quantity, number_text, quantity_of, quantity_text
from plangen.spec.shape import shapes

_WITHOUT_VALUE = (PintError, ZeroDivisionError, OverflowError)


@dataclass(frozen=True)
class FormulaCall:
    """One use of a trade formula: its name, its inputs and what came out."""

    name: str
    inputs: Mapping[str, Any]
    result: Any


@dataclass
class Scope:
    """What an expression may name: the spec's keys, bound items, functions and formulas."""

    facts: Facts
    bound: Mapping[str, Any] = field(default_factory=dict)
    units: UnitSystem = "metric"
    calls: list[FormulaCall] = field(default_factory=list)

    def with_bound(self, **more: Any) -> Scope:
        """Return the same scope with more names bound; formula calls go to the same list."""
        return Scope(self.facts, {**self.bound, **more}, self.units, self.calls)


def evaluate(text: str, scope: Scope) -> Any:
    """Return the value of an expression.

    Raises `MissingInput` where the spec leaves out what is needed, `OutOfRange` where a formula doesn't
    hold, and `ExpressionError` for what has no value, such as a division by zero.
    """
    try:
        return _value(parse_expression(text), scope)
    except _WITHOUT_VALUE as error:
        raise _named(text, error) from error


def evaluate_node(node: nodes.Node, scope: Scope) -> Any:
    """Return the value of an expression that has been read already; see `evaluate`."""
    try:
        return _value(node, scope)
    except _WITHOUT_VALUE as error:
        raise ExpressionError(str(error)) from error


def holds(text: str | bool | None, scope: Scope) -> bool:
    """Tell whether a condition is true; a condition on what the spec leaves out is not."""
    if text is None or isinstance(text, bool):
        return text is not False
    try:
        value = evaluate(text, scope)
    except (MissingInput, OutOfRange):
        return False
    return truth(value)


def render(text: str, scope: Scope) -> str:
    """Return the text with every expression in it worked out; a missing value shows as a dash."""
    if "{" not in text:
        return text
    parts = []
    for part in parse_text(text):
        if isinstance(part, nodes.TemplateData):
            parts.append(part.data)
            continue
        try:
            parts.append(show(_value(part, scope), scope.units))
        except (MissingInput, OutOfRange):
            parts.append("–")
        except _WITHOUT_VALUE as error:
            raise _named(text, error) from error
    return "".join(parts)


def _named(text: str, error: Exception) -> ExpressionError:
    if isinstance(error, ZeroDivisionError):
        return ExpressionError(f"{text!r}: division by zero")
    return ExpressionError(f"{text!r}: {'too large' if isinstance(error, OverflowError) else error}")


def show(value: Any, units: UnitSystem = "metric") -> str:
    """Write a value for people."""
    if isinstance(value, Missing):
        return "–"
    if is_quantity(value):
        return quantity_text(value, units)
    if isinstance(value, Subject):
        return value.name
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return number_text(value)
    if isinstance(value, list):
        return ", ".join(show(item, units) for item in value)
    return str(value)


def finite(value: Any) -> Any:
    """Return a number or quantity, or raise `ExpressionError` where it is without end or no number at all."""
    if not isfinite(value.magnitude if is_quantity(value) else value):
        raise ExpressionError("too large")
    return value


def truth(value: Any) -> bool:
    """Tell whether a value counts as true; a quantity does unless it is zero."""
    if is_quantity(value):
        return bool(value.magnitude)
    return bool(value)


def _value(node: nodes.Node, scope: Scope) -> Any:
    return _HANDLERS[type(node)](node, scope)


def _const(node: nodes.Const, scope: Scope) -> Any:
    value = node.value
    return finite(value) if isinstance(value, float) else value


def _data(node: nodes.TemplateData, scope: Scope) -> Any:
    return node.data


def _name(node: nodes.Name, scope: Scope) -> Any:
    if node.name in scope.bound:
        return scope.bound[node.name]
    root = scope.facts.root()
    if node.name in shapes(type(root.section)):
        return scope.facts.get(root, node.name)
    raise ExpressionError(f"unknown name {node.name!r}")


def _attribute(node: nodes.Getattr, scope: Scope) -> Any:
    owner = _value(node.node, scope)
    if isinstance(owner, Missing):
        return owner
    if isinstance(owner, Subject):
        if node.attr in shapes(type(owner.section)):
            return scope.facts.get(owner, node.attr)
        raise ExpressionError(f"{owner.name!r} has no key {node.attr!r}")
    if isinstance(owner, datetime.date) and node.attr in ("year", "month", "day"):
        return getattr(owner, node.attr)
    raise ExpressionError(f"{node.attr!r} can't be looked up here")


def _index(node: nodes.Getitem, scope: Scope) -> Any:
    owner, index = _value(node.node, scope), _value(node.arg, scope)
    if isinstance(owner, list) and isinstance(index, int) and not isinstance(index, bool):
        return owner[index] if -len(owner) <= index < len(owner) else Missing(("nothing",))
    raise ExpressionError("only a list can be indexed, by a whole number")


def _call(node: nodes.Call, scope: Scope) -> Any:
    assert isinstance(node.node, nodes.Name)
    if node.node.name == "stated" and len(node.args) == 1 and not node.kwargs:
        return _stated(node.args[0], scope)
    arguments = [_value(argument, scope) for argument in node.args]
    named = {keyword.key: _value(keyword.value, scope) for keyword in node.kwargs}
    return _apply(node.node.name, arguments, named, scope)


def _stated(argument: nodes.Expr, scope: Scope) -> Any:
    """Return the value where the spec states all of it, and `Missing` where something in it is only assumed."""
    before, scope.facts.reads = scope.facts.reads, {}
    value = _value(argument, scope)
    read, scope.facts.reads = scope.facts.reads, before | scope.facts.reads
    assumed = next((one.path for one in read.values() if one.origin == "assumed"), None)
    return value if assumed is None else Missing(assumed)


def _filter(node: nodes.Filter, scope: Scope) -> Any:
    assert node.node is not None
    arguments = [_value(node.node, scope), *(_value(argument, scope) for argument in node.args)]
    return _apply(node.name, arguments, {}, scope)


def _apply(name: str, arguments: Sequence[Any], named: Mapping[str, Any], scope: Scope) -> Any:
    if name in FUNCTIONS:
        function = FUNCTIONS[name]
        if named or not function.fewest <= len(arguments) <= function.most:
            raise ExpressionError(f"{name} is called with the wrong number of values")
        return function.call(*([scope.facts] if function.needs_facts else []), *arguments)
    if name in FORMULAS:
        return _use_formula(FORMULAS[name], arguments, named, scope)
    raise ExpressionError(f"unknown formula or function {name!r}")


def _use_formula(formula: Formula, arguments: Sequence[Any], named: Mapping[str, Any], scope: Scope) -> Any:
    given = {**dict(zip(formula.units, arguments, strict=False)), **named}
    plain = {name: _plain(formula, name, need(value)) for name, value in given.items()}
    missing = [name for name in formula.required if name not in plain]
    if missing or len(arguments) > len(formula.units):
        raise ExpressionError(f"{formula.name} is called without {', '.join(missing) or 'order'}")
    outcome: Any = formula.function(**plain)
    for one in outcome if isinstance(outcome, (list, tuple)) else [outcome]:
        if isinstance(one, float):
            finite(one)
    result: Any = outcome
    if formula.returns not in (TEXT, DATE, "dimensionless"):
        result = (
            [quantity_of(x, formula.returns) for x in outcome]
            if isinstance(outcome, (list, tuple))
            else quantity_of(outcome, formula.returns)
        )
    scope.calls.append(FormulaCall(formula.name, given, result))
    return result


def _plain(formula: Formula, name: str, value: Any) -> Any:
    unit = formula.units.get(name)
    if unit is None:
        raise ExpressionError(f"{formula.name} has no argument {name!r}")
    if unit in (TEXT, DATE):
        return value
    if isinstance(value, list):
        return [_magnitude(item, unit) for item in value]
    return _magnitude(value, unit)


def _magnitude(value: Any, unit: str) -> float:
    if is_quantity(value):
        return amount_in(value, unit)
    return float(value)


def _binary(node: Any, scope: Scope) -> Any:
    left, right = need(_value(node.left, scope)), need(_value(node.right, scope))
    operation = type(node)
    if isinstance(left, list) or isinstance(right, list):
        return _elementwise(operation, left, right)
    return _operate(operation, left, right)


def _elementwise(operation: type[nodes.Node], left: Any, right: Any) -> list[Any]:
    if isinstance(left, list) and isinstance(right, list):
        if operation is nodes.Add:
            return [*left, *right]
        raise ExpressionError("two lists can only be added")
    if isinstance(left, list):
        return [_operate(operation, item, right) for item in left]
    return [_operate(operation, left, item) for item in right]


def _operate(operation: type[nodes.Node], left: Any, right: Any) -> Any:
    for value in (left, right):
        if isinstance(value, (str, bool, Subject)) or not (
            is_quantity(value) or isinstance(value, (int, float))
        ):
            raise ExpressionError(f"{show(value)!r} is no number or quantity")
    if operation is nodes.Add:
        return finite(left + right)
    if operation is nodes.Sub:
        return finite(left - right)
    if operation is nodes.Mul:
        return finite(left * right)
    return finite(left / right)


def _compare(node: nodes.Compare, scope: Scope) -> bool:
    left = _value(node.expr, scope)
    for operand in node.ops:
        right = _value(operand.expr, scope)
        if not _relation(operand.op, left, right):
            return False
        left = right
    return True


def _relation(operator: str, left: Any, right: Any) -> bool:
    if operator in ("in", "notin"):
        names = (
            [item.name if isinstance(item, Subject) else item for item in right]
            if isinstance(right, list)
            else right
        )
        inside = (
            (left.name if isinstance(left, Subject) else left) in names
            if not isinstance(names, Missing)
            else False
        )
        return inside if operator == "in" else not inside
    if operator in ("eq", "ne"):
        same = (
            False
            if isinstance(left, Missing) or isinstance(right, Missing)
            else bool(_comparable(left) == _comparable(right))
        )
        return same if operator == "eq" else not same
    left, right = need(left), need(right)
    if is_quantity(left) != is_quantity(right):
        raise ExpressionError("a quantity can't be compared with a plain number")
    return ordered(operator, left, right)


def ordered(operator: str, left: Any, right: Any) -> bool:
    """Compare two numbers or quantities; what differs only by the rounding of a unit conversion is equal.

    So 19.812 m is not more than 65 ft, and a limit of a law holds in whichever unit a length is written.
    """
    if is_quantity(left) and is_quantity(right):
        left, right = float(left.magnitude), float(right.to(left.units).magnitude)
    if isinstance(left, float) and isinstance(right, float) and isclose(left, right, rel_tol=1e-12):
        return operator in ("lteq", "gteq")
    if isinstance(left, datetime.date) != isinstance(right, datetime.date):
        raise ExpressionError(
            f"{show(left)} can't be compared with {show(right)}; `year(…)` makes a number of a date"
        )
    return bool(
        {"lt": left < right, "lteq": left <= right, "gt": left > right, "gteq": left >= right}[operator]
    )


def _comparable(value: Any) -> Any:
    return value.name if isinstance(value, Subject) else value


def _and(node: nodes.And, scope: Scope) -> bool:
    return truth(_value(node.left, scope)) and truth(_value(node.right, scope))


def _or(node: nodes.Or, scope: Scope) -> Any:
    left = _value(node.left, scope)
    return left if truth(left) else _value(node.right, scope)


def _not(node: nodes.Not, scope: Scope) -> bool:
    return not truth(_value(node.node, scope))


def _negative(node: nodes.Neg, scope: Scope) -> Any:
    value = need(_value(node.node, scope))
    return -value


def _positive(node: nodes.Pos, scope: Scope) -> Any:
    return need(_value(node.node, scope))


def _choice(node: nodes.CondExpr, scope: Scope) -> Any:
    if truth(_value(node.test, scope)):
        return _value(node.expr1, scope)
    return _value(node.expr2, scope) if node.expr2 is not None else Missing(("nothing",))


def _list(node: nodes.List | nodes.Tuple, scope: Scope) -> list[Any]:
    return [_value(item, scope) for item in node.items]


def _concat(node: nodes.Concat, scope: Scope) -> str:
    text = "".join(show(_value(part, scope), scope.units) for part in node.nodes)
    if len(text) > 10_000:
        raise ExpressionError("a text longer than 10000 characters")
    return text


_HANDLERS: dict[type[nodes.Node], Any] = {
    nodes.Const: _const, nodes.TemplateData: _data, nodes.Name: _name, nodes.Getattr: _attribute, nodes.Getitem: _index,
    nodes.Call: _call, nodes.Filter: _filter, nodes.Compare: _compare, nodes.And: _and, nodes.Or: _or, nodes.Not: _not,
    nodes.Add: _binary, nodes.Sub: _binary, nodes.Mul: _binary, nodes.Div: _binary, nodes.Neg: _negative,
    nodes.Pos: _positive, nodes.CondExpr: _choice, nodes.List: _list, nodes.Tuple: _list, nodes.Concat: _concat,
}  # fmt: skip


def number_in(value: Any, unit: str) -> float:
    """Return the value as a number of the unit; a plain number is taken to be in it already."""
    value = need(value)
    number = amount_in(value, unit) if is_quantity(value) else float(value)
    finite(number)
    return number
