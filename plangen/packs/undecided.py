"""Whether a condition hangs on what the spec leaves open: true, false, or neither until somebody tells."""

from __future__ import annotations

from dataclasses import dataclass

from jinja2 import nodes

from plangen.formulas import OutOfRange
from plangen.packs.evaluate import Scope, evaluate_node, truth
from plangen.packs.facts import Path, Read
from plangen.packs.functions import MissingInput
from plangen.packs.syntax import ExpressionError, parse_expression


@dataclass(frozen=True)
class Outcome:
    """A condition's answer; where it is open, the keys and the sections that would decide it."""

    answer: bool | None
    keys: tuple[Read, ...] = ()
    sections: tuple[Path, ...] = ()


def outcome_of(text: str | None, scope: Scope) -> Outcome:
    """Return whether the condition is true, false or open."""
    if text is None:
        return Outcome(True)
    return _outcome(parse_expression(text), scope)


def _outcome(node: nodes.Expr, scope: Scope) -> Outcome:
    if isinstance(node, nodes.And):
        return _both(_outcome(node.left, scope), _outcome(node.right, scope), False)
    if isinstance(node, nodes.Or):
        return _both(_outcome(node.left, scope), _outcome(node.right, scope), True)
    if isinstance(node, nodes.Not):
        inner = _outcome(node.node, scope)
        return Outcome(None if inner.answer is None else not inner.answer, inner.keys, inner.sections)
    return _plain_outcome(node, scope)


def _both(left: Outcome, right: Outcome, decides: bool) -> Outcome:
    """Return the outcome of two conditions of which one decides alone where its answer is `decides`."""
    if decides in (left.answer, right.answer):
        return Outcome(decides)
    if left.answer is None or right.answer is None:
        open_ones = [one for one in (left, right) if one.answer is None]
        return Outcome(
            None,
            tuple(key for one in open_ones for key in one.keys),
            tuple(section for one in open_ones for section in one.sections),
        )
    return Outcome(not decides)


def _plain_outcome(node: nodes.Expr, scope: Scope) -> Outcome:
    facts = scope.facts
    facts.start_notes()
    answer: bool | None
    try:
        answer = truth(evaluate_node(node, scope))
    except (MissingInput, OutOfRange, ExpressionError):
        answer = False
    keys = tuple(read for read in facts.notes() if _is_open(read))
    sections = tuple(facts.unsaid)
    return Outcome(None if keys or sections else answer, keys, sections)


def _is_open(read: Read) -> bool:
    """Tell whether the value is one that nobody stated; a yes or no that the spec leaves out counts as open."""
    return read.origin in ("missing", "assumed") or (
        read.origin == "default" and isinstance(read.value, bool)
    )
