"""What the terminal says of a drafted plan, and of the folder that was there."""

from __future__ import annotations

from collections import Counter
from collections.abc import Collection, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.text import Text

from plangen.folder import perhaps_renamed
from plangen.packs.grades import GRADES
from plangen.plan.compare import compare
from plangen.plan.issues import changed_in_place, other_issues
from plangen.spec.names import folder_name
from plangen.terminal.comparison import LEFT_OUT, say_comparison
from plangen.terminal.console import console, errors, hours, say, table_of

if TYPE_CHECKING:
    from plangen.findings.carry import Carried
    from plangen.folder import Written
    from plangen.plan.house import House
    from plangen.plan.model import Plan


def say_draft(plan: Plan, folder: Path, written: Written, sisters: Collection[str] = ()) -> None:
    """Print what became of the folder that was there: whose it is, what changed, and what of the findings.

    `sisters` are the names of boats drafted with her, of which none is she under an earlier name.
    """
    if written.before is not None and written.before.boat.name != plan.boat.name:
        say(f"she was {written.before.boat.name} before: her folder is still {folder}")
    elif written.before is not None and folder.name != folder_name(plan.boat.name):
        say(f"her plan was found in {folder}, and is kept there")
    if written.before is not None:
        _say_issues(written.before, plan)
    other = perhaps_renamed(plan, folder) if written.before is None else None
    if other is not None and other[1] not in sisters:
        say(f"a new folder: {other[0]} holds the plan of {other[1]}, which is like her in all but the name.")
        say(
            f"    If she was only renamed, remove {folder}, write under `vessel:` in her spec and draft again:"
        )
        say(f"        formerly: [{other[1]}]")
    for path in written.outdated:
        say(
            f"{path} is old: it was printed of another plan than {plan.short_digest}. Draft without --no-pdf to print it anew."
        )
    if written.before is not None:
        say_comparison(compare(written.before, plan), choice_counted=True)
    if written.carried is not None:
        say_carried(written.carried)


def _say_issues(before: Plan, plan: Plan) -> None:
    """Print from which other issues she is drafted now, and which issues were changed though their number is the same."""
    for words in other_issues(before, plan):
        say(f"drafted from {words}")
    for words in changed_in_place(before, plan):
        warning = f"warning: {words} doesn't say any more what she was drafted from. What is different for her is said below. Give a change an issue of its own."
        errors.print(Text(warning), soft_wrap=True)


def say_hull(plan: Plan, folder: Path, written: Written, sisters: Collection[str]) -> None:
    """Print one of several hulls in a line, and what became of the folder that was there."""
    total = sum(line.minutes for line in plan.summary)
    line = f"  plan {plan.short_digest}, {len(plan.checks)} checks, {hours(total)}, {folder}"
    console.print(Text.assemble((plan.boat.name, "bold"), line), soft_wrap=True)
    say_draft(plan, folder, written, sisters)


def say_plan(plan: Plan, files: Sequence[Path]) -> None:
    """Print the short summary of a drafted plan."""
    console.print(Text.assemble((plan.boat.name, "bold"), f"  {plan.boat.hull}, plan {plan.short_digest}"))
    table = table_of("system", "checks", "with a number", "time", numbers=("checks", "with a number", "time"))
    for line in plan.summary:
        table.add_row(Text(line.title), str(line.checks), str(line.measured), hours(line.minutes))
    total = sum(line.minutes for line in plan.summary)
    measured = sum(line.measured for line in plan.summary)
    table.add_row(Text("all", "bold"), str(len(plan.checks)), str(measured), hours(total))
    console.print(table)
    brought = sum(1 for item in plan.kit if item.kind == "instrument")
    console.print(Text(f"kit: {brought} instruments, {len(plan.kit) - brought} other things"))
    required = [line for line in plan.gear if line.strength == "required"]
    short = [line for line in plan.shopping if line.strength == "required"]
    if plan.law:
        names = ", ".join(law.title for law in plan.law if law.state == "applies")
        console.print(
            Text(f"safety gear: {len(required)} items required ({names}), {len(short)} to find or buy")
        )
    else:
        console.print(Text("safety gear: no law applied; name her flag and waters under `use:`"))
    for place in plan.unheld:
        nearest = f" (nearest name held: {place.nearest})" if place.nearest else ""
        errors.print(Text(f"warning: no text held for {place.place}: {place.ask}{nearest}"), soft_wrap=True)
    if plan.house is not None:
        console.print(Text(house_line(plan.house)), soft_wrap=True)
    console.print(Text(f"open questions: {len(plan.questions)} (plangen questions lists them)"))
    say_trial(plan)
    if plan.turn is not None:
        console.print(Text(f"series: {plan.turn.why}"), soft_wrap=True)
        for id, why in plan.turn.after_fails.items():
            console.print(Text(f"  {id} is done: {why}"), soft_wrap=True)
    if plan.boat.drafted_from:
        console.print(
            Text(f"drafted from {', '.join(one.words for one in plan.boat.drafted_from)}"), soft_wrap=True
        )
    for stage in plan.stages:
        many = sum(check.stage == stage.id for check in plan.checks)
        roles = (("released by", stage.hold), ("witness", stage.witness))
        said = "".join(f", {words} {role}" for words, role in roles if role)
        console.print(Text(f"stage {stage.title}: {many} checks{said}"), soft_wrap=True)
    for path in files:
        console.print(Text(f"wrote {path}"))


def house_line(house: House) -> str:
    """Return in a line what the house file did to this boat's checks, and what of it decides."""
    kinds = Counter(change.change for change in house.changes)
    said = ", ".join(
        f"{kinds[kind]} {kind}" for kind in ("added", "dropped", "replaced", "changed") if kinds[kind]
    )
    decisive = sum(change.change == "dropped" and change.was is not None for change in house.changes)
    return f"house file: {said or 'no check changed'}" + (
        f"; of those dropped {decisive} of grade stop or of a law" if decisive else ""
    )


def say_trial(plan: Plan) -> None:
    """Print in at most ten lines who does how much when, what is left out, and what can't be done as wished."""
    trial = plan.trial
    for line in trial_lines(plan)[: 10 - len(trial.infeasible[:3])]:
        console.print(Text(line), soft_wrap=True)
    for one in trial.infeasible[:3]:
        console.print(
            Text.assemble((f"can't be done: {one.wish}. ", "bold"), f"{one.why} {one.change}"), soft_wrap=True
        )


def trial_lines(plan: Plan) -> list[str]:
    """Return what the timetable comes to, in a few lines."""
    trial, sessions = plan.trial, plan.sessions
    if not plan.rounds:
        return []
    length = f" of {trial.hours:g} h" if trial.hours is not None else ""
    days = f"{len(sessions)} day{'s' if len(sessions) != 1 else ''}{length}"
    first = next((session.date for session in sessions if session.date), None)
    lines = [
        f"trial: {days}{f' from {first}' if first else ''}, {', '.join(trial.people)}: "
        f"{len(plan.checks)} checks in {len(plan.rounds)} rounds"
    ]
    work = {
        name: sum(w.minutes for s in sessions for w in s.work if w.person == name) for name in trial.people
    }
    lines.append("work: " + ", ".join(f"{name} {hours(minutes)}" for name, minutes in work.items()))
    if trial.span:
        lines.append(
            f"time: {hours(trial.span)} of working days; no order of these rounds takes less than {hours(trial.lower_bound)}"
        )
    for why, words in LEFT_OUT.items():
        own = [one for one in plan.left_out if one.why == why]
        if own:
            heaviest = min(own, key=lambda one: (one.priority, GRADES.index(one.grade), one.check)).title
            lines.append(
                f"left out, {words}: {len(own)} check{'s' if len(own) != 1 else ''}; first {heaviest}"
            )
    scopes = Counter(one.scope for one in plan.outside_scope)
    if scopes:
        shown = ", ".join(f"{name} {count}" for name, count in scopes.items())
        lines.append(f"outside the agreed scope: {len(plan.outside_scope)} checks ({shown})")
    return lines


def say_carried(carried: Carried) -> None:
    """Print what became of findings that were filled before."""
    console.print(Text(f"findings kept: {len(carried.kept)} checks"))
    for before, now in carried.renamed.items():
        console.print(Text(f"  {before} is now {now}"), soft_wrap=True)
    for one in carried.suggestions:
        words = f"  {one.gone} is gone and {one.came} came: if it was only renamed, write under {one.came} in the spec:"
        console.print(Text(words), soft_wrap=True)
        console.print(Text(f"      {one.line}"), soft_wrap=True)
    for words, ids in (
        ("kept apart, no check asks for it any more", carried.apart),
        ("look again, the expectation changed", carried.second_look),
    ):
        for id in ids:
            console.print(Text(f"  {words}: {id}"), soft_wrap=True)
