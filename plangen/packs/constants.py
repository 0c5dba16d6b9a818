"""What an expression holds that is the same for every boat has to have a value; it is worked out without any."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from typing import Any

from jinja2 import nodes

from plangen.formulas import FORMULAS, OutOfRange
from plangen.packs.evaluate import Scope, evaluate_node, truth
from plangen.packs.facts import Facts, Missing
from plangen.packs.functions import FUNCTIONS, MissingInput
from plangen.packs.syntax import ExpressionError
from plangen.spec.model import Spec
from plangen.spec.quantity import is_quantity


def require_values(node: nodes.Node) -> None:
    """Raise `ExpressionError` for a part without a value on any boat: a division by zero, a number without end."""
    if _is_constant(node):
        _value_of(node)
        return
    if isinstance(node, nodes.Div) and _is_constant(node.right) and not truth(_value_of(node.right)):
        raise ExpressionError("division by zero")
    if isinstance(node, nodes.Call) and _called(node) == "rounded" and len(node.args) > 1:
        _require_step(node.args[1])
    for child in _parts(node):
        require_values(child)


def _called(node: nodes.Call) -> str:
    return node.node.name if isinstance(node.node, nodes.Name) else ""


def _parts(node: nodes.Node) -> Iterator[nodes.Node]:
    """Yield what a node is made of, without the name that a call begins with."""
    for child in node.iter_child_nodes():
        if not (isinstance(node, nodes.Call) and child is node.node):
            yield (
                child.value
                if isinstance(child, nodes.Keyword)
                else child.expr
                if isinstance(child, nodes.Operand)
                else child
            )


def _is_constant(node: nodes.Node) -> bool:
    if isinstance(node, nodes.Name):
        return False
    if isinstance(node, nodes.Call | nodes.Filter):
        name = _called(node) if isinstance(node, nodes.Call) else node.name
        if not (name in FORMULAS or (name in FUNCTIONS and not FUNCTIONS[name].needs_facts)):
            return False
    return all(_is_constant(part) for part in _parts(node))


@cache
def _no_boat() -> Facts:
    return Facts(Spec.model_construct())


def _value_of(node: nodes.Node) -> Any:
    """Return the value of a constant part; nothing of a boat is read for it."""
    try:
        return evaluate_node(node, Scope(_no_boat()))
    except MissingInput:
        return Missing(("nothing",))
    except OutOfRange as error:
        raise ExpressionError(str(error)) from error


def _require_step(step: nodes.Expr) -> None:
    if _is_constant(step):
        value = _value_of(step)
        if not (value.magnitude if is_quantity(value) else value) > 0:
            raise ExpressionError("rounded to a step that isn't more than nothing")
