"""Reading a findings file: strict, with the place of every fault, and losing nothing."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TypeVar

from pydantic import ValidationError

from plangen.findings.identity import with_ids
from plangen.findings.model import AlsoFound, Attempt, Findings, Settlement, StageRecord, SurveyRecord, Then
from plangen.findings.parse_reading import typed_number
from plangen.findings.superset import says_something
from plangen.plan.base import PlanModel
from plangen.plan.model import Expectation, Plan, PlannedCheck
from plangen.spec.problems import InputProblems, Problem, name_list, nearest_name
from plangen.spec.yaml_source import LARGEST_DERIVED_FILE, Node, read_yaml

Model = TypeVar("Model", bound=PlanModel)
_KEYS = (
    "boat",
    "plan",
    "units",
    "checks",
    "snags",
    "apart",
    "second_look",
    "remarks",
    "also_found",
    "survey",
    "stages",
    "snags_apart",
    "expected_then",
)
_SHAPES = {
    "checks": "check ids, each with its attempts",
    "apart": "check ids, each with its attempts",
    "snags": "check ids, each with its settlement, as `head-flush@aft-head: {settlement: accepted}`",
    "snags_apart": "check ids, each with its settlement",
    "stages": "ids of stages, each with `released:`, `by:` and `witness: {invited: …, came: …}`",
    "expected_then": "what the program wrote there",
    "second_look": "a list of check ids",
    "remarks": "a list of lines",
    "survey": "keys: `lying:` (afloat, ashore, afloat and ashore), `conditions:`, `access:`, `scope:`, `opinion:`",
    "also_found": "a list, each with `what:`, and `place:`, `grade:`, `photos:`, `by:`, `when:`, `settlement:` where known",
}


def read_findings(text: str, name: str, plan: Plan) -> Findings:
    """Read the text of a findings file that belongs to a plan; what goes by earlier ids or by words is given by its id.

    Raises `InputProblems` with every fault: unknown checks and readings with the nearest name, values that
    aren't of the reading's unit, and files of another boat. A file of another version of the plan is read as
    far as its checks are still there. Where a check is under `second_look:`, values of readings that it had
    before are no faults: they stay, and nothing is judged by them.
    """
    root = read_yaml(text, name, LARGEST_DERIVED_FILE)
    named = with_ids(text, name, plan, read=root)
    if named != text:
        root = read_yaml(named, name, LARGEST_DERIVED_FILE)
    problems: list[Problem] = []
    if root.mapping is None:
        raise InputProblems([Problem(root.mark, "", "no keys", f"a mapping of {', '.join(_KEYS)}")])
    for key in root.mapping:
        if key not in _KEYS:
            problems.append(
                Problem(
                    root.mark_at((key,)),
                    key,
                    f"unknown key {key!r}",
                    name_list(_KEYS),
                    nearest_name(key, _KEYS),
                )
            )
    problems.extend(_misshapen(root))
    boat = str(_scalar(root, "boat") or "")
    if boat != plan.boat.name:
        problems.append(
            Problem(root.mark_at(("boat",)), "boat", f"{boat!r}, another boat", repr(plan.boat.name))
        )
    checks = {check.id: check for check in plan.checks}
    second_look = _names(root.mapping.get("second_look"))
    apart = _apart(root.mapping.get("apart"), problems)
    findings = Findings(
        boat=boat,
        plan=str(_scalar(root, "plan") or ""),
        units=_units(root, problems),
        checks=_checks(root.mapping.get("checks"), checks, second_look, problems),
        snags=_snags(root.mapping.get("snags"), checks, tuple(apart), problems),
        apart=apart,
        second_look=second_look,
        remarks=_names(root.mapping.get("remarks")),
        snags_apart=_settlements(root.mapping.get("snags_apart"), problems),
        expected_then=_then(root.mapping.get("expected_then"), problems),
        survey=_survey(root.mapping.get("survey"), problems),
        also_found=_also_found(root.mapping.get("also_found"), problems),
        stages=_stages(root.mapping.get("stages"), plan, problems),
    )
    if problems:
        raise InputProblems(problems)
    return findings


def _misshapen(root: Node) -> Iterator[Problem]:
    """Yield a problem for each section that isn't of the shape in which it would be read."""
    for key, accepted in _SHAPES.items():
        node = (root.mapping or {}).get(key)
        if node is None or (node.mapping is None and node.items is None and node.value in (None, "")):
            continue
        wanted = node.items if accepted.startswith("a list") else node.mapping
        if wanted is None and not (node.items == [] or node.mapping == {}):
            found = (
                "a list"
                if node.items is not None
                else "keys"
                if node.mapping is not None
                else repr(node.value)
            )
            yield Problem(root.key_marks[key], key, found, accepted)


def _units(root: Node, problems: list[Problem]) -> str | None:
    given = _scalar(root, "units")
    if given is None or given in ("metric", "us", "both"):
        return str(given) if given else None
    problems.append(Problem(root.mark_at(("units",)), "units", repr(given), "metric, us, both"))
    return None


def _then(node: Node | None, problems: list[Problem]) -> dict[str, tuple[Then, ...]]:
    return {
        id: tuple(
            one
            for item in entry.items or []
            if (one := _model(Then, item, f"expected_then: {id}", problems)) is not None
        )
        for id, entry in ((node.mapping or {}) if node is not None else {}).items()
    }


def _also_found(node: Node | None, problems: list[Problem]) -> tuple[AlsoFound, ...]:
    """Return what was found beside all checks; a bare text is what was found."""
    items = [item for item in ((node.items or []) if node is not None else []) if says_something(item)]
    whole = [
        item
        if item.mapping is not None
        else Node(item.mark, mapping={"what": item}, key_marks={"what": item.mark})
        for item in items
    ]
    read = [_model(AlsoFound, item, "also_found", problems) for item in whole]
    return tuple(one for one in read if one is not None)


def _survey(node: Node | None, problems: list[Problem]) -> SurveyRecord | None:
    return _model(SurveyRecord, node, "survey", problems) if node is not None and node.mapping else None


def _stages(node: Node | None, plan: Plan, problems: list[Problem]) -> dict[str, StageRecord]:
    """Return who released which stage, and who witnessed it."""
    known = [stage.id for stage in plan.stages]
    found: dict[str, StageRecord] = {}
    for id, entry in ((node.mapping or {}) if node is not None else {}).items():
        if id not in known:
            assert node is not None
            accepted = f"a stage of this plan: {name_list(known) or 'it has none'}"
            said = f"no stage {id!r} in this plan"
            problems.append(
                Problem(node.key_marks[id], f"stages: {id}", said, accepted, nearest_name(id, known))
            )
            continue
        record = _model(StageRecord, entry, f"stages: {id}", problems)
        if record is not None:
            found[id] = record
    return found


def read_then(root: Node) -> dict[str, tuple[Then, ...]]:
    """Return what was expected of earlier attempts; raises `InputProblems` where that section was tampered with."""
    problems: list[Problem] = []
    found = _then((root.mapping or {}).get("expected_then"), problems)
    if problems:
        raise InputProblems(problems)
    return found


def _settlements(node: Node | None, problems: list[Problem]) -> dict[str, Settlement]:
    entries = (node.mapping or {}) if node is not None else {}
    read = {id: _model(Settlement, entry, f"snags: {id}", problems) for id, entry in entries.items()}
    return {id: settlement for id, settlement in read.items() if settlement is not None}


def _scalar(root: Node, key: str) -> object:
    node = (root.mapping or {}).get(key)
    return node.value if node is not None else None


def _names(node: Node | None) -> tuple[str, ...]:
    return tuple(str(item.value) for item in node.items or []) if node is not None else ()


def _checks(
    node: Node | None,
    checks: Mapping[str, PlannedCheck],
    second_look: tuple[str, ...],
    problems: list[Problem],
) -> dict[str, tuple[Attempt, ...]]:
    found: dict[str, tuple[Attempt, ...]] = {}
    if node is None or node.mapping is None:
        return found
    for id, entry in node.mapping.items():
        mark = node.key_marks[id]
        if id not in checks:
            accepted = "an id of this plan; what no check asks for any more goes under `apart:`"
            problems.append(
                Problem(mark, id, f"no check {id!r} in this plan", accepted, nearest_name(id, checks))
            )
            continue
        attempts = _attempts(entry, id, problems)
        for attempt, attempt_node in attempts if id not in second_look else ():
            _hold_against(attempt, attempt_node, checks[id], problems)
        found[id] = tuple(attempt for attempt, _ in attempts)
    return found


def fits(entry: Node, check: PlannedCheck) -> bool:
    """Tell whether an entry holds nothing that the check doesn't ask for."""
    problems: list[Problem] = []
    for attempt, node in _attempts(entry, check.id, problems):
        _hold_against(attempt, node, check, problems)
    return not problems


def _attempts(entry: Node, id: str, problems: list[Problem]) -> list[tuple[Attempt, Node]]:
    if entry.items is None:
        if entry.value is not None or entry.mapping is not None:
            problems.append(Problem(entry.mark, id, "no list", "attempts, each with a dash: - found: …"))
        return []
    read = [(_model(Attempt, item, id, problems), item) for item in entry.items]
    return [(attempt, item) for attempt, item in read if attempt is not None]


def _model(model: type[Model], node: Node, key: str, problems: list[Problem]) -> Model | None:
    if node.mapping is None and node.value is None and node.items is None:
        return model()
    try:
        return model.model_validate(node.plain())
    except ValidationError as error:
        from plangen.spec.explain import existing_path, problem_of

        for detail in error.errors(include_url=False):
            problem = problem_of(model, node, existing_path(node, detail["loc"]), detail)
            problems.append(
                Problem(
                    problem.mark, f"{key}: {problem.key}", problem.found, problem.accepted, problem.nearest
                )
            )
        return None


def _hold_against(attempt: Attempt, node: Node, check: PlannedCheck, problems: list[Problem]) -> None:
    expected = {one.id: one for one in check.expect}
    for reading, typed in attempt.values.items():
        mark = node.mark_at(("found", reading))
        if reading not in expected:
            accepted = name_list(list(expected))
            problems.append(
                Problem(mark, check.id, f"no reading {reading!r}", accepted, nearest_name(reading, expected))
            )
            continue
        fault = value_fault(typed, expected[reading])
        if fault:
            problems.append(
                Problem(mark, f"{check.id}: {reading}", f"{typed!r}: {fault}", _accepted(expected[reading]))
            )
    for reading in attempt.with_:
        if reading not in expected:
            mark = node.mark_at(("with", reading))
            problems.append(
                Problem(
                    mark,
                    check.id,
                    f"no reading {reading!r}",
                    name_list(list(expected)),
                    nearest_name(reading, expected),
                )
            )


def value_fault(typed: object, expected: Expectation) -> str:
    """Return why a typed value can't be a value of the reading, or nothing.

    Text where a number is expected is no fault: it is kept, and flagged when it is judged.
    """
    values = typed if isinstance(typed, list) else [typed]
    if isinstance(typed, list) and expected.parts:
        return ""
    if isinstance(typed, list) and not expected.series:
        return "a list for a reading that has one value"
    if expected.series and len(values) > len(expected.series):
        return f"{len(values)} values for {len(expected.series)} points"
    if not expected.numeric and not expected.series:
        return ""
    faults = [typed_number(value, expected.unit).fault for value in values if value is not None]
    return next((fault for fault in faults if "unit" in fault), "")


def _accepted(expected: Expectation) -> str:
    if expected.series:
        return f"a list of {len(expected.series)} readings in {expected.unit or 'plain numbers'}"
    return f"a number in {expected.unit}, or with a unit of the same kind" if expected.unit else "one value"


def _snags(
    node: Node | None, checks: Mapping[str, PlannedCheck], apart: tuple[str, ...], problems: list[Problem]
) -> dict[str, Settlement]:
    """Return the settlements of checks of the plan, and of those that are kept apart."""
    entries = (node.mapping or {}) if node is not None else {}
    for id in entries:
        if id not in checks and id not in apart:
            assert node is not None
            accepted = "an id of this plan, or of a check that is kept apart"
            problems.append(
                Problem(
                    node.key_marks[id],
                    f"snags: {id}",
                    f"no check {id!r} in this plan",
                    accepted,
                    nearest_name(id, checks),
                )
            )
    known = {id: entry for id, entry in entries.items() if id in checks or id in apart}
    return _settlements(Node(node.mark, mapping=known) if node is not None else None, problems)


def _apart(node: Node | None, problems: list[Problem]) -> dict[str, tuple[Attempt, ...]]:
    entries = (node.mapping or {}) if node is not None else {}
    return {
        id: tuple(attempt for attempt, _ in _attempts(entry, id, problems)) for id, entry in entries.items()
    }
