"""Holding whole packs against the models, the formulas, the catalogue and one another, without any boat."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import partial
from typing import Any

from plangen.formulas.declare import TEXT
from plangen.packs.check_figures import figure_faults
from plangen.packs.deciding import reads, static_ratio
from plangen.packs.figures import FIGURES
from plangen.packs.library import Library, Loaded
from plangen.packs.model import (
    Band,
    CheckRule,
    DeriveRule,
    LawPack,
    PackModel,
    ReadingRule,
    RulePack,
    SourceReference,
    StoresPack,
)
from plangen.packs.syntax import ExpressionError
from plangen.packs.types import (
    FLAG,
    NUMBER,
    TEXT_TYPE,
    Names,
    Type,
    TypeFault,
    attribute_type,
    infer_expression,
    infer_text,
    quantity_type,
    require_unit,
    same_kind,
    type_at,
)
from plangen.packs.values import literal
from plangen.spec.explain import key_text
from plangen.spec.model import Spec
from plangen.spec.problems import Problem, name_list, nearest_name
from plangen.spec.quantity import unit_from_label
from plangen.spec.shape import shapes

Path = tuple[str | int, ...]


@dataclass
class _Report:
    """Collects the problems of one pack."""

    pack: Loaded[PackModel]
    problems: list[Problem] = field(default_factory=list)

    def say(self, path: Path, found: str, accepted: str = "", nearest: str = "") -> None:
        self.problems.append(Problem(self.pack.mark_of(path), key_text(path), found, accepted, nearest))

    def known(self, path: Path, name: str, names: Iterable[str], what: str) -> None:
        listed = list(names)
        if name not in listed:
            few = len(listed) <= 40
            accepted = name_list(sorted(listed)) if few else f"one of {len(listed)} that the packs define"
            self.say(path, f"unknown {what} {name!r}", accepted, nearest_name(name, listed))

    def attempt(self, path: Path, work: Callable[[], Any]) -> Any:
        try:
            return work()
        except TypeFault as fault:
            self.say(path, fault.found, fault.accepted, fault.nearest)
        except ExpressionError as error:
            self.say(path, str(error))
        return None

    def condition(self, path: Path, text: str | None, names: Names) -> None:
        if text is not None:
            self.attempt(path, lambda: infer_expression(text, names))

    def text(self, path: Path, text: str | None, names: Names) -> None:
        if text is not None:
            self.attempt(path, lambda: infer_text(text, names))

    def value(self, path: Path, text: str | None, names: Names) -> Type | None:
        if text is None:
            return None
        found: Type | None = self.attempt(path, lambda: _type_of_value(text, names))
        return found

    def of_unit(self, path: Path, text: str | None, names: Names, label: str) -> None:
        found = self.value(path, text, names)
        if found is not None:
            self.attempt(path, lambda: require_unit(found, label))


def _type_of_value(text: str, names: Names) -> Type:
    quantity = literal(text)
    if quantity is not None:
        return quantity_type(str(quantity.units))
    return infer_expression(text, names)


def check_library(library: Library) -> list[Problem]:
    """Return every fault of the loaded packs, in the order of files and lines."""
    problems: list[Problem] = []
    rule_ids = _rule_ids(library, problems)
    for pack in library.rules:
        problems.extend(_check_rules(pack, library, rule_ids))
    problems.extend(_circles(library))
    for law in library.law:
        problems.extend(_check_law(law, library))
    for stores in library.stores:
        problems.extend(_check_stores(stores, library))
    problems.extend(_check_catalogue(library))
    return sorted(set(problems), key=lambda p: (p.mark.file, p.mark.line, p.mark.column, p.found))


def _rule_ids(library: Library, problems: list[Problem]) -> dict[str, str]:
    found: dict[str, str] = {}
    for pack in library.rules:
        for index, rule in enumerate(pack.model.checks):
            if rule.id in found:
                mark = pack.mark_of(("checks", index, "id"))
                fault = f"the rule id {rule.id!r} stands twice (also in {found[rule.id]})"
                problems.append(
                    Problem(mark, f"checks[{index + 1}].id", fault, "an id of its own for each rule")
                )
            found.setdefault(rule.id, pack.model.pack)
    return found


def bound_names(for_each: str | None, bind: str | None) -> tuple[Names, bool]:
    """Return the name that a rule binds with its type, and whether it runs over a list."""
    if for_each is None:
        return {}, False
    found = type_at(for_each)
    if found.word == "list" and found.element is not None and found.element.word == "section":
        name = bind or singular_at(for_each)
        return {name: found.element}, True
    if found.word == "section":
        return {bind or for_each.split(".")[-1]: found}, False
    raise TypeFault(f"{for_each!r} is {found}", "a list or a section of the spec")


def singular_at(key_path: str) -> str:
    """Return the name of one item of the list at a key path."""
    model: Any = Spec
    shape = None
    for step in key_path.split("."):
        shape = shapes(model)[step]
        model = shape.model
    return (shape.singular if shape else "") or key_path.split(".")[-1].rstrip("s")


def _check_rules(pack: Loaded[RulePack], library: Library, rule_ids: Mapping[str, str]) -> list[Problem]:
    report = _Report(pack)
    for index, rule in enumerate(pack.model.checks):
        _check_rule(report, ("checks", index), rule, library, rule_ids)
    return report.problems


def _check_rule(
    report: _Report, path: Path, rule: CheckRule, library: Library, rule_ids: Mapping[str, str]
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
    _check_references(report, path, rule, library, rule_ids)
    for key in ("needs", "leaves"):
        for step, text in enumerate(getattr(rule, key)):
            _check_state(report, (*path, key, step), text, library)
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


def _check_references(
    report: _Report, path: Path, rule: CheckRule, library: Library, rule_ids: Mapping[str, str]
) -> None:
    report.known((*path, "setting"), rule.setting, library.settings, "setting")
    if rule.round is not None:
        report.known((*path, "round"), rule.round, library.rounds, "kind of round")
    for step, name in enumerate(rule.asks_for):
        report.known((*path, "asks_for", step), name, library.scopes, "scope")
    for step, other in enumerate(rule.after):
        report.known((*path, "after", step), other, rule_ids, "rule")
    for step, name in enumerate(rule.instruments):
        report.known((*path, "instruments", step), name, library.instruments, "instrument")
    for step, name in enumerate(rule.cautions):
        report.known((*path, "cautions", step), name, library.cautions, "caution")
    _check_source(report, (*path, "source"), rule.source, library)
    for step, reading in enumerate(rule.expect):
        _check_source(report, (*path, "expect", step, "source"), reading.source, library)


def check_references(library: Library) -> list[Problem]:
    """Return what the rules refer to and isn't there: the quick part of `check_library`."""
    problems: list[Problem] = []
    rule_ids = _rule_ids(library, problems)
    for pack in library.rules:
        report = _Report(pack)
        for index, rule in enumerate(pack.model.checks):
            _check_references(report, ("checks", index), rule, library, rule_ids)
        problems.extend(report.problems)
    return problems


def _check_derive(report: _Report, path: Path, derive: DeriveRule, library: Library, names: Names) -> None:
    report.text((*path, "title"), derive.title, names)
    _check_source(report, (*path, "source"), derive.source, library)
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


def _check_state(report: _Report, path: Path, text: str, library: Library) -> None:
    subject, _, state = text.rpartition(" ")
    states = {name: set(entry.states) for name, entry in library.plant_states.items()}
    if "{{" in subject:
        if not any(
            state in library.plant_states[name].states for name in states if library.plant_states[name].per
        ):
            accepted = name_list(
                sorted({s for name, e in library.plant_states.items() if e.per for s in e.states}), 40
            )
            report.say(path, f"unknown state {state!r} of an item", accepted)
    elif subject not in states or state not in states[subject]:
        accepted = "; ".join(
            f"{name} {'|'.join(entry.states)}" for name, entry in library.plant_states.items()
        )
        written = [f"{name} {s}" for name, all_states in states.items() for s in all_states]
        report.say(path, f"unknown plant state {text!r}", accepted, nearest_name(text, written))


def _check_source(report: _Report, path: Path, source: SourceReference | None, library: Library) -> None:
    if source is not None:
        report.known(path, source.id, library.sources, "source")


def _check_reading_ids(report: _Report, path: Path, rule: CheckRule) -> None:
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
        if reading.condition and reading.id not in wanted:
            report.say(place, f"the condition {reading.id} that no reading names", "valid_if: on a reading")


_LIMITS = ("at_least", "at_most", "between", "about", "is_", "record")


def _check_reading(
    report: _Report, path: Path, reading: ReadingRule, rule: CheckRule, library: Library, names: Names
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


#: The usual target for the ratio of tolerance to uncertainty, and the ratio below which nothing can pass.
USUAL_RATIO, LEAST_RATIO = 4.0, 1.0


def _check_instrument(
    report: _Report, path: Path, reading: ReadingRule, rule: CheckRule, library: Library
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


def _check_tolerance(report: _Report, path: Path, reading: ReadingRule, names: Names) -> None:
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


def _circles(library: Library) -> Iterator[Problem]:
    """Yield a problem for each rule that must come after itself."""
    places = {
        rule.id: (pack, index, rule) for pack in library.rules for index, rule in enumerate(pack.model.checks)
    }
    done: set[str] = set()
    for start in places:
        stack: list[tuple[str, list[str]]] = [(start, [start])]
        while stack:
            name, chain = stack.pop()
            if name in done or name not in places:
                continue
            for other in places[name][2].after:
                if other == start:
                    pack, index, _ = places[start]
                    text = " after ".join([*chain, start])
                    yield Problem(
                        pack.mark_of(("checks", index, "after")),
                        f"checks[{index + 1}].after",
                        f"a circle: {text}",
                    )
                elif other not in chain:
                    stack.append((other, [*chain, other]))
        done.add(start)


LAW_NAMES: Names = {"zone": TEXT_TYPE, "category": TEXT_TYPE, "flag": FLAG}


def _check_law(pack: Loaded[LawPack], library: Library) -> list[Problem]:
    report, law = _Report(pack), pack.model
    report.condition(("applies",), law.applies, {"flag": FLAG})
    report.value(("zone_of",), law.zone_of, {})
    for name, band in law.zones.items():
        _check_band(report, ("zones", name), band, law.zone_of)
    names = {
        **LAW_NAMES,
        "zone": Type("text", choices=tuple(law.zones)),
        "category": Type("text", choices=tuple(law.categories)),
    }
    seen: set[str] = set()
    for index, requirement in enumerate(law.requires):
        path: Path = ("requires", index)
        if requirement.id in seen:
            report.say(
                (*path, "id"),
                f"the id {requirement.id!r} stands twice",
                "an id of its own for each requirement",
            )
        seen.add(requirement.id)
        report.known((*path, "item"), requirement.item, library.gear, "gear item")
        report.condition((*path, "when"), requirement.when, names)
        report.of_unit((*path, "quantity"), requirement.quantity, names, "")
        for place, instead in enumerate(requirement.or_else):
            for other_item, quantity in instead.items():
                report.known((*path, "or_else", place), other_item, library.gear, "gear item")
                report.of_unit((*path, "or_else", place, other_item), quantity, names, "")
        report.value((*path, "service_every"), requirement.service_every, names)
        for key in ("approval", "upkeep", "verify", "note", "instead"):
            report.text((*path, key), getattr(requirement, key), names)
        first = requirement.clause.split(" ")[0].rstrip(",;")
        report.known((*path, "clause"), first, law.instruments, "instrument of this law")
    for name, item in law.gear.items():
        for other in item.satisfied_by:
            report.known(("gear", name, "satisfied_by"), other, library.gear, "gear item")
    return report.problems


def _check_band(report: _Report, path: Path, band: Band, zone_of: str) -> None:
    wanted = report.value(("zone_of",), zone_of, {})
    for key in ("at_least", "above", "at_most", "below"):
        text = getattr(band, key)
        found = report.value((*path, key), text, {})
        if found is not None and wanted is not None and not same_kind(found, wanted):
            report.say((*path, key), f"{found}", f"{wanted}, as `zone_of` is")


def _check_stores(pack: Loaded[StoresPack], library: Library) -> list[Problem]:
    report = _Report(pack)
    for index, item in enumerate(pack.model.items):
        path: Path = ("items", index)
        bound = report.attempt((*path, "for_each"), partial(bound_names, item.for_each, item.as_))
        if bound is None:
            continue
        report.text((*path, "title"), item.title, bound[0])
        report.text((*path, "why"), item.why, bound[0])
        report.condition((*path, "when"), item.when, bound[0])
        report.of_unit((*path, "quantity"), item.quantity, bound[0], "")
        _check_source(report, (*path, "source"), item.source, library)
    return report.problems


def _check_catalogue(library: Library) -> list[Problem]:
    problems: list[Problem] = []
    for pack in library.catalogue:
        report = _Report(pack)
        for index, default in enumerate(pack.model.defaults):
            _check_default(report, ("defaults", index), default.key, default.when, default.value, library)
            _check_source(report, ("defaults", index, "source"), default.source, library)
        for index, question in enumerate(pack.model.questions):
            report.attempt(("questions", index, "key"), partial(key_type, question.key))
        for name, entry in pack.model.plant_states.items():
            if entry.per is not None:
                report.attempt(("plant_states", name, "per"), partial(type_at, entry.per))
        for name, item in pack.model.gear.items():
            for other in item.satisfied_by:
                report.known(("gear", name, "satisfied_by"), other, library.gear, "gear item")
        problems.extend(report.problems)
    return problems


def key_type(pattern: str) -> tuple[Type, Names]:
    """Return the type at a key pattern such as `engines[].power`, and the name that it binds to the item."""
    head, bracket, rest = pattern.partition("[].")
    if not bracket:
        return type_at(pattern), {}
    items = type_at(head)
    if items.word != "list" or items.element is None:
        raise TypeFault(f"{head!r} is {items}", "a list")
    current = items.element
    for step in rest.split("."):
        current = attribute_type(current, step)
    return current, {singular_at(head): items.element}


def _check_default(
    report: _Report, path: Path, key: str, when: str | None, value: str, library: Library
) -> None:
    found = report.attempt((*path, "key"), lambda: key_type(key))
    if found is None:
        return
    wanted, names = found
    report.condition((*path, "when"), when, names)
    given = report.value((*path, "value"), value, names)
    if given is None:
        return
    if not (same_kind(wanted, given) or (wanted.word == "flag" and given == FLAG)):
        report.say((*path, "value"), f"{given}", f"{wanted}, as `{key}` is")
