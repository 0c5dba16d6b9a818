"""Photos as numbered plates: what each of them shows, and which of those named could not be printed."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from plangen.assess.model import Assessment, AttemptVerdict, CheckVerdict
from plangen.print.photos import Photo


@dataclass(frozen=True)
class Plate:
    """A photo that is printed: its number in the report, its picture, and what it shows."""

    number: int
    name: str
    picture: str
    caption: str


@dataclass(frozen=True)
class Plates:
    """All photos of a report: those that are printed by the name in the findings, and why others aren't."""

    by_name: Mapping[str, Plate]
    missing: Mapping[str, str]


def photo_names(assessment: Assessment) -> tuple[str, ...]:
    """Return the names of all photos that the findings mention, those of snags first, in their order."""
    return tuple(dict.fromkeys(name for name, _ in _mentions(assessment)))


def plates_of(assessment: Assessment, photos: Mapping[str, Photo]) -> Plates:
    """Return the photos numbered in the order in which the report comes to them; a photo of two findings is one plate."""
    captions: dict[str, list[str]] = {}
    for name, caption in _mentions(assessment):
        captions.setdefault(name, []).append(caption)
    plates: dict[str, Plate] = {}
    missing: dict[str, str] = {}
    for name, said in captions.items():
        photo = photos.get(name, Photo(name, why_not="not looked for"))
        if photo.picture is None:
            missing[name] = photo.why_not
            continue
        file = f" ({photo.file or name})"
        plates[name] = Plate(len(plates) + 1, name, photo.picture, "; ".join(dict.fromkeys(said)) + file)
    return Plates(plates, missing)


def _mentions(assessment: Assessment) -> list[tuple[str, str]]:
    """Return each name of a photo with what it shows, those of snags first."""
    checks = (*assessment.checks, *assessment.gone, *assessment.also_found)
    numbers = _numbers(assessment)
    word = "Recommendation" if assessment.recommendations else "Snag"
    numbered = sorted((check for check in checks if check.id in numbers), key=lambda check: numbers[check.id])
    others = [check for check in checks if check.id not in numbers]
    return [
        (name, _caption(check, attempt, f"{word} {numbers[check.id]}, " if check.id in numbers else ""))
        for check in (*numbered, *others)
        for attempt in check.attempts
        for name in attempt.photos
    ]


def _numbers(assessment: Assessment) -> dict[str, int]:
    """Return the number of each check in the list that the report has: recommendations of a survey, or snags."""
    if assessment.recommendations:
        return {one.check: one.number for one in assessment.recommendations if one.check}
    return {snag.check: snag.number for snag in assessment.snags}


def _caption(check: CheckVerdict, attempt: AttemptVerdict, of: str) -> str:
    taken = ", ".join(part for part in (attempt.by, attempt.when) if part)
    words = f"{check.item}: {attempt.note or check.title}"
    return f"{of}{words}{f'. {taken}' if taken else ''}"
