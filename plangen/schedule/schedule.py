"""Fitting a plan to the days and the people: scope, choice, rounds, timetable, codes."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from plangen.packs.library import Library
from plangen.plan.day import Trial
from plangen.plan.digest import with_digest
from plangen.plan.draft import Draft, with_checks
from plangen.plan.kit import with_sessions
from plangen.plan.model import Plan, PlannedCheck
from plangen.schedule.codes import with_codes
from plangen.schedule.course import each_of
from plangen.schedule.critical import critical_path
from plangen.schedule.fit import Fit, Ground
from plangen.schedule.improve import lower_bound
from plangen.schedule.infeasible import infeasible_of
from plangen.schedule.kinds import Kinds, kinds_of
from plangen.schedule.light import daylight_of
from plangen.schedule.plant import Plant
from plangen.schedule.risk import risks_of
from plangen.schedule.rounds import group_checks
from plangen.schedule.scope import outside_scope, without
from plangen.schedule.select import field_of, select
from plangen.schedule.sessions import sessions_of
from plangen.schedule.turn import EarlierHull, turn_of
from plangen.schedule.wishes import Instead, Wishes, wishes_of
from plangen.spec.load import LoadedSpec


def schedule(
    draft: Draft,
    loaded: LoadedSpec,
    library: Library,
    instead: Instead | None = None,
    earlier: Sequence[EarlierHull] = (),
) -> Plan:
    """Return the plan fitted to the trial that the spec and the command line ask for, and to her place in a series.

    Raises `InputProblems` where the spec names a scope that the catalogue doesn't know.
    """
    instead = instead or Instead()
    wishes = wishes_of(loaded, library, instead)
    plan = draft.plan
    ground = ground_of(draft, loaded, library)
    outside = outside_scope(plan.checks, wishes, library)
    turn = turn_of(plan.checks, loaded, library, earlier)
    outside = tuple(one for one in outside if one.check not in {left.check for left in turn.left_out})
    checks = without(plan.checks, {one.check for one in outside} | {left.check for left in turn.left_out})
    field = field_of(checks, draft.checks, wishes, ground)
    selection = select(field)
    fitted = selection.fitted
    days = fitted.problem.days
    sessions = sessions_of(
        fitted.problem,
        fitted.timetable,
        fitted.rounds,
        wishes.people,
        [ground.light_on(number) for number in range(len(days))],
        loaded.spec.trial.date,
        library,
    )
    planned = with_checks(plan, with_codes(selection.checks, fitted.rounds), library).model_copy(
        update={
            "trial": _trial(wishes, plan, ground.grouped.kinds, fitted, len(sessions)).model_copy(
                update={"infeasible": infeasible_of(field, selection)}
            ),
            "rounds": fitted.rounds,
            "sessions": sessions,
            "left_out": (*selection.left_out, *turn.left_out),
            "turn": turn.told,
            "outside_scope": outside,
        }
    )
    kit = with_sessions(planned.kit, planned.checks, fitted.rounds, sessions, library)
    return with_digest(planned.model_copy(update={"kit": kit}))


def ground_of(draft: Draft, loaded: LoadedSpec, library: Library) -> Ground:
    """Return what the timetable has to know of the boat and the place."""
    zone_kinds = {zone.name: zone.kind for zone in loaded.spec.zones}
    kinds = kinds_of(library, zone_kinds)
    plant = Plant.of(draft.facts, library)
    return Ground(
        library=library,
        plant=plant,
        grouped=group_checks(draft.plan.checks, kinds, plant, library),
        light=partial(daylight_of, loaded.spec.trial),
        risks=risks_of(draft.checks, draft.facts, library, kinds.of, zone_kinds),
    )


def apart(check: PlannedCheck, kinds: Kinds) -> float:
    """Return the person-minutes of a check that is done by itself: getting there, setting up, and the work of all hands."""
    return kinds.work(check).once + check.minutes_once + each_of(check) * kinds.hands(check)


def _trial(wishes: Wishes, plan: Plan, kinds: Kinds, fitted: Fit, days: int) -> Trial:
    chosen = {id for one in fitted.rounds for id in one.checks}
    prepared = {**fitted.problem.states, **fitted.timetable.prepared}
    return Trial(
        people=wishes.people,
        days=wishes.days if wishes.minutes is not None and wishes.days else days,
        hours=wishes.minutes / 60 if wishes.minutes is not None else None,
        sea_hours=wishes.sea_minutes / 60 if wishes.sea_minutes is not None else None,
        priority=wishes.priority,
        prepare=tuple(f"{subject} {state}" for subject, state in sorted(prepared.items())),
        checks_apart=round(sum(apart(check, kinds) for check in plan.checks if check.id in chosen), 1),
        rounds_together=round(sum(one.person_minutes for one in fitted.rounds), 1),
        span=fitted.timetable.span,
        in_hand=wishes.usual.in_hand if wishes.minutes is not None else 0.0,
        lower_bound=lower_bound(fitted.problem),
        critical_path=critical_path(fitted.problem, fitted.timetable),
    )
