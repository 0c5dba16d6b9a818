"""What an answer behind a code says of the readings of a check."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from plangen.findings.model import Typed
from plangen.findings.parse_reading import says_not_applicable, typed_answer, typed_judgement, typed_number
from plangen.findings.parts import BETWEEN_PARTS, part_meant
from plangen.findings.read import value_fault
from plangen.findings.scalar import number_or_text
from plangen.plan.model import Expectation, PlannedCheck
from plangen.spec.names import slug

_WORD = re.compile(
    r"(?P<word>not ok(?:ay)?|not good|nok|not|bad|fail(?:ed)?|n/a|n\.a\.|not applicable|does not apply|yes|no|y|n|x|okay|ok|good|fine|pass(?:ed)?|true|false|[✓✔✗✘])"
    r"(?![\w/])\s*(?:[:;,.!–—-]\s*)?(?P<rest>.*)",
    re.IGNORECASE | re.DOTALL,
)
_NOTHING = ("none", "nothing")
_BLANK_POINTS = ("-", "–", "—", "?", "_")
_BETWEEN_POINTS = re.compile(r"\s*[;|]\s*|,\s+|\s+/\s+")


@dataclass
class Answered:
    """What an answer says by reading, what is left of it as a remark, and what somebody has to look at."""

    found: dict[str, Typed] = field(default_factory=dict)
    notes: list[str] = field(default_factory=list)
    fault: str = ""


def answer_to(check: PlannedCheck, reading: Expectation | None, answer: str) -> Answered:
    """Return what an answer says of a reading, or of a check of several readings where the code names none."""
    if reading is None:
        return _of_the_check(check, answer)
    if reading.series:
        return _series(reading, answer)
    if reading.text is not None:
        return _in_words(reading, answer)
    if reading.record in (None, "count"):
        return _number(reading, answer)
    return Answered({reading.id: number_or_text(answer)})


def _of_the_check(check: PlannedCheck, answer: str) -> Answered:
    ticks = [
        one
        for one in check.expect
        if (one.text or "").casefold() in ("yes", "no", *_NOTHING) and not one.condition
    ]
    match = _WORD.fullmatch(answer)
    codes = ", ".join(f"{one.code} {one.reading}" for one in check.expect)
    which = Answered(notes=[answer], fault=f"{check.code} has {codes}: which is meant? kept as its remark")
    if match is None:
        return which
    word, rest = match["word"], match["rest"]
    if says_not_applicable(word):
        return Answered({one.id: word for one in check.expect}, [rest] if rest else [])
    if typed_judgement(word) is True and ticks:
        return Answered({one.id: _good(one, word) for one in ticks}, [rest] if rest else [])
    bad = [one for one in ticks if _parts_in(rest, one)]
    bad = bad if len(bad) == 1 else ticks if len(ticks) == 1 else []
    if bad and (typed_judgement(word) is False or word.casefold() in ("no", "n")):
        return _in_words(bad[0], f"not: {rest}" if rest else "not")
    return which


def _in_words(reading: Expectation, answer: str) -> Answered:
    match = _WORD.fullmatch(answer)
    if match is None or (reading.text or "").casefold() == answer.casefold():
        return Answered({reading.id: number_or_text(answer)})
    word, rest = match["word"], match["rest"]
    left = [rest] if rest else []
    if says_not_applicable(word):
        return Answered({reading.id: word}, left)
    judged = typed_judgement(word)
    if judged is None:
        said = typed_answer(word)
        judged = None if said is None else said == _wanted(reading)
    if judged is None:
        return Answered({reading.id: number_or_text(answer)})
    if judged:
        return Answered({reading.id: _good(reading, word)}, left)
    parts = _parts_in(rest, reading) if _wanted(reading) else ()
    named = [part for part in BETWEEN_PARTS.split(rest) if part]
    all_named = bool(parts) and all(part_meant(part, reading.parts) for part in named)
    if parts:
        return Answered({reading.id: f"no: {', '.join(parts)}"}, [] if all_named else left)
    return Answered({reading.id: "no" if _wanted(reading) else "yes"}, left)


def _wanted(reading: Expectation) -> bool:
    """Tell whether yes is the good answer; it is where words are expected, too."""
    text = (reading.text or "").strip().casefold()
    return text not in _NOTHING and typed_answer(text) is not False


def _good(reading: Expectation, word: str) -> str:
    """Return the good answer where it is yes or no, and the word that was typed where it is another word."""
    text = (reading.text or "").strip().casefold()
    if text in _NOTHING:
        return "no"
    return text if text in ("yes", "no") else word


def _parts_in(text: str, reading: Expectation) -> tuple[str, ...]:
    """Return the parts of a reading that a text names: each piece of it a part, or a part's words somewhere in it."""
    pieces = [part_meant(piece, reading.parts) for piece in BETWEEN_PARTS.split(text) if piece]
    within = [part for part in reading.parts if f"-{slug(part)}-" in f"-{slug(text)}-"]
    return tuple(dict.fromkeys([*(piece for piece in pieces if piece), *within]))


def _number(reading: Expectation, answer: str) -> Answered:
    """Return the longest beginning that is a number with its unit, and the rest as a remark."""
    word = _WORD.fullmatch(answer)
    if word is not None and says_not_applicable(word["word"]):
        return Answered({reading.id: word["word"]}, [word["rest"]] if word["rest"] else [])
    tokens = answer.split(" ")
    for end in range(len(tokens), 0, -1):
        typed = " ".join(tokens[:end]).rstrip(",;:")
        rest = " ".join(tokens[end:]).lstrip("-–— ")
        if rest[:1].isdigit() or (rest[:1] in ".+<>~≈≤≥" and rest):
            continue
        number = typed_number(typed, reading.unit)
        if not number.fault:
            return Answered({reading.id: number_or_text(typed)}, [rest] if rest else [])
        if "is no unit" in number.fault:
            return Answered(
                notes=[f"typed for {reading.reading}: {answer}"],
                fault=f"{answer!r}: {number.fault}; kept in the note",
            )
    if fault := value_fault(answer, reading):
        return Answered(
            notes=[f"typed for {reading.reading}: {answer}"], fault=f"{answer!r}: {fault}; kept in the note"
        )
    return Answered({reading.id: number_or_text(answer)})


def _series(reading: Expectation, answer: str) -> Answered:
    """Return the values of a series; what can't be shared out among its points stays a remark."""
    word = _WORD.fullmatch(answer)
    if word is not None and says_not_applicable(word["word"]):
        return Answered({reading.id: word["word"]}, [word["rest"]] if word["rest"] else [])
    points, rest = _points(reading, answer)
    values: list[Typed] = [None if one in _BLANK_POINTS else number_or_text(one) for one in points]
    fault = value_fault(values, reading)
    if fault or not any(value is not None for value in values):
        return Answered(
            notes=[f"typed for {reading.reading}: {answer}"],
            fault=f"{answer!r}: {fault or 'no value for any point'}; kept in the note",
        )
    few = len(values) < len(reading.series)
    words = f"{len(values)} values for {len(reading.series)} points; taken for the first of them"
    return Answered({reading.id: values}, [rest] if rest else [], words if few else "")


def _points(reading: Expectation, answer: str) -> tuple[list[str], str]:
    parts = [part for part in _BETWEEN_POINTS.split(answer) if part]
    if len(parts) > 1:
        return parts, ""
    points: list[str] = []
    tokens = answer.split(" ")
    for index, token in enumerate(tokens):
        if token in _BLANK_POINTS or any(character.isdigit() for character in token):
            points.append(token)
        elif points and not typed_number(f"{points[-1]} {token}", reading.unit).fault:
            points[-1] += f" {token}"
        elif points and len(points) >= len(reading.series):
            return points, " ".join(tokens[index:])
        else:
            points.append(token)
    return points, ""
