"""What a change of the house file did to a rule, in words and in this boat's own figures."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping

from plangen.formulas import OutOfRange
from plangen.packs.evaluate import Scope, holds, show
from plangen.packs.functions import MissingInput
from plangen.packs.house.edits import LIMIT_KEYS
from plangen.packs.house.overlay import LaidOver
from plangen.packs.library import Library
from plangen.packs.model import CheckRule, Minutes
from plangen.packs.syntax import ExpressionError
from plangen.packs.values import value_of
from plangen.packs.words import condition_in_words
from plangen.plan.expectations import draft_reading

#: Of limits that differ from item to item, how many are shown.
_MOST_SHOWN = 3
_REWORDED: Mapping[str, str] = {
    "title": "title reworded",
    "do": "line of what to do reworded",
    "protects": "what goes wrong reworded",
    "procedure": "steps rewritten",
    "watch_out": "warning reworded",
    "used_boat": "steps for a used boat rewritten",
    "note": "note reworded",
    "parts": "parts listed anew",
}
#: Keys whose change shows in another one's.
_UNSAID = ("source", "basis", "decimals")


def words_of(change: LaidOver, scopes: list[Scope], library: Library) -> str:
    """Return what was done, as it is printed: `dropped`, or `grade: before handover, now stop`."""
    before, after, reading = change.before, change.after, change.reading
    if change.change == "changed" and before is not None and after is not None:
        said = _of_reading if reading is not None else _of_rule
        return "; ".join(dict.fromkeys(said(change, before, after, scopes, library)))
    if reading is not None and before is not None:
        return f"{change.change}: {_name(before, reading)}"
    return change.change


def _name(rule: CheckRule, reading: str | None) -> str:
    return next((one.reading for one in rule.expect if one.id == reading), reading or "")


def _of_rule(
    change: LaidOver, before: CheckRule, after: CheckRule, scopes: list[Scope], library: Library
) -> Iterator[str]:
    shown: Mapping[str, tuple[str, Callable[[CheckRule], str]]] = {
        "priority": ("priority", lambda rule: _values(rule.priority, scopes)),
        "grade": ("grade", lambda rule: rule.grade.replace("-", " ")),
        "minutes": ("minutes", lambda rule: _minutes(rule.minutes, scopes)),
        "people": ("people", lambda rule: str(rule.people)),
        "asks_for": ("has to be agreed", lambda rule: ", ".join(rule.asks_for) or "nothing"),
        "instruments": ("instruments", lambda rule: ", ".join(rule.instruments) or "none"),
        "when": ("applies", lambda rule: f"if {condition_in_words(rule.when)}" if rule.when else "always"),
    }
    for key in change.keys:
        if key in shown:
            label, get = shown[key]
            yield f"{label}: {get(before)}, now {get(after)}"
        elif key not in _UNSAID:
            yield _REWORDED.get(key, f"another {key.replace('_', ' ')}")


def _of_reading(
    change: LaidOver, before: CheckRule, after: CheckRule, scopes: list[Scope], library: Library
) -> Iterator[str]:
    name = _name(before, change.reading)
    for key in change.keys:
        if key in LIMIT_KEYS:
            pairs = dict.fromkeys(
                (
                    _shown(before, change.reading, scope, library),
                    _shown(after, change.reading, scope, library),
                )
                for scope in scopes
            )
            limits = [f"{was}, now {now}" for was, now in pairs if was != now]
            yield f"{name}: {' / '.join(limits[:_MOST_SHOWN])}{' …' if len(limits) > _MOST_SHOWN else ''}"
        elif key == "words":
            yield f"{name}: now called {_name(after, change.reading)}"
        elif key == "when":
            condition = next((one.when for one in after.expect if one.id == change.reading), None)
            yield f"{name}: read {f'if {condition_in_words(condition)}' if condition else 'always'}"
        elif key not in _UNSAID:
            yield f"{name}: {_REWORDED.get(key, 'another ' + key.replace('_', ' '))}"


def _shown(rule: CheckRule, reading: str | None, scope: Scope, library: Library) -> str:
    """Return what is expected of a reading on this boat; the first of its alternatives that applies."""
    for one in rule.expect:
        if one.id == reading and holds(one.when, scope):
            drafted = draft_reading(one, rule, scope, library)
            if drafted is not None:
                return drafted.expectation.shown
    return "not read"


def _values(text: str, scopes: list[Scope]) -> str:
    return " / ".join(dict.fromkeys(_value(text, scope) for scope in scopes)) or text


def _value(text: str, scope: Scope) -> str:
    try:
        return show(value_of(text, scope), scope.units)
    except (MissingInput, OutOfRange, ExpressionError):
        return "not known"


def _minutes(minutes: Minutes, scopes: list[Scope]) -> str:
    parts = (("", minutes.each), (" once", minutes.once), (" waiting", minutes.wait))
    said = [
        f"{value}{what}" for what, text in parts if (value := _values(text, scopes)) not in ("0", "0 min")
    ]
    return " + ".join(said) or "0"
