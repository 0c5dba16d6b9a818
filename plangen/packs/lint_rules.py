"""Holding rules of checks against the spec, the formulas and the catalogue, without any boat."""

from __future__ import annotations

from collections.abc import Mapping
from functools import partial

from plangen.formulas.declare import TEXT
from plangen.packs.figures import FIGURES
from plangen.packs.items import bound_names
from plangen.packs.library import Library, Loaded
from plangen.packs.lint_figures import figure_faults
from plangen.packs.lint_report import Path, Report, check_source, check_state
from plangen.packs.model import (
    CheckRule,
    DeriveRule,
    ReadingRule,
    RulePack,
)
from plangen.packs.types import (
    NUMBER,
    TEXT_TYPE,
    Names,
    quantity_type,
    require_unit,
    same_kind,
)
from plangen.packs.uncertainty_ratio import LEAST_RATIO, USUAL_RATIO, reads, static_ratio
from plangen.spec.explain import key_text
from plangen.spec.problems import Problem, name_list
from plangen.spec.quantity import unit_from_label


def check_rules(pack: Loaded[RulePack], library: Library, rule_ids: Mapping[str, str]) -> list[Problem]:
    report = Report(pack)
    for index, rule in enumerate(pack.model.checks):
        _check_rule(report, ("checks", index), rule, library, rule_ids)
    return report.problems


def _check_rule(
    report: Report, path: Path, rule: CheckRule, library: Library, rule_ids: Mapping[str, str]
) -> None:
    bound = report.attempt((*path, "for_each"), lambda: bound_names(rule.for_each, rule.as_))
    if bound is None:
        return
    names: Names = bound[0]
    for key in ("title", "do", "protects", "item", "watch_out"):
        report.text((*path, key), getattr(rule, key), names)
    for step, told in enumerate(rule.procedure):
        report.condition((*path, "procedure", step, "when"), told.when, names)
        report.text((*path, "procedure", step), told.do, names)
    for key in ("needs", "leaves"):
        for step, text in enumerate(getattr(rule, key)):
            report.text((*path, key, step), text, names)
    report.condition((*path, "when"), rule.when, names)
    for key in ("zone", "wets", "after_wet"):
        report.value((*path, key), getattr(rule, key), names)
    for key in ("once", "each", "wait"):
        report.of_unit((*path, "minutes", key), getattr(rule.minutes, key), names, "min")
    report.value((*path, "priority"), rule.priority, names)
    check_rule_references(report, path, rule, library, rule_ids)
    for key in ("needs", "leaves"):
        for step, text in enumerate(getattr(rule, key)):
            check_state(report, (*path, key, step), text, library)
    for step, used in enumerate(rule.used_boat):
        report.condition((*path, "used_boat", step, "when"), used.when, names)
        report.text((*path, "used_boat", step, "add"), used.add, names)
    if not rule.expect:
        report.say((*path, "expect"), "no reading", "at least one reading with what counts as good")
    _check_reading_ids(report, path, rule)
    for step, reading in enumerate(rule.expect):
        _check_reading(report, (*path, "expect", step), reading, rule, library, names)
    if rule.derive:
        rules = {other.id: other for pack in library.rules for other in pack.model.checks}
        for step, derive in enumerate(rule.derive):
            for fault in figure_faults(derive, rule, rules):
                report.say((*path, "derive", step, *fault.path), *fault[1:])
            _check_derive(report, (*path, "derive", step), derive, library, names)


def check_rule_references(
    report: Report, path: Path, rule: CheckRule, library: Library, rule_ids: Mapping[str, str]
) -> None:
    report.known((*path, "setting"), rule.setting, library.settings, "setting")
    if rule.round is not None:
        report.known((*path, "round"), rule.round, library.rounds, "kind of round")
    for step, name in enumerate(rule.asks_for):
        report.known((*path, "asks_for", step), name, library.scopes, "scope")
    for key, others in (("after", rule.after), ("follows", rule.follows)):
        for step, other in enumerate(others):
            report.known((*path, key, step), other, rule_ids, "rule")
    for step, name in enumerate(rule.instruments):
        report.known((*path, "instruments", step), name, library.instruments, "instrument")
    for step, name in enumerate(rule.cautions):
        report.known((*path, "cautions", step), name, library.cautions, "caution")
    check_source(report, (*path, "source"), rule.source, library)
    for step, reading in enumerate(rule.expect):
        check_source(report, (*path, "expect", step, "source"), reading.source, library)


def _check_derive(report: Report, path: Path, derive: DeriveRule, library: Library, names: Names) -> None:
    report.text((*path, "title"), derive.title, names)
    check_source(report, (*path, "source"), derive.source, library)
    figure = FIGURES.get(derive.figure)
    if figure is None:
        return
    for name, text in derive.inputs.items():
        unit = figure.inputs.get(name)
        found = report.value((*path, "inputs", name), text, names)
        if found is None or unit is None:
            continue
        wanted = TEXT_TYPE if unit == TEXT else quantity_type(unit)
        if not same_kind(found, wanted):
            report.say((*path, "inputs", name), f"{found}", f"{wanted}")
    if figure.points is not None:
        report.of_unit((*path, "at"), derive.at, names, figure.points)
    for key in ("at_least", "at_most"):
        report.of_unit((*path, key), getattr(derive, key), names, figure.unit)


def _check_reading_ids(report: Report, path: Path, rule: CheckRule) -> None:
    """An id names one reading; alternatives of which the boat's equipment picks one may share it."""
    by_id: dict[str, list[ReadingRule]] = {}
    for reading in rule.expect:
        by_id.setdefault(reading.id, []).append(reading)
    conditions = [reading.id for reading in rule.expect if reading.condition]
    wanted = {name for reading in rule.expect for name in reading.valid_if}
    for step, reading in enumerate(rule.expect):
        place = (*path, "expect", step)
        if len(by_id[reading.id]) > 1 and any(one.when is None for one in by_id[reading.id]):
            report.say(
                (*place, "id"),
                f"two readings with the id {reading.id}",
                "an id of its own, or alternatives that each have a when:",
            )
        for number, name in enumerate(reading.valid_if):
            report.known(
                (*place, "valid_if", number), name, conditions, "condition among this rule's readings"
            )
        _check_alternatives(report, place, reading, rule)
        if reading.condition and reading.id not in wanted:
            report.say(place, f"the condition {reading.id} that no reading names", "valid_if: on a reading")


def _check_alternatives(report: Report, place: Path, reading: ReadingRule, rule: CheckRule) -> None:
    if reading.any_point and reading.series is None:
        report.say((*place, "any_point"), "any_point of one reading", "any_point: of a series")
    if reading.way is not None and reading.one_of is None:
        report.say((*place, "way"), "a way of no group", "one_of: beside it")
    if reading.one_of is None:
        return
    if reading.condition:
        report.say((*place, "one_of"), "a condition as one of several readings", "one_of: of readings alone")
    group = [one for one in rule.expect if one.one_of == reading.one_of]
    if len({one.way or one.id for one in group}) < 2:
        names = name_list(sorted({one.one_of for one in rule.expect if one.one_of is not None}))
        report.say(
            (*place, "one_of"),
            f"{reading.one_of} with one way only",
            f"two readings or ways of it; here: {names}",
        )


_LIMITS = ("at_least", "at_most", "between", "about", "is_", "record")


def _check_reading(
    report: Report, path: Path, reading: ReadingRule, rule: CheckRule, library: Library, names: Names
) -> None:
    report.text((*path, "reading"), reading.reading, names)
    for step, part in enumerate(reading.parts):
        report.condition((*path, "parts", step, "when"), part.when, names)
        report.text((*path, "parts", step), part.part, names)
    report.text((*path, "note"), reading.note, names)
    report.condition((*path, "when"), reading.when, names)
    report.text((*path, "is"), reading.is_, names)
    if reading.instrument is not None:
        report.known((*path, "instrument"), reading.instrument, rule.instruments, "instrument of this rule")
    given = [key for key in _LIMITS if getattr(reading, key) is not None]
    if not given or (len(given) > 1 and given != ["at_least", "at_most"]):
        shown = ", ".join(key.rstrip("_") for key in given) or "none"
        report.say(
            path,
            f"what counts as good: {shown}",
            "one of at_least, at_most, between, about, is, record (at_least with at_most)",
        )
    if reading.about is not None and reading.tolerance is None:
        report.say(
            (*path, "about"), "about without a tolerance", "tolerance: 10 %, or a quantity such as 0.2 V"
        )
    numeric = any(key in given for key in ("at_least", "at_most", "between", "about"))
    if (
        numeric
        and reading.source is None
        and rule.source.id == "common-practice"
        and reading.basis in ("law", "standard", "maker")
    ):
        report.say(
            (*path, "basis"), f"the basis {reading.basis} without a source", "a source with its clause"
        )
    inner: Names = names
    if reading.series is not None:
        points = report.value((*path, "series"), reading.series, names)
        if points is not None and points.word != "list":
            report.say(
                (*path, "series"),
                f"{points}",
                "a list of the points at which it is read, such as [1000, 2000, 3000]",
            )
        if points is not None and points.word == "list":
            report.attempt((*path, "series"), lambda: require_unit(points, reading.series_unit))
            inner = {**names, "point": points.element or NUMBER}
    for key in ("at_least", "at_most", "about", "contract_value", "maker"):
        report.of_unit((*path, key), getattr(reading, key), inner, reading.unit)
    for step, text in enumerate(reading.between or ()):
        report.of_unit((*path, "between", step), text, inner, reading.unit)
    _check_tolerance(report, (*path, "tolerance"), reading, inner)
    _check_instrument(report, path, reading, rule, library)


def _check_instrument(
    report: Report, path: Path, reading: ReadingRule, rule: CheckRule, library: Library
) -> None:
    name = reads(reading, rule, library.instruments)
    if name is None or name not in library.instruments:
        return
    ratio = report.attempt(path, partial(static_ratio, reading, library.instruments[name]))
    if ratio is not None and round(ratio, 6) < USUAL_RATIO:
        found = (
            f"{name} can't decide this tolerance"
            if round(ratio, 6) < LEAST_RATIO
            else f"{name} decides this tolerance poorly"
        )
        accepted = (
            "a better instrument or a wider tolerance; the usual ratio of tolerance to uncertainty is 4:1"
        )
        mark = report.pack.mark_of(path)
        problem = Problem(
            mark,
            key_text(path),
            f"{found} (ratio {ratio:.1f}:1)",
            accepted,
            is_warning=round(ratio, 6) >= LEAST_RATIO,
        )
        report.problems.append(problem)


def _check_tolerance(report: Report, path: Path, reading: ReadingRule, names: Names) -> None:
    found = report.value(path, reading.tolerance, names)
    if found is None:
        return
    fraction = found.word == "number"
    unit = unit_from_label(reading.unit)
    alike = same_kind(found, quantity_type(unit)) or same_kind(
        found, quantity_type(unit.replace("degC", "delta_degC"))
    )
    if not (fraction or alike):
        report.say(
            path,
            f"a tolerance that is {found} on a reading in {reading.unit or 'plain numbers'}",
            "a percentage or a value in the unit of the reading",
        )
