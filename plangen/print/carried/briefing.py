"""The morning briefing: what is filled in, when to stop, and what can hurt today."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from plangen.plan.model import Plan
from plangen.print.carried.page import HALF, WIDTH, height, in_columns
from plangen.print.carried.words import few_rounds

TODAY = (
    ("Leads the trial", "leader"),
    ("Skipper in charge", "skipper"),
    ("Wind, gusts", "wind"),
    ("Sea and swell", "sea"),
    ("Rain, thunder, sight", "weather"),
    ("High and low water", "tide"),
    ("Insured by", "insurance"),
)
EMERGENCY = (
    ("Distress call", "distress"),
    ("Ambulance", "ambulance"),
    ("Harbour office", "harbour"),
    ("Berth, for callers", "berth"),
    ("Lifejackets, raft", "lifejackets"),
    ("Extinguishers", "extinguishers"),
    ("Gas, battery, fuel off", "shut-offs"),
)
STOP_WHEN = (
    "somebody is hurt, or can't see what can hurt him;",
    "water comes in, gas or fuel is smelt, smoke is seen, or a carbon-monoxide alarm sounds;",
    "an alarm of the engine, the steering or a mains device acts and the cause isn't known;",
    "a check marked STOP fails: nobody uses that system again before it is rectified;",
    "wind, sea or light passes what the skipper, the insurer or her design category allows.",
)
#: Millimetres: the heading, a heading below it, a field's row, a line of the list.
_HEAD, _SECOND, _ROW, _ITEM = 14.5, 8.0, 7.5, 4.9
_FOOT = "This plan doesn't replace local codes, makers' instructions or the judgement of those aboard. Work on mains, gas, refrigerant, lifting gear, rig and pressure systems is for people who are qualified or licensed for it where the boat lies."


@dataclass(frozen=True)
class Briefing:
    """What the briefing holds, and how high it stands."""

    today: tuple[tuple[str, str], ...]
    emergency: tuple[tuple[str, str], ...]
    stop_when: tuple[str, ...]
    hazards: tuple[tuple[str, str], ...]
    foot: str
    height: float


def briefing_of(plan: Plan) -> Briefing:
    """Return the briefing of a plan."""
    hazards = _hazards(plan)
    listed = in_columns((height(f"{text} {rounds}", HALF, 9.2, 0.7) for text, rounds in hazards), 2)
    return Briefing(
        TODAY,
        EMERGENCY,
        STOP_WHEN,
        tuple(hazards),
        _FOOT,
        _HEAD + 3 * _SECOND + len(TODAY) * _ROW + _stop_height() + listed + height(_FOOT, WIDTH, 8, 2.0),
    )


def _few(rounds: Sequence[int]) -> str:
    """Write the numbers of rounds where they are few; how many they are helps nobody."""
    shown = few_rounds(rounds)
    return "" if shown.endswith("rounds") else shown


def _stop_height() -> float:
    return sum(max(_ITEM, height(text, WIDTH - 8, 10, 1.0)) for text in STOP_WHEN)


def _hazards(plan: Plan) -> Sequence[tuple[str, str]]:
    rounds: dict[str, list[int]] = {}
    for one in plan.rounds:
        for name in one.cautions:
            rounds.setdefault(name, []).append(one.number)
    return [(text, _few(rounds[name])) for name, text in plan.cautions_in_short.items() if name in rounds]
