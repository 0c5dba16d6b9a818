"""The findings file's text: an entry for each check in the plan's order, what is expected as a comment."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from plangen.findings.scalar import scalar
from plangen.plan.alternatives import words_of
from plangen.plan.model import Expectation, Plan, PlannedCheck, PlannedStage

#: Comment lines that the program writes begin so; every other line of an entry is the user's and is kept.
OURS = "#:"

_SURVEY = (
    f"{OURS} survey: at the end holds lying: (afloat, ashore, afloat and ashore), conditions:, access: (a list: what wasn't reached, and why),",
    f"{OURS} scope: and opinion:. urgency: of a snag is before-use, before-cover, next-haul-out or monitor.",
)


def findings_text(plan: Plan, entries: Mapping[str, str] | None = None, tail: str | None = None) -> str:
    """Return the text of a findings file for a plan.

    `entries` holds, by check id, the lines of entries that were filled before; they stand word for word. `tail` is what
    follows the checks, blank stages unless it is given.
    """
    kept = entries or {}
    lines = [
        f"{OURS} Findings for the trial plan. Fill in what was found; leave empty what was not done.",
        f"{OURS} A reading may carry its unit (14.1 V, 58 °F, 2.9 bar); yes or no; a list for a series. no: drain, vent names bad parts.",
        f"{OURS} with: names the instrument of a reading, as {{drain-time: stopwatch}}, or your own by its id. A retest is one more entry with its own dash.",
        f"{OURS} does_not_apply: says why a check doesn't concern her. snags: at the end holds settlements.",
        *(_SURVEY if plan.purpose == "survey" else ()),
        f"boat: {scalar(plan.boat.name)}",
        f"plan: {scalar(plan.digest)}",
        f"units: {scalar(plan.units)}",
        "checks:",
    ]
    for check in plan.checks:
        lines.extend(_comments(check))
        lines.append(kept[check.id].rstrip("\n") if check.id in kept else blank_entry(check))
    return "\n".join(lines) + "\n" + (stages_text(plan.stages) if tail is None else tail)


def stages_text(stages: Sequence[PlannedStage], heading: bool = True) -> str:
    """Return the lines in which the release of stages is written; nothing where there are none."""
    if not stages:
        return ""
    head = f"{OURS} A stage with a hold point is released by the one named for it: released: is the day, by: the name."
    lines = ["", head, "stages:"] if heading else []
    for stage in stages:
        roles = (("released by", stage.hold), ("witness", stage.witness))
        said = "; ".join(
            [_one_line(stage.title), *(f"{words} {_one_line(role)}" for words, role in roles if role)]
        )
        lines += [f"  {OURS} {said}", f"  {scalar(stage.id)}:", "    released:", "    by:"]
        if stage.witness:
            lines += ["    witness:", "      invited:", "      came:"]
    return "\n".join(lines) + "\n"


def _comments(check: PlannedCheck) -> Iterable[str]:
    yield ""
    yield f"  {OURS} {_one_line(check.title)}: {_one_line(check.item)}"
    for index, expected in enumerate(check.expect):
        yield f"  {OURS} {expected.id}: {_expected_line(expected, words_of(check.expect, index))}"


def blank_entry(check: PlannedCheck) -> str:
    """Return the lines of an entry in which nothing is filled yet."""
    lines = [f"  {scalar(check.id)}:", "    - found:"]
    for expected in check.expect:
        lines.append(f"        {scalar(expected.id)}: {'[]' if expected.series else ''}".rstrip())
    return "\n".join([*lines, "      by:", "      when:", "      note:"])


def _expected_line(expected: Expectation, reading: str) -> str:
    words = f"{reading}, {'within' if expected.condition else 'expect'} {expected.shown}"
    return _one_line(f"{words} ({', '.join(expected.parts)})" if expected.parts else words)


def _one_line(text: str) -> str:
    return " ".join(text.split())
