"""Reading the expressions of a pack: Jinja2's own grammar, expressions only, held to a short list of forms."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from typing import cast

from jinja2 import TemplateSyntaxError, nodes
from jinja2.parser import Parser
from jinja2.sandbox import ImmutableSandboxedEnvironment

from plangen.packs.parsed import ALLOWED, Parsed

LONGEST = 2_000
DEEPEST = 30

_ENVIRONMENT = ImmutableSandboxedEnvironment(autoescape=False)

#: What texts were read as.
PARSED = Parsed()


class ExpressionError(ValueError):
    """An expression that can't be read, or whose value can't be had."""


@cache
def parse_expression(text: str) -> nodes.Expr:
    """Read an expression, such as `tank.capacity / 4`."""
    (expression,) = PARSED.read(f"={text}", lambda: [_parsed_expression(text)])
    return cast(nodes.Expr, expression)


def _parsed_expression(text: str) -> nodes.Expr:
    if "{{" in text or "}}" in text:
        raise ExpressionError(f"{text!r}: an expression is written without braces here")
    with _faults_of(text):
        parser = Parser(_ENVIRONMENT, text, state="variable")
        expression = parser.parse_expression()
        if not parser.stream.eos:
            raise ExpressionError(
                f"{text!r}: one expression is wanted, found {parser.stream.current.value!r} after it"
            )
    _require_allowed(expression, text, 0)
    return expression


@cache
def parse_text(text: str) -> tuple[nodes.Expr, ...]:
    """Read text with expressions in double braces; the parts follow one another."""
    if "{" not in text:
        return (nodes.TemplateData(text),)
    return PARSED.read(f"'{text}", lambda: _parsed_text(text))


def _parsed_text(source: str) -> list[nodes.Expr]:
    with _faults_of(source):
        template = _ENVIRONMENT.parse(source)
    _require_allowed(template, source, 0)
    parts: list[nodes.Expr] = []
    for output in template.body:
        assert isinstance(output, nodes.Output)
        parts.extend(output.nodes)
    return parts


@contextmanager
def _faults_of(source: str) -> Iterator[None]:
    if len(source) > LONGEST:
        raise ExpressionError(f"an expression of {len(source)} characters; at most {LONGEST}")
    try:
        yield
    except TemplateSyntaxError as error:
        raise ExpressionError(f"{source!r}: {error.message}") from error
    except RecursionError as error:
        raise ExpressionError("an expression nested too deep") from error


def _require_allowed(node: nodes.Node, shown: str, depth: int) -> None:
    if depth > DEEPEST:
        raise ExpressionError(f"{shown[:60]!r}: nested too deep")
    if not isinstance(node, ALLOWED):
        raise ExpressionError(
            f"{shown!r}: {_form(node)} can't be used in a pack; only expressions are allowed"
        )
    if isinstance(node, (nodes.Getattr, nodes.Name)):
        name = node.attr if isinstance(node, nodes.Getattr) else node.name
        if name.startswith("_"):
            raise ExpressionError(f"{shown!r}: {name!r}: a name may not begin with an underscore")
    if isinstance(node, nodes.Call) and (
        not isinstance(node.node, nodes.Name) or node.dyn_args or node.dyn_kwargs
    ):
        raise ExpressionError(f"{shown!r}: only formulas and functions can be called, by their names")
    for child in node.iter_child_nodes():
        if not isinstance(child, nodes.Keyword):
            _require_allowed(child, shown, depth + 1)
        else:
            _require_allowed(child.value, shown, depth + 1)


def _form(node: nodes.Node) -> str:
    return {"Pow": "a power (**)", "Test": "a test (is)", "Slice": "a slice"}.get(
        type(node).__name__,
        f"a statement ({type(node).__name__.lower()})"
        if isinstance(node, nodes.Stmt)
        else type(node).__name__.lower(),
    )


def names_in(expression: nodes.Node) -> Iterator[str]:
    """Yield every bare name that the expression uses, functions included."""
    if isinstance(expression, nodes.Name):
        yield expression.name
    for child in expression.iter_child_nodes():
        yield from names_in(child)
