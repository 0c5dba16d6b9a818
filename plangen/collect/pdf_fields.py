"""Reading the form fields of a PDF that may come from a stranger: bytes in, names and values out."""

from __future__ import annotations

import io
import logging
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from plangen.collect.field_names import ATTEMPTS_FIELD, read_attempts, read_plan_value
from plangen.plan.boat_identity import BoatIdentity
from plangen.spec.problems import InputProblems, Mark, Problem

if TYPE_CHECKING:
    from pypdf import PdfReader

#: What a field holds: the text typed into it, or whether it is ticked.
FieldValue = str | bool

LARGEST_PDF = 67_108_864
_MOST_FIELDS = 100_000
_PLAN_FIELD = re.compile(r"plan/([0-9a-f]{64})")
_DIGEST = re.compile(r"\b[0-9a-f]{64}\b")
_UNTICKED = ("", "off", "false", "0")
_ACCEPTED = "a filled PDF of the plan, saved whole, with its form fields and without a password"


@dataclass(frozen=True)
class FilledForm:
    """The fields of a filled PDF, of which boat and plan it says to be, and the units in which it was filled.

    `attempts` says of a retest how often each check had been tried before it was printed.
    """

    name: str
    boat: BoatIdentity
    digest: str
    is_retest: bool
    fields: Mapping[str, FieldValue]
    units: str | None = None
    attempts: Mapping[str, int] | None = None


def read_form(content: bytes, name: str, parts: tuple[str, ...] = ("check", "also")) -> FilledForm:
    """Return the form fields of a PDF and the boat and plan that it names; `parts` are what its fields begin with.

    Raises `InputProblems` for what is no PDF, cut short, encrypted, without fields or of no trial plan. The
    plan's own field says which plan it is; where a program has dropped that, the document's title and
    keywords say it.
    """
    reader = _opened(content, name)
    try:
        fields = _fields(reader)
        about = {str(key): str(value) for key, value in (reader.metadata or {}).items()}
    except Exception as error:
        raise _refusal(name, f"a damaged PDF ({_first_line(error)})") from error
    if not any(part.partition("/")[0] in parts for part in fields):
        asked = any(part.startswith("question/") for part in fields)
        hint = ": answers to questions go into the spec, by `plangen answers`" if asked else ""
        what = "a check sheet" if "check" in parts else "the pages of questions"
        raise _refusal(name, f"a PDF without the fields of {what}{hint}")
    title = about.get("/Title", "")
    for field, value in fields.items():
        match = _PLAN_FIELD.fullmatch(field)
        if match:
            boat, digest = str(value), match[1]
            break
    else:
        found = _DIGEST.search(about.get("/Keywords", ""))
        if found is None or ":" not in title:
            raise _refusal(name, "a PDF that doesn't say which plan it is")
        boat, digest = title.partition(":")[2], found[0]
    identity, units = read_plan_value(boat)
    is_retest = title.casefold().startswith("retest")
    attempts = read_attempts(str(fields.get(ATTEMPTS_FIELD, ""))) if is_retest else None
    return FilledForm(name, identity, digest, is_retest, fields, units, attempts)


def printed_of(content: bytes) -> str:
    """Return the digest of the plan that a PDF was printed of, as its keywords say; nothing where they don't."""
    try:
        about: Mapping[str, Any] = _opened(content, "").metadata or {}
    except Exception:  # whatever keeps a file from being read, it doesn't say which plan it is of
        return ""
    found = _DIGEST.search(str(about.get("/Keywords", "")))
    return found[0] if found else ""


def _refusal(name: str, found: str) -> InputProblems:
    return InputProblems([Problem(Mark(name), "", found, _ACCEPTED)])


def _first_line(error: Exception) -> str:
    return next(iter(str(error).splitlines()), "") or type(error).__name__


def _opened(content: bytes, name: str) -> PdfReader:
    if len(content) > LARGEST_PDF:
        raise _refusal(name, f"a file of more than {LARGEST_PDF} bytes")
    if b"%PDF-" not in content[:1024]:
        raise _refusal(name, "not a PDF")
    if b"%%EOF" not in content[-2048:] or b"startxref" not in content[-2048:]:
        raise _refusal(name, "a PDF that is cut short")
    from pypdf import PdfReader

    logging.getLogger("pypdf").addHandler(logging.NullHandler())
    try:
        reader = PdfReader(io.BytesIO(content))
        encrypted = reader.is_encrypted
    except Exception as error:
        raise _refusal(name, f"a damaged PDF ({_first_line(error)})") from error
    if encrypted:
        raise _refusal(name, "an encrypted PDF")
    return reader


def _fields(reader: PdfReader) -> dict[str, FieldValue]:
    """Return the value of every field that can be filled in, by its whole name."""
    found: dict[str, FieldValue] = {}
    for count, (name, kind, node) in enumerate(_terminal_fields(reader)):
        if count > _MOST_FIELDS:
            raise ValueError(f"more than {_MOST_FIELDS} fields")
        value: FieldValue = _ticked(node) if kind == "/Btn" else _typed(node)
        before = found.get(name, "")
        if isinstance(before, str) and isinstance(value, str):
            found[name] = " / ".join(dict.fromkeys(text for text in (before, value) if text))
        else:  # one of them is typed, the other ticked: what was typed says more
            typed = next((one for one in (before, value) if isinstance(one, str) and one), None)
            found[name] = typed if typed is not None else bool(before) or bool(value)
    return found


def _terminal_fields(reader: PdfReader) -> Iterator[tuple[str, str, Any]]:
    """Yield name, kind and dictionary of each field: those that the form lists, then any that only a page shows."""
    root = _got(reader.trailer.get("/Root"))
    form = _got(root.get("/AcroForm")) if root is not None else None
    listed = _got(form.get("/Fields")) if form is not None else None
    waiting = [(field, "", "") for field in reversed(list(listed or []))]
    seen: set[int] = set()
    while waiting:
        reference, path, kind = waiting.pop()
        node = _got(reference)
        if not isinstance(node, dict) or id(node) in seen:
            continue
        seen.add(id(node))
        own = _name(node)
        name = f"{path}.{own}" if path and own else own or path
        kind = str(_got(node.get("/FT")) or kind)
        kids = [kid for kid in _got(node.get("/Kids")) or [] if isinstance(_got(kid), dict)]
        if any("/T" in _got(kid) for kid in kids):
            waiting.extend((kid, name, kind) for kid in reversed(kids))
            continue
        seen.update(id(_got(kid)) for kid in kids)
        if name and kind:
            yield name, kind, node
    for page in reader.pages:
        for annotation in _got(page.get("/Annots")) or []:
            node = _got(annotation)
            if not isinstance(node, dict) or id(node) in seen or "/Parent" in node:
                continue
            seen.add(id(node))
            name, kind = _name(node), str(_got(node.get("/FT")) or "")
            if name and kind:
                yield name, kind, node


def _got(value: Any) -> Any:
    """Return what a reference stands for; null counts as nothing."""
    got = value.get_object() if value is not None else None
    return None if type(got).__name__ == "NullObject" else got


def _name(node: Any) -> str:
    """Return a field's own name as one line; ours have no line ends, and an id with one could stand in no file."""
    return " ".join(_text(node.get("/T")).split())


def _values(node: Any) -> Iterator[Any]:
    """Yield the value of a field, then those which a filling program put at its places on the pages."""
    yield _got(node.get("/V"))
    for kid in _got(node.get("/Kids")) or []:
        yield _got(_got(kid).get("/V"))


def _typed(node: Any) -> str:
    return next((text for text in map(_text, _values(node)) if text), "")


def _ticked(node: Any) -> bool:
    value = next((one for one in _values(node) if one is not None), None)
    if value is None:
        states = [node.get("/AS"), *(_got(kid).get("/AS") for kid in _got(node.get("/Kids")) or [])]
        return any(_text(state).lstrip("/").casefold() not in _UNTICKED for state in states)
    return _text(value).lstrip("/").casefold() not in _UNTICKED


def _text(value: Any) -> str:
    """Return a PDF value as text: line ends as one character, no halves of surrogate pairs, no blank edges."""
    value = _got(value)
    if value is None:
        return ""
    if hasattr(value, "get_data"):
        value = value.get_data()
    if isinstance(value, bytes):
        value = value.decode("utf-8", "replace")
    elif isinstance(value, list):
        value = ", ".join(_text(one) for one in value)
    text = str(value).encode("utf-16", "surrogatepass").decode("utf-16", "replace")
    return text.replace("\r\n", "\n").replace("\r", "\n").strip()
