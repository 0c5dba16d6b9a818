"""What kind of value an expression has, found without any boat: names, keys, units and choices are all held to the models."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from jinja2 import nodes

from plangen.formulas import FORMULAS, Formula
from plangen.formulas.declare import DATE, TEXT
from plangen.packs.constants import require_values
from plangen.packs.functions import FUNCTIONS
from plangen.packs.syntax import parse_expression, parse_text
from plangen.packs.types import (
    ANY,
    DAY,
    FLAG,
    NUMBER,
    TEXT_TYPE,
    Names,
    Type,
    TypeFault,
    attribute_type,
    quantity_type,
    same_kind,
    type_of_shape,
)
from plangen.packs.usage import note_formula, note_key
from plangen.spec.model import Spec
from plangen.spec.problems import name_list, nearest_name
from plangen.spec.quantity import (
    QuantityError,
    is_unit_label,
    parse_quantity,
    registry,
    unit_from_label,
)
from plangen.spec.shape import shapes


def infer_expression(text: str, names: Names) -> Type:
    """Return the type of an expression, or raise `TypeFault` or `ExpressionError`."""
    node = parse_expression(text)
    found = _infer(node, names)
    require_values(node)
    return found


def infer_text(text: str, names: Names) -> None:
    """Check every expression that stands in a text."""
    for part in parse_text(text):
        _infer(part, names)
        require_values(part)


def _infer(node: nodes.Node, names: Names) -> Type:
    handler = _HANDLERS.get(type(node))
    if handler is None:
        raise TypeFault(f"{type(node).__name__.lower()} can't be used here")
    found: Type = handler(node, names)
    return found


def _const(node: nodes.Const, names: Names) -> Type:
    value = node.value
    if isinstance(value, bool):
        return FLAG
    if isinstance(value, (int, float)):
        return NUMBER
    return TEXT_TYPE if isinstance(value, str) else ANY


def _data(node: nodes.TemplateData, names: Names) -> Type:
    return TEXT_TYPE


def _name(node: nodes.Name, names: Names) -> Type:
    if node.name in names:
        return names[node.name]
    known = [*names, *shapes(Spec)]
    if node.name in shapes(Spec):
        note_key(Spec.__name__, node.name)
        return type_of_shape(shapes(Spec)[node.name])
    raise TypeFault(f"unknown name {node.name!r}", name_list(known, 60), nearest_name(node.name, known))


def _attribute(node: nodes.Getattr, names: Names) -> Type:
    return attribute_type(_infer(node.node, names), node.attr)


def _index(node: nodes.Getitem, names: Names) -> Type:
    owner = _infer(node.node, names)
    if owner.word != "list" or owner.element is None:
        raise TypeFault(f"{owner} can't be indexed")
    if _infer(node.arg, names).word != "number":
        raise TypeFault("a list is indexed by a whole number")
    return owner.element


def _call(node: nodes.Call, names: Names) -> Type:
    assert isinstance(node.node, nodes.Name)
    return _apply(
        node.node.name, list(node.args), {keyword.key: keyword.value for keyword in node.kwargs}, names
    )


def _filter(node: nodes.Filter, names: Names) -> Type:
    assert node.node is not None
    return _apply(node.name, [node.node, *node.args], {}, names)


def _apply(name: str, arguments: Sequence[nodes.Expr], named: Mapping[str, nodes.Expr], names: Names) -> Type:
    if name in FUNCTIONS:
        return _function(name, arguments, named, names)
    if name not in FORMULAS:
        known = [*FUNCTIONS, *FORMULAS]
        raise TypeFault(
            f"unknown formula or function {name!r}", name_list(sorted(known), 200), nearest_name(name, known)
        )
    note_formula(name)
    formula = FORMULAS[name]
    units = list(formula.units)
    if len(arguments) > len(units):
        raise TypeFault(f"{name} takes {len(units)} values, {len(arguments)} are given", ", ".join(units))
    given: dict[str, nodes.Expr] = dict(zip(units, arguments, strict=False))
    for key, value in named.items():
        if key not in formula.units:
            raise TypeFault(f"{name} has no argument {key!r}", ", ".join(units), nearest_name(key, units))
        if key in given:
            raise TypeFault(f"{name} is given {key!r} twice")
        given[key] = value
    missing = [key for key in formula.required if key not in given]
    if missing:
        raise TypeFault(f"{name} is called without {', '.join(missing)}")
    for key, value in given.items():
        _check_argument(formula, key, _infer(value, names))
    if formula.returns in (TEXT, DATE):
        return TEXT_TYPE if formula.returns == TEXT else DAY
    return quantity_type(formula.returns)


def _check_argument(formula: Formula, key: str, found: Type) -> None:
    unit = formula.units[key]
    wanted = TEXT_TYPE if unit == TEXT else DAY if unit == DATE else quantity_type(unit)
    one = found.element if found.word == "list" and found.element is not None else found
    fraction = wanted == NUMBER and one.word == "quantity" and not one.dimension
    if not (same_kind(wanted, one) or fraction):
        raise TypeFault(
            f"{formula.name}: {key} is {one}",
            f"{wanted}" + (f" ({unit})" if unit not in (TEXT, DATE) else ""),
        )


def _function(
    name: str, arguments: Sequence[nodes.Expr], named: Mapping[str, nodes.Expr], names: Names
) -> Type:
    function = FUNCTIONS[name]
    if named or not function.fewest <= len(arguments) <= function.most:
        raise TypeFault(f"{name} is called with the wrong number of values", function.summary)
    if name == "q":
        literal = arguments[0]
        if not isinstance(literal, nodes.Const):
            raise TypeFault("q wants a quantity in quotes", function.summary)
        try:
            return quantity_type(str(parse_quantity(literal.value).units))
        except QuantityError as error:
            raise TypeFault(error.found, error.accepted) from error
    types = [_infer(argument, names) for argument in arguments]
    if name in ("where", "total", "each", "different"):
        return _over_items(name, arguments, types, names)
    if name in ("count", "first"):
        if types[0].word not in ("list", "any"):
            raise TypeFault(f"{name} wants a list, found {types[0]}")
        return NUMBER if name == "count" else types[0].element or ANY
    if name in ("least", "greatest"):
        if isinstance(arguments[0], nodes.List) and not arguments[0].items:
            raise TypeFault(f"the {name} of nothing", function.summary)
        elements = [t.element if t.word == "list" and t.element else t for t in types]
        for other in elements[1:]:
            if not same_kind(elements[0], other):
                raise TypeFault(f"{name} of {elements[0]} and {other}")
        return elements[0]
    if name in ("age", "year"):
        if types[0].word not in ("date", "date-or-year", "number", "any"):
            raise TypeFault(f"{name} wants a date or a year, found {types[0]}")
        return quantity_type("year") if name == "age" else NUMBER
    if name == "rounded":
        if len(types) > 1 and not same_kind(types[0], types[1]):
            raise TypeFault(f"rounded: a step that is {types[1]} for {types[0]}")
        return types[0]
    if name == "stated":
        return types[0]
    if name == "number":
        if types[0].word not in ("quantity", "any"):
            raise TypeFault(f"number wants a quantity, found {types[0]}")
        _check_counted_in(types[0], arguments[1])
        return NUMBER
    return NUMBER if name in ("rounded_up", "rounded_down") else TEXT_TYPE


def _check_counted_in(found: Type, unit: nodes.Expr) -> None:
    summary = FUNCTIONS["number"].summary
    if not isinstance(unit, nodes.Const) or not is_unit_label(str(unit.value)):
        raise TypeFault("number wants a unit in quotes", summary)
    wanted = quantity_type(unit_from_label(str(unit.value)))
    if not same_kind(found, wanted):
        raise TypeFault(f"{found} counted in {unit.value}", summary)


def _over_items(name: str, arguments: Sequence[nodes.Expr], types: Sequence[Type], names: Names) -> Type:
    items, key = types[0], arguments[1]
    if items.word != "list" or items.element is None:
        raise TypeFault(f"{name} wants a list, found {items}")
    if not isinstance(key, nodes.Const) or not isinstance(key.value, str):
        raise TypeFault(f"{name} wants a key in quotes", FUNCTIONS[name].summary)
    value = items.element
    for step in key.value.split("."):
        value = attribute_type(value, step)
    if name == "where":
        for wanted in arguments[2:]:
            _check_choice(value, wanted)
        return items
    if name == "different":
        return NUMBER
    return value if name == "total" else Type("list", element=value)


def _check_choice(left: Type, right: nodes.Node) -> None:
    if not left.choices or not isinstance(right, nodes.Const) or not isinstance(right.value, str):
        return
    if right.value not in left.choices:
        raise TypeFault(
            f"{right.value!r} is never its value",
            name_list(left.choices, 40),
            nearest_name(right.value, left.choices),
        )


def _binary(node: Any, names: Names) -> Type:
    left, right = _infer(node.left, names), _infer(node.right, names)
    operation = type(node)
    if "list" in (left.word, right.word):
        if left.word == right.word == "list":
            if operation is nodes.Add and same_kind(left, right):
                return left
            raise TypeFault("two lists can only be added, and only of the same kind")
        first = left.element if left.word == "list" else left
        second = right.element if right.word == "list" else right
        return Type("list", element=_operate(operation, first or ANY, second or ANY))
    return _operate(operation, left, right)


_SIGNS: dict[type[nodes.Node], str] = {nodes.Add: "+", nodes.Sub: "-", nodes.Mul: "*", nodes.Div: "/"}


def _operate(operation: type[nodes.Node], left: Type, right: Type) -> Type:
    if "any" in (left.word, right.word):
        return ANY
    for side in (left, right):
        if side.word not in ("number", "quantity"):
            raise TypeFault(f"{side} can't be reckoned with", "a plain number or a quantity")
    if operation in (nodes.Add, nodes.Sub):
        if not same_kind(left, right):
            raise TypeFault(f"{left} {_SIGNS[operation]} {right}", "two values of the same kind")
        return left
    one = left.dimension if left.word == "quantity" else registry.Unit("dimensionless").dimensionality
    two = right.dimension if right.word == "quantity" else registry.Unit("dimensionless").dimensionality
    dimension = one * two if operation is nodes.Mul else one / two
    return Type("quantity", dimension=dimension) if dimension else NUMBER


def _compare(node: nodes.Compare, names: Names) -> Type:
    left, left_node = _infer(node.expr, names), node.expr
    for operand in node.ops:
        right = _infer(operand.expr, names)
        if operand.op in ("in", "notin"):
            choices = operand.expr.items if isinstance(operand.expr, (nodes.List, nodes.Tuple)) else []
            for choice in choices:
                _check_choice(left, choice)
        else:
            _check_choice(left, operand.expr)
            _check_choice(right, left_node)
            if not same_kind(left, right):
                raise TypeFault(f"{left} compared with {right}", "two values of the same kind")
        left, left_node = right, operand.expr
    return FLAG


def _logic(node: Any, names: Names) -> Type:
    left, right = _infer(node.left, names), _infer(node.right, names)
    if isinstance(node, nodes.Or):
        return left if same_kind(left, right) else ANY
    return FLAG


def _not(node: nodes.Not, names: Names) -> Type:
    _infer(node.node, names)
    return FLAG


def _sign(node: Any, names: Names) -> Type:
    found = _infer(node.node, names)
    if found.word not in ("number", "quantity", "any"):
        raise TypeFault(f"{found} has no sign")
    return found


def _choice(node: nodes.CondExpr, names: Names) -> Type:
    _infer(node.test, names)
    first = _infer(node.expr1, names)
    if node.expr2 is None:
        return first
    second = _infer(node.expr2, names)
    if not same_kind(first, second):
        raise TypeFault(f"either {first} or {second}", "two values of the same kind")
    return first


def _list(node: nodes.List | nodes.Tuple, names: Names) -> Type:
    types = [_infer(item, names) for item in node.items]
    for other in types[1:]:
        if not same_kind(types[0], other):
            raise TypeFault(f"a list of {types[0]} and {other}", "values of the same kind")
    return Type("list", element=types[0] if types else ANY)


def _concat(node: nodes.Concat, names: Names) -> Type:
    for part in node.nodes:
        _infer(part, names)
    return TEXT_TYPE


_HANDLERS: dict[type[nodes.Node], Any] = {
    nodes.Const: _const, nodes.TemplateData: _data, nodes.Name: _name, nodes.Getattr: _attribute, nodes.Getitem: _index,
    nodes.Call: _call, nodes.Filter: _filter, nodes.Compare: _compare, nodes.And: _logic, nodes.Or: _logic, nodes.Not: _not,
    nodes.Add: _binary, nodes.Sub: _binary, nodes.Mul: _binary, nodes.Div: _binary, nodes.Neg: _sign, nodes.Pos: _sign,
    nodes.CondExpr: _choice, nodes.List: _list, nodes.Tuple: _list, nodes.Concat: _concat,
}  # fmt: skip
