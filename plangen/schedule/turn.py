"""What a hull of a series is checked for: all, or the routine checks and those that failed on the hulls before her."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from plangen.packs.library import Library
from plangen.plan.day import LeftOut, SeriesTurn
from plangen.plan.model import PlannedCheck
from plangen.schedule.scope import unknown_without
from plangen.spec.load import LoadedSpec
from plangen.spec.model.series import Routine, Series
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name


@dataclass(frozen=True)
class EarlierHull:
    """A hull before this one in the series: by check id whether it passed; failed once is failed, mended or not."""

    number: int
    name: str
    passed: Mapping[str, bool]


@dataclass(frozen=True)
class Turn:
    """Whether a hull is tried in full, and what isn't done on her."""

    told: SeriesTurn | None = None
    left_out: tuple[LeftOut, ...] = ()


def turn_of(
    checks: Sequence[PlannedCheck], loaded: LoadedSpec, library: Library, earlier: Sequence[EarlierHull]
) -> Turn:
    """Return what a hull is checked for by her place in the series; the reason is in words.

    Whatever has to come before a check that is done is done too. Raises `InputProblems` where the series names rules,
    systems or settings that aren't there.
    """
    series, number = loaded.spec.series, loaded.spec.vessel.hull_number
    if series is None:
        return Turn()
    if faults := list(_faults(loaded, library)):
        raise InputProblems(faults)
    if number is None:
        return Turn(SeriesTurn(full=True, why="no vessel.hull_number: in full"))
    if number < series.first_hull:
        return Turn(
            SeriesTurn(
                full=True, why=f"hull {number} comes before the series, which begins with {series.first_hull}"
            )
        )
    if (number - series.first_hull) % series.full_every == 0:
        why = f"hull {number}: one hull in {series.full_every} from {series.first_hull} on is in full"
        first = f"hull {number} is the first of her series: in full"
        return Turn(SeriesTurn(full=True, why=first if number == series.first_hull else why))
    again = _after_fails(checks, number, earlier, series.passes_after_fail)
    kept = {check.id for check in checks if _is_routine(check, series.routine) or check.id in again}
    kept |= _before(kept, checks)
    following = number + series.full_every - (number - series.first_hull) % series.full_every
    return Turn(
        SeriesTurn(
            full=False,
            why=f"hull {number} has the routine checks; hull {following} is in full again",
            after_fails=again,
        ),
        tuple(
            LeftOut(
                check=check.id,
                title=check.title,
                priority=check.priority,
                grade=check.grade,
                why="series",
                words=f"not routine; hull {following} has it again",
                minutes=round(check.minutes, 1),
                unknown=unknown_without(check),
            )
            for check in checks
            if check.id not in kept
        ),
    )


def _is_routine(check: PlannedCheck, routine: Routine) -> bool:
    return (
        check.grade in routine.grades
        or (routine.priority is not None and check.priority <= routine.priority)
        or check.system in routine.systems
        or check.setting in routine.settings
        or check.rule.rpartition("/")[2] in routine.rules
    )


def _after_fails(
    checks: Sequence[PlannedCheck], number: int, earlier: Sequence[EarlierHull], enough: int
) -> dict[str, str]:
    """Return the checks that failed on an earlier hull and haven't passed on enough hulls since, with the reason."""
    before = sorted((hull for hull in earlier if hull.number < number), key=lambda hull: hull.number)
    found: dict[str, str] = {}
    for check in checks:
        failed, passes = "", 0
        for hull in before:
            passed = hull.passed.get(check.id)
            if passed is False:
                failed, passes = hull.name, 0
            elif passed:
                passes += 1
        if failed and passes < enough:
            found[check.id] = f"failed on {failed}; passed on {passes} of {enough} hulls since"
    return found


def _before(kept: set[str], checks: Sequence[PlannedCheck]) -> set[str]:
    """Return what has to come before the checks that are kept, and before that."""
    after = {check.id: check.after for check in checks}
    found: set[str] = set()
    waiting = list(kept)
    while waiting:
        for id in after.get(waiting.pop(), ()):
            if id in after and id not in found:
                found.add(id)
                waiting.append(id)
    return found


def _faults(loaded: LoadedSpec, library: Library) -> Iterator[Problem]:
    series: Series | None = loaded.spec.series
    assert series is not None
    known = {
        "rules": [rule.id for pack in library.rules for rule in pack.model.checks],
        "settings": list(library.settings),
        "systems": [pack.model.pack for pack in library.rules],
    }
    for way, names in known.items():
        for index, name in enumerate(getattr(series.routine, way)):
            if name not in names:
                mark = loaded.mark_of(("series", "routine", way, index))
                accepted = (
                    "ids of rules, as `plangen packs ids` lists them" if way == "rules" else name_list(names)
                )
                said = f"{name!r}: there is no such {way[:-1]}"
                yield Problem(mark, f"series.routine.{way}", said, accepted, nearest_name(name, names))
