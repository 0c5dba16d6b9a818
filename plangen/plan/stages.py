"""Which stage of the work each check belongs to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from plangen.packs.library import Library
from plangen.plan.model import PlannedCheck, PlannedStage
from plangen.spec.load import LoadedSpec
from plangen.spec.model.stages import Stage
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name

#: How a stage names its checks, from what decides first to what decides last.
_WAYS = ("rules", "settings", "systems")


def stages_of(loaded: LoadedSpec) -> tuple[PlannedStage, ...]:
    """Return the stages of the spec as the plan has them."""
    return tuple(
        PlannedStage(id=one.id, title=one.title, hold=one.hold, witness=one.witness)
        for one in loaded.spec.stages
    )


def with_stages(
    checks: Sequence[PlannedCheck], loaded: LoadedSpec, library: Library
) -> tuple[PlannedCheck, ...]:
    """Return the checks, each with its stage; without stages in the spec they are as they were.

    Raises `InputProblems` where a stage names what isn't there, or what another one names, or where a check finds none.
    """
    stages = loaded.spec.stages
    if not stages:
        return tuple(checks)
    if problems := list(_faults(loaded, library)):
        raise InputProblems(problems)
    rest = next((one.id for one in stages if _takes_the_rest(one)), None)
    by = {way: {name: one.id for one in stages for name in getattr(one, way)} for way in _WAYS}
    found = [
        check.model_copy(
            update={
                "stage": by["rules"].get(check.rule.rpartition("/")[2])
                or by["settings"].get(check.setting)
                or by["systems"].get(check.system)
                or rest
            }
        )
        for check in checks
    ]
    homeless = [check for check in found if check.stage is None]
    if homeless:
        first = homeless[0]
        said = f"no stage takes {len(homeless)} of the checks, as {first.id} (system {first.system}, setting {first.setting})"
        accepted = "one stage that names no rules, settings or systems: it takes the rest"
        raise InputProblems([Problem(loaded.mark_of(("stages",)), "stages", said, accepted)])
    return tuple(found)


def _takes_the_rest(stage: Stage) -> bool:
    return not any(getattr(stage, way) for way in _WAYS)


def _faults(loaded: LoadedSpec, library: Library) -> Iterator[Problem]:
    known = {
        "rules": [rule.id for pack in library.rules for rule in pack.model.checks],
        "settings": list(library.settings),
        "systems": [pack.model.pack for pack in library.rules],
    }
    ids: set[str] = set()
    rest: str | None = None
    taken: dict[tuple[str, str], str] = {}
    for number, stage in enumerate(loaded.spec.stages):
        key, mark = f"stages[{number}]", loaded.mark_of(("stages", number, "id"))
        if stage.id in ids:
            yield Problem(mark, f"{key}.id", f"{stage.id!r}: another stage has this id", "an id of its own")
        ids.add(stage.id)
        if _takes_the_rest(stage):
            if rest is not None:
                said = f"{stage.id!r} names no checks, and {rest!r} takes the rest already"
                yield Problem(mark, key, said, "rules, settings or systems of its own")
            rest = rest or stage.id
        for way in _WAYS:
            for index, name in enumerate(getattr(stage, way)):
                place, where = loaded.mark_of(("stages", number, way, index)), f"{key}.{way}"
                if name not in known[way]:
                    accepted = "ids of rules, as `plangen packs ids` lists them"
                    accepted = accepted if way == "rules" else name_list(known[way])
                    said = f"{name!r}: there is no such {way[:-1]}"
                    yield Problem(place, where, said, accepted, nearest_name(name, known[way]))
                elif taken.setdefault((way, name), stage.id) != stage.id:
                    said = f"{name!r}: stage {taken[way, name]!r} has it already"
                    yield Problem(place, where, said, "each in one stage")
