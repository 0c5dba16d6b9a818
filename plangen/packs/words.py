"""Conditions and sums of a pack in words and figures, for people who don't read expressions."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from jinja2 import nodes
from pydantic import BaseModel

from plangen.formulas import OutOfRange
from plangen.packs.evaluate import Scope, evaluate_node, show, truth
from plangen.packs.facts import Missing
from plangen.packs.functions import MissingInput
from plangen.packs.syntax import ExpressionError, parse_expression
from plangen.packs.values import literal
from plangen.spec.model import Spec
from plangen.spec.shape import shapes

_RELATIONS: Mapping[str, str] = {
    "eq": "is", "ne": "isn't", "lt": "is under", "lteq": "is at most", "gt": "is over", "gteq": "is at least",
    "in": "is", "notin": "isn't",
}  # fmt: skip
_OPPOSITE: Mapping[str, str] = {
    "eq": "ne", "ne": "eq", "lt": "gteq", "gteq": "lt", "gt": "lteq", "lteq": "gt", "in": "notin", "notin": "in",
}  # fmt: skip
_CALLS: Mapping[str, str] = {
    "age": "the age of {}", "year": "the year of {}", "count": "the number of {}", "first": "the first of {}", "stated": "{}, as stated,",
    "rounded": "{}, rounded", "rounded_up": "{}, rounded up", "rounded_down": "{}, rounded down", "number": "{}", "text": "{}",
}  # fmt: skip
_CALLED: Mapping[str, str] = {
    "dc": "the DC system",
    "ac": "the AC system",
    "vessel": "the boat",
    "use": "her use",
}
_SIGNS: Mapping[type[nodes.Node], str] = {nodes.Add: "+", nodes.Sub: "−", nodes.Mul: "×", nodes.Div: "÷"}


def condition_in_words(text: str) -> str:
    """Return a condition as a sentence says it.

    >>> condition_in_words('vessel.condition == "used" and engine.fuel != "electric"')
    "the boat's condition is used and the engine's fuel isn't electric"
    >>> condition_in_words('not vessel.keel or age(vessel.built) > q("20 years")')
    "the boat's keel isn't told, or the age of the boat's built is over 20 years"
    >>> condition_in_words('count(where(tanks, "holds", "black", "grey")) > 0')
    'there are tanks whose holds is black or grey'
    """
    return _truth(parse_expression(text))


def _truth(node: nodes.Node) -> str:
    if isinstance(node, nodes.And):
        return f"{_side(node.left)} and {_side(node.right)}"
    if isinstance(node, nodes.Or):
        return f"{_truth(node.left)}, or {_truth(node.right)}"
    if isinstance(node, nodes.Not):
        return _denied(node.node)
    if isinstance(node, nodes.Compare):
        return _compared(node)
    if isinstance(node, (nodes.Name, nodes.Getattr)):
        return f"the boat has {_plain(node)}" if isinstance(node, nodes.Name) else _is_told(node)
    if isinstance(node, nodes.Call) and _name(node) in ("where", "count"):
        return f"there are {_value(node.args[0] if _name(node) == 'count' else node).removeprefix('the ')}"
    if isinstance(node, nodes.CondExpr):
        return (
            f"{_truth(node.expr1)} if {_truth(node.test)}, otherwise {_truth(node.expr2)}"
            if node.expr2
            else _truth(node.expr1)
        )
    return _value(node)


def _is_told(node: nodes.Getattr) -> str:
    return f"{_value(node)} is yes" if node.attr in _yes_or_no_keys() else f"{_value(node)} is told"


@cache
def _yes_or_no_keys() -> frozenset[str]:
    """Return the keys of the spec that hold yes or no."""

    def within(model: type[BaseModel]) -> Iterator[str]:
        for key, shape in shapes(model).items():
            if shape.scalar is bool:
                yield key
            elif shape.model is not None:
                yield from within(shape.model)

    return frozenset(within(Spec))


def _side(node: nodes.Node) -> str:
    return f"(either {_truth(node)})" if isinstance(node, nodes.Or) else _truth(node)


def _denied(node: nodes.Node) -> str:
    if isinstance(node, nodes.Compare) and len(node.ops) == 1:
        opposite = nodes.Operand(_OPPOSITE[node.ops[0].op], node.ops[0].expr)
        return _compared(nodes.Compare(node.expr, [opposite]))
    if isinstance(node, nodes.Name):
        return f"the boat has no {_plain(node)}"
    if isinstance(node, nodes.Getattr):
        return (
            f"{_value(node)} is no or not told"
            if node.attr in _yes_or_no_keys()
            else f"{_value(node)} isn't told"
        )
    if isinstance(node, nodes.Call) and _name(node) in ("where", "count"):
        return f"there are no {_value(node.args[0] if _name(node) == 'count' else node).removeprefix('the ')}"
    return f"not ({_truth(node)})"


def _compared(node: nodes.Compare) -> str:
    first = node.ops[0]
    counted = isinstance(node.expr, nodes.Call) and _name(node.expr) == "count"
    if counted and len(node.ops) == 1 and isinstance(first.expr, nodes.Const) and first.expr.value == 0:
        assert isinstance(node.expr, nodes.Call)
        listed = _value(node.expr.args[0]).removeprefix("the ")
        return f"there are no {listed}" if first.op in ("eq", "lteq") else f"there are {listed}"
    return " and ".join(
        (f"{_value(node.expr)} " if place == 0 else "") + f"{_RELATIONS[one.op]} {_value(one.expr)}"
        for place, one in enumerate(node.ops)
    )


def _value(node: nodes.Node) -> str:
    if isinstance(node, nodes.Const):
        return "yes" if node.value is True else "no" if node.value is False else str(node.value)
    if isinstance(node, nodes.TemplateData):
        return str(node.data)
    if isinstance(node, nodes.Name):
        return _CALLED.get(node.name, f"the {_plain(node)}")
    if isinstance(node, nodes.Getattr) and node.attr == "name":
        return _value(node.node)  # a thing stands for itself, not for what it is called
    if isinstance(node, nodes.Getattr):
        owner = (
            "the boat"
            if isinstance(node.node, nodes.Name) and node.node.name == "vessel"
            else _value(node.node)
        )
        return f"{owner}'s {node.attr.replace('_', ' ')}"
    if isinstance(node, (nodes.List, nodes.Tuple)):
        return " or ".join(_value(one) for one in node.items)
    if isinstance(node, nodes.Call):
        return _called(node)
    if isinstance(node, (nodes.And, nodes.Or, nodes.Not, nodes.Compare)):
        return f"({_truth(node)})"
    if isinstance(node, nodes.CondExpr):
        otherwise = f", otherwise {_value(node.expr2)}" if node.expr2 is not None else ""
        return f"{_value(node.expr1)} if {_truth(node.test)}{otherwise}"
    if isinstance(node, nodes.Getitem):
        return f"one of {_value(node.node)}"
    if isinstance(node, nodes.Neg):
        return f"−{_value(node.node)}"
    sign = _SIGNS.get(type(node), "")
    if sign and isinstance(node, nodes.BinExpr):
        return f"{_value(node.left)} {sign} {_value(node.right)}"
    return "a value"


def _plain(node: nodes.Name) -> str:
    return node.name.replace("_", " ")


def _name(node: nodes.Call) -> str:
    return node.node.name if isinstance(node.node, nodes.Name) else ""


def _called(node: nodes.Call) -> str:
    name, values = _name(node), [_value(one) for one in node.args]
    if name == "q":
        return values[0]
    if name == "where":
        listed = values[0].removeprefix("the ")
        return (
            f"{listed} whose {values[1].replace('_', ' ')} is {' or '.join(values[2:])}"
            if values[2:]
            else f"{listed} with {values[1].replace('_', ' ')}"
        )
    if name in ("total", "each"):
        return f"the {'sum' if name == 'total' else 'list'} of {values[1].replace('_', ' ')} over {values[0]}"
    if name in ("least", "greatest"):
        return f"the {name} of {', '.join(values)}"
    if name in _CALLS and values:
        return _CALLS[name].format(values[0])
    return f"{name.replace('_', ' ')} of {', '.join(values)}" if values else name.replace("_", " ")


def arithmetic(text: str, scope: Scope) -> str:
    """Return how a value is reckoned, with the boat's own figures in it; nothing where there is nothing to reckon."""
    if literal(text) is not None:
        return ""
    node = parse_expression(text)
    if isinstance(node, (nodes.Const, nodes.Name)):
        return ""
    reckoned = _figures(node, scope)
    outcome = _worked(node, scope)
    return reckoned if outcome in ("", reckoned) else f"{reckoned} = {outcome}"


def _worked(node: nodes.Node, scope: Scope) -> str:
    assert isinstance(node, nodes.Expr)
    try:
        value: Any = evaluate_node(node, scope)
    except (MissingInput, OutOfRange, ExpressionError):
        return ""
    return "" if isinstance(value, (Missing, list)) else show(value, scope.units)


def _figures(node: nodes.Node, scope: Scope) -> str:
    sign = _SIGNS.get(type(node), "")
    if sign and isinstance(node, nodes.BinExpr):
        left, right = node.left, node.right
        return f"{_bracketed(left, node, scope)} {sign} {_bracketed(right, node, scope)}"
    if isinstance(node, nodes.CondExpr):
        chosen = node.expr1 if _holds(node.test, scope) or node.expr2 is None else node.expr2
        return f"{_figures(chosen, scope)} (since {_truth(node.test) if chosen is node.expr1 else _denied(node.test)})"
    if isinstance(node, nodes.Call):
        return _figured_call(node, scope)
    if isinstance(node, (nodes.List, nodes.Tuple)):
        return f"({', '.join(_figures(one, scope) for one in node.items)})"
    if isinstance(node, nodes.Or):
        return _figures(node.left if _worked(node.left, scope) else node.right, scope)
    return _worked(node, scope) or _value(node)


def _figured_call(node: nodes.Call, scope: Scope) -> str:
    name = _name(node)
    if name in ("q", "number", "stated", "total", "count", "where", "first", "age", "year"):
        return _worked(node, scope) or _value(node)
    inside = [_figures(one, scope) for one in node.args]
    inside += [f"{one.key.replace('_', ' ')} {_figures(one.value, scope)}" for one in node.kwargs]
    if name.startswith("rounded"):
        return inside[0]
    return f"{name.replace('_', ' ')} of {', '.join(inside)}"


def _bracketed(node: nodes.Node, outside: nodes.Node, scope: Scope) -> str:
    figures = _figures(node, scope)
    loose = isinstance(node, (nodes.Add, nodes.Sub, nodes.CondExpr)) and not isinstance(outside, nodes.Add)
    return f"({figures})" if loose else figures


def _holds(node: nodes.Node, scope: Scope) -> bool:
    assert isinstance(node, nodes.Expr)
    try:
        return truth(evaluate_node(node, scope))
    except (MissingInput, OutOfRange, ExpressionError):
        return False
