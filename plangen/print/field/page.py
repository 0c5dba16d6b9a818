"""The field page put together: style and script in the file itself, allowed by their hashes, and the plan as data."""

from __future__ import annotations

import base64
import hashlib
import json
import re
from collections.abc import Mapping, Sequence
from html import escape
from importlib.resources import files
from typing import TYPE_CHECKING, Any

from plangen.plan.model import Plan
from plangen.print.field.plan_data import plan_data

if TYPE_CHECKING:
    from plangen.assess.model import Snag
    from plangen.assess.retest import Retest

#: The modules of the script, in the order in which one builds on another.
GRAMMAR = ("text.js", "numbers.js", "days.js", "answers.js", "verdicts.js")
SCRIPT = (
    *GRAMMAR,
    "page.js",
    "store.js",
    "values.js",
    "photos.js",
    "export.js",
    "import.js",
    "reading_view.js",
    "line_view.js",
    "round_view.js",
    "rounds_view.js",
    "found_view.js",
    "hand_over_view.js",
    "start.js",
)

_PLACE = re.compile(r"\[\[([a-z]+)\]\]")


def field_page(plan: Plan, retest: Retest | None = None, found: Sequence[Snag] = ()) -> bytes:
    """Return the field page of a plan, or of what is to be done and to be seen mended again."""
    return page_of(plan_data(plan, retest, found))


def page_of(data: Mapping[str, Any]) -> bytes:
    """Return the page of a plan's data. The same data gives the same bytes."""
    style = module("field.css")
    script = joined_script(SCRIPT)
    parts = {
        "policy": policy(style, script),
        "title": escape(str(data["boat"]["name"])),
        "style": style,
        "data": _in_a_page(data),
        "script": script,
    }
    pieces = _PLACE.split(module("page.html"))
    return "".join(parts[piece] if index % 2 else piece for index, piece in enumerate(pieces)).encode()


def joined_script(names: tuple[str, ...]) -> str:
    """Return modules of the script as one, in which none of their names reaches outside."""
    return "(() => {\n'use strict';\n" + "".join(module(name) for name in names) + "})();\n"


def policy(style: str, script: str) -> str:
    """Return the content-security policy: this style, this script, pictures of our own, and nothing else."""
    return (
        f"default-src 'none'; script-src '{_hash(script)}'; style-src '{_hash(style)}'; "
        "img-src blob: data:; connect-src 'none'; form-action 'none'; base-uri 'none'"
    )


def module(name: str) -> str:
    """Return one of the page's files."""
    return files("plangen.print").joinpath("templates", "field", name).read_text(encoding="utf-8")


def _hash(text: str) -> str:
    return f"sha256-{base64.b64encode(hashlib.sha256(text.encode()).digest()).decode()}"


def _in_a_page(data: Mapping[str, Any]) -> str:
    """Return data as JSON in which no tag can begin or end."""
    text = json.dumps(data, ensure_ascii=False, separators=(",", ":"))
    return text.replace("<", "\\u003c").replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
