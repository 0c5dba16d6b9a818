"""What the commands say on the terminal."""

from __future__ import annotations

import os
import re
import sys
from collections import Counter
from collections.abc import Iterable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from rich.console import Console, ConsoleOptions, RenderableType
from rich.segment import Segment
from rich.table import Table
from rich.text import Text

from plangen.findings.carry import Carried
from plangen.folder import Written
from plangen.packs.library import Library
from plangen.packs.model import GRADES
from plangen.plan.compare import Comparison, compare
from plangen.plan.model import Plan, Question
from plangen.plan.why import Input, Reason
from plangen.spec.problems import Problem

if TYPE_CHECKING:
    from plangen.assess.model import Assessment
    from plangen.collect.collect import FormTaken
    from plangen.findings.model import Findings

#: What may not reach the terminal from a file of a stranger: control characters, and marks that turn the direction of writing.
_UNSEEN = re.compile("[\x00-\x09\x0b-\x1f\x7f-\x9f\u061c\u200b\u200e\u200f\u2028-\u202e\u2060-\u2069\ufeff]")


def visible(text: str) -> str:
    r"""Return text with a mark for each character that a terminal would obey instead of showing it.

    >>> visible("port\x1b[2J head\u202e")
    'port�[2J head�'
    """
    return _UNSEEN.sub("\N{REPLACEMENT CHARACTER}", text)


class _Terminal(Console):
    """The terminal, to which nothing is written but what can be seen; one that was closed is written to no more."""

    def render(self, renderable: RenderableType, options: ConsoleOptions | None = None) -> Iterable[Segment]:
        """Render with every text made visible."""
        for segment in super().render(renderable, options):
            yield segment if segment.control else Segment(visible(segment.text), segment.style)

    def on_broken_pipe(self) -> None:
        """Go on in silence where nobody reads any more, as with `plangen packs | head -1`."""
        self.quiet = True
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


console = _Terminal(highlight=False)
errors = _Terminal(stderr=True, highlight=False)


def say(text: str) -> None:
    """Print one line."""
    console.print(Text(text), soft_wrap=True)


def say_system_fault(error: OSError) -> None:
    """Print why the system refused to read or write something."""
    place = f"{error.filename}: " if error.filename else ""
    errors.print(Text(f"{place}{error.strerror or error}; nothing half-written was left."), soft_wrap=True)


def say_draft(plan: Plan, folder: Path, written: Written) -> None:
    """Print what became of the folder that was there: whose it is, what changed, and what of the findings."""
    if written.before is not None and written.before.boat.name != plan.boat.name:
        say(f"she was {written.before.boat.name} before: her folder is still {folder}")
    pdf = folder / "plan.pdf"
    made = any(path.suffix == ".pdf" for path in written.files)
    if not made and pdf.is_file() and written.before is not None and written.before.digest != plan.digest:
        say(f"{pdf} is of the plan before ({written.before.short_digest})")
    if written.before is not None:
        say_comparison(compare(written.before, plan))
    if written.carried is not None:
        say_carried(written.carried)


def _table(*columns: str, numbers: Sequence[str] = ()) -> Table:
    table = Table(box=None, pad_edge=False, header_style="bold", padding=(0, 2, 0, 0))
    for column in columns:
        table.add_column(column, justify="right" if column in numbers else "left", overflow="fold")
    return table


def hours(minutes: float) -> str:
    """Write minutes as hours with one decimal.

    >>> hours(95)
    '1.6 h'
    """
    return f"{minutes / 60:.1f} h"


def say_problems(problems: Iterable[Problem]) -> None:
    """Print faults to standard error, each with its place."""
    count = 0
    for problem in problems:
        count += 1
        errors.print(Text(str(problem)), soft_wrap=True)
    errors.print(Text(f"{count} fault{'s' if count != 1 else ''}; nothing was written."))


def say_plan(plan: Plan, files: Sequence[Path]) -> None:
    """Print the short summary of a drafted plan."""
    console.print(Text.assemble((plan.boat.name, "bold"), f"  {plan.boat.hull}, plan {plan.short_digest}"))
    table = _table("system", "checks", "with a number", "time", numbers=("checks", "with a number", "time"))
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
    console.print(Text(f"open questions: {len(plan.questions)} (plangen questions lists them)"))
    say_trial(plan)
    for path in files:
        console.print(Text(f"wrote {path}"))


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
            f"time: {hours(trial.span)} of working days, {hours(trial.span - trial.lower_bound)} above the least possible"
        )
    for why, words in _LEFT_OUT.items():
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


_LEFT_OUT = {
    "time": "no time",
    "sea-time": "no time at sea",
    "people": "too few people",
    "darkness": "no darkness",
    "daylight": "too little daylight",
    "order": "what comes before is left out",
    "priority": "priority not asked for",
}


def say_assessment(plan: Plan, findings: Findings, assessment: Assessment, files: Sequence[Path]) -> None:
    """Print what findings and plan came to."""
    console.print(Text.assemble((plan.boat.name, "bold"), f"  plan {plan.short_digest}"))
    if findings.plan and findings.plan != plan.digest:
        errors.print(Text("the findings were written for another version of the plan; draft her again"))
    counts = ("checks", "done", "to_do", "passed", "failed", "too_close", "limited")
    table = _table(
        "system", *(name.replace("_", " ") for name in counts), numbers=[n.replace("_", " ") for n in counts]
    )
    for line in assessment.summary:
        if line.done:
            table.add_row(Text(line.title), *(str(getattr(line, name)) for name in counts))
    all_systems = (str(sum(getattr(line, name) for line in assessment.summary)) for name in counts)
    table.add_row(Text("all", "bold"), *all_systems)
    console.print(table)
    states = Counter(snag.state for snag in assessment.snags)
    shown = ", ".join(f"{count} {state}" for state, count in states.items())
    console.print(Text(f"snags: {len(assessment.snags)}" + (f" ({shown})" if shown else "")))
    for words, totals in (
        ("held back", assessment.sums_held_back),
        ("price reduced by", assessment.price_reductions),
    ):
        for currency, total in totals.items():
            console.print(Text(f"{words}: {total} {currency}"))
    for path in files:
        console.print(Text(f"wrote {path}"))
    console.print(Text(assessment.handover.line, "bold"), soft_wrap=True)


def say_comparison(comparison: Comparison) -> None:
    """Print what differs between two plans."""
    if comparison.is_empty:
        console.print("no check was added, dropped or changed in what it expects")
        return
    for words, checks in (("added", comparison.added), ("gone", comparison.gone)):
        for check in checks:
            console.print(Text(f"{words}    {check.id}  {check.title}"[:200]), soft_wrap=True)
    for change in comparison.changed:
        console.print(Text(f"changed  {change.check}  {change.before}  ->  {change.after}"), soft_wrap=True)
    counts = (len(comparison.added), len(comparison.gone), len(comparison.changed))
    console.print(Text("{} added, {} gone, {} changed in what they expect".format(*counts)))


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


def say_collected(form: FormTaken) -> None:
    """Print what a filled form brought, and what somebody has to look at."""
    more = f", {len(form.also_found)} also found" if form.also_found else ""
    counted = f"{form.name}: {form.taken} checks taken, {form.known} known already{more}"
    console.print(Text(counted), soft_wrap=True)
    if form.no_digest:
        console.print(Text("  it names no plan: its codes are read as this folder's plan has them"))
    if form.other_plan is not None and form.is_list:
        warning = f"  warning: its codes are those of plan {form.other_plan}, another version; they are kept as remarks"
        console.print(Text(warning), soft_wrap=True)
    elif form.other_plan is not None:
        warning = f"  warning: filled on plan {form.other_plan}, another version of this boat's plan; what was taken is under second_look"
        console.print(Text(warning), soft_wrap=True)
    if form.pages_missing:
        console.print(Text(f"  warning: {form.pages_missing} checks of the plan have no fields in it"))
    if form.undated_retest:
        warning = "  warning: a retest without a date; where it says the same as before, it isn't told from the first round"
        console.print(Text(warning), soft_wrap=True)
    for words, lines in (
        ("not of this plan, kept apart", form.apart),
        ("look by hand", form.faults),
        ("also found", form.also_found),
        ("kept as a remark", form.remarks),
        ("two readings, both kept; ask and read again", form.disagreements),
    ):
        for line in lines:
            console.print(Text(f"  {words}: {line}"), soft_wrap=True)


def _decides(question: Question) -> str:
    many = question.expected_values
    parts = [f"{many} expected value{'' if many == 1 else 's'}"] if many else []
    if question.checks:
        more = len(question.checks) - 5
        parts.append(f"checks {', '.join(question.checks[:5])}" + (f" and {more} more" if more > 0 else ""))
    if question.adds:
        more = len(question.adds) - 5
        listed = ", ".join(question.adds[:5]) + (f" and {more} more" if more > 0 else "")
        parts.append(f"whether these are added: {listed}")
    if question.laws:
        parts.append(f"law of {', '.join(question.laws)}")
    return "decides " + "; ".join(parts)


def say_questions(plan: Plan) -> None:
    """Print the open questions, the weightiest first."""
    if not plan.questions:
        console.print("The spec answers every question that the checks ask.")
        return
    for question in plan.questions:
        assumed = f"  assumed {question.assumed}" if question.assumed else ""
        console.print(Text.assemble((question.key, "bold"), f"  {question.asks}{assumed}"), soft_wrap=True)
        console.print(Text(f"    {_decides(question)}"), soft_wrap=True)


def say_reason(reason: Reason) -> None:
    """Print why a check is in the plan."""
    check = reason.check.check
    console.print(Text.assemble((check.id, "bold"), f"  {check.title}"))
    if check.protects:
        console.print(Text(f"against    {check.protects}"))
    console.print(Text(f"rule       {check.rule}, {reason.place}"))
    console.print(Text(f"in the plan {reason.condition}"))
    _say_inputs(reason.condition_inputs)
    if check.after:
        console.print(Text(f"after      {', '.join(check.after)}"))
    for reading in reason.readings:
        expected = reading.expectation
        console.print()
        console.print(Text.assemble((expected.reading, "bold"), f": {expected.shown}"))
        console.print(Text(f"  basis    {expected.basis}"))
        if expected.computed is not None:
            console.print(
                Text(f"  computed {expected.computed:g} {expected.unit}, which the {expected.basis} beats")
            )
        if reading.formula:
            console.print(Text(f"  formula  {reading.formula}"))
        if reading.arithmetic:
            console.print(Text(f"  reckoned {reading.arithmetic}"))
        _say_inputs(reading.inputs)
        console.print(Text(f"  source   {reading.source}"))
        if expected.note:
            console.print(Text(f"  note     {expected.note}"))


def _say_inputs(inputs: Sequence[Input]) -> None:
    for one in inputs:
        console.print(Text(f"  input    {one.key} = {one.value}  ({one.origin})"))


def say_pack_problems(problems: Sequence[Problem]) -> int:
    """Print faults and warnings of packs, then how many faults each file has; return how many there are."""
    for problem in problems:
        errors.print(Text(str(problem)), soft_wrap=True)
    faults = Counter(problem.mark.file for problem in problems if not problem.is_warning)
    for file, count in faults.items() if len(faults) > 1 else ():
        errors.print(Text(f"{file}: {count} fault{'s' if count != 1 else ''}"), soft_wrap=True)
    total = faults.total()
    if total:
        errors.print(Text(f"{total} fault{'s' if total != 1 else ''}"))
    return total


def say_packs(library: Library) -> None:
    """Print the packs with their editions and what they hold."""
    table = _table("system", "title", "edition", "rules", "sources", numbers=("rules", "sources"))
    for rules in library.rules:
        model = rules.model
        table.add_row(
            model.pack, Text(model.title), model.edition, str(len(model.checks)), str(len(model.sources))
        )
    console.print(table)
    shares = ("read", "second-hand", "from memory")
    law = _table("law", "edition", "demands", *shares, numbers=("demands", *shares))
    for pack in library.law:
        entry = pack.model
        known = (f"{share:.0f} %" for share in entry.known_shares)
        law.add_row(entry.jurisdiction, entry.edition, str(len(entry.requires)), *known)
    console.print(law)
    for pack in library.law:
        texts = "; ".join(f"{one.title} ({one.current_to})" for one in pack.model.instruments.values())
        console.print(Text(f"{pack.model.title}: {texts}"), soft_wrap=True)
    stores = _table("stores", "title", "edition", "items", numbers=("items",))
    for store in library.stores:
        stores.add_row(
            store.model.pack, Text(store.model.title), store.model.edition, str(len(store.model.items))
        )
    console.print(stores)
