"""Expressions as they were read, kept as plain lists so that another run needn't read them again.

What an expression is read as depends on nothing but its text and the grammar's version, so all packs share one table. A node
that is built from it is of the same few forms that `syntax` lets through.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Sequence
from contextlib import suppress
from hashlib import sha256
from typing import Any

import jinja2
from jinja2 import nodes

from plangen.kept import Kept

#: The forms that an expression may be made of. Whatever is not here can't be written in a pack.
ALLOWED = (
    nodes.Const, nodes.TemplateData, nodes.Name, nodes.Getattr, nodes.Getitem, nodes.Call, nodes.Filter,
    nodes.Compare, nodes.Operand, nodes.And, nodes.Or, nodes.Not, nodes.Add, nodes.Sub, nodes.Mul, nodes.Div,
    nodes.Neg, nodes.Pos, nodes.CondExpr, nodes.List, nodes.Tuple, nodes.Concat, nodes.Output, nodes.Template,
)  # fmt: skip
_FORMS: dict[str, type[nodes.Node]] = {form.__name__: form for form in (*ALLOWED, nodes.Keyword)}
#: Changes where the same text is read as something else, or is written otherwise.
_KEY = sha256(f"parsed expressions, 1: {jinja2.__version__}".encode()).hexdigest()
#: A table with more than this is begun again.
_MOST = 20_000


class Parsed:
    """What texts were read as: in this run, and in runs before it."""

    def __init__(self) -> None:
        """Begin with nothing."""
        self._before: dict[str, str] = {}
        self._new: dict[str, Sequence[nodes.Node]] = {}

    def remember(self, kept: Kept) -> None:
        """Take in what other runs have read."""
        content = kept.get(_KEY) if not self._before else None
        if content is not None:
            self._before = json.loads(content)

    def keep(self, kept: Kept) -> None:
        """Keep what this run has read beyond that."""
        if not self._new or kept.folder is None:
            return
        before = self._before if len(self._before) < _MOST else {}
        new = {
            text: json.dumps([*map(_plain, parts)], ensure_ascii=False) for text, parts in self._new.items()
        }
        self._before, self._new = before | new, {}
        kept.put(_KEY, json.dumps(self._before, ensure_ascii=False).encode())

    def read(self, text: str, parse: Callable[[], Sequence[nodes.Node]]) -> tuple[Any, ...]:
        """Return the nodes that a text was read as, or read it now."""
        known = self._before.get(text)
        if known is not None:
            with suppress(ValueError, TypeError, LookupError, RecursionError):
                if found := tuple(map(_node, json.loads(known))):
                    return found
        parts = tuple(parse())
        self._new[text] = parts
        return parts


def _plain(value: Any) -> Any:
    """Return a node as a list of its form's name and its fields; a list of nodes has no name."""
    if isinstance(value, nodes.Node):
        return [type(value).__name__, *(_plain(getattr(value, name)) for name in value.fields)]
    return ["", *map(_plain, value)] if isinstance(value, (list, tuple)) else value


def _node(value: Any) -> Any:
    if not isinstance(value, list):
        return value
    name, *fields = value
    if not name:
        return [*map(_node, fields)]
    form = _FORMS[name]
    node = form.__new__(form)
    node.__dict__.update(zip(form.fields, map(_node, fields), strict=True), lineno=1, environment=None)
    return node
