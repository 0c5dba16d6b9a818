"""Holding the catalogue and the lists of stores against the spec and one another, without any boat."""

from __future__ import annotations

from functools import partial

from plangen.packs.items import bound_names, key_type
from plangen.packs.library import Library, Loaded
from plangen.packs.lint_law import check_aboard, check_gear, check_waters
from plangen.packs.lint_order_of_work import check_order_of_work
from plangen.packs.lint_report import Path, Report, check_source
from plangen.packs.model import InferredRule, SpokenWords, StoresPack
from plangen.packs.types import FLAG, Names, attribute_type, same_kind, type_at
from plangen.spec.explain import shape_at
from plangen.spec.model import Spec
from plangen.spec.problems import Problem
from plangen.spec.short_words import choices_of


def check_stores(pack: Loaded[StoresPack], library: Library) -> list[Problem]:
    report = Report(pack)
    for index, item in enumerate(pack.model.items):
        path: Path = ("items", index)
        bound = report.attempt((*path, "for_each"), partial(bound_names, item.for_each, item.as_))
        if bound is None:
            continue
        report.text((*path, "title"), item.title, bound[0])
        report.text((*path, "why"), item.why, bound[0])
        report.condition((*path, "when"), item.when, bound[0])
        report.of_unit((*path, "quantity"), item.quantity, bound[0], "")
        check_source(report, (*path, "source"), item.source, library)
    return report.problems


def check_catalogue(library: Library) -> list[Problem]:
    problems: list[Problem] = []
    asked: set[str] = set()
    for pack in library.catalogue:
        report = Report(pack)
        for index, default in enumerate(pack.model.defaults):
            _check_default(report, ("defaults", index), default.key, default.when, default.value, library)
            check_source(report, ("defaults", index, "source"), default.source, library)
        for index, rule in enumerate(pack.model.inferred):
            _check_inferred(report, ("inferred", index), rule)
            check_source(report, ("inferred", index, "source"), rule.source, library)
        for index, section in enumerate(pack.model.sections):
            report.attempt(("sections", index, "key"), partial(type_at, section.key))
            report.condition(("sections", index, "when"), section.when, {})
        for index, question in enumerate(pack.model.questions):
            report.attempt(("questions", index, "key"), partial(key_type, question.key))
            if question.key in asked:
                report.say(
                    ("questions", index, "key"),
                    f"{question.key!r} is asked in two ways",
                    "one question for a key",
                )
            asked.add(question.key)
        for index, key in enumerate(pack.model.owner_knows):
            if shape_at(Spec, tuple(key.split("."))) is None:
                report.say(
                    ("owner_knows", index), f"no key {key!r} in the spec", "the path of a key or section"
                )
        if pack.model.other_words is not None:
            _check_other_words(report, pack.model.other_words, library)
        check_order_of_work(report, pack.model, library)
        check_gear(report, pack.model.gear, library)
        check_aboard(report, pack.model.aboard, library)
        check_waters(report, pack.model.waters, library)
        problems.extend(report.problems)
    return problems


def _check_other_words(report: Report, spoken: SpokenWords, library: Library) -> None:
    """Hold the keys, values and places that other words stand for against the spec, the packs and the waters."""
    for key in spoken.keys:
        if shape_at(Spec, tuple(key.split("."))) is None:
            report.say(("other_words", "keys", key), f"no key {key!r} in the spec", "the path of a key")
    for key, table in spoken.values.items():
        shape = shape_at(Spec, tuple(key.split(".")))
        choices = choices_of(shape) if shape is not None else ()
        for value in table:
            for one in value.split(" or "):
                report.known(("other_words", "values", key, value), one, choices, f"value of {key}")
    for place in spoken.places:
        known = (*library.known_jurisdictions, *library.waters)
        report.known(("other_words", "places", place), place, known, "flag or water")


def _check_inferred(report: Report, path: Path, rule: InferredRule) -> None:
    at = report.attempt((*path, "key"), lambda: key_type(rule.key))
    bound = report.attempt((*path, "for_each"), lambda: bound_names(rule.for_each, rule.as_))
    if at is None or bound is None:
        return
    names: Names = {**at[1], **bound[0]}
    section = at[0].element or at[0]
    report.condition((*path, "when"), rule.when, names)
    for name, given in rule.gives.items():
        key = (*path, "gives", name)
        wanted = report.attempt(key, partial(attribute_type, section, name))
        if isinstance(given, str):
            report.text(key, given, names)
            if wanted is not None and wanted.choices and "{{" not in given:
                report.known(key, given, wanted.choices, f"value of {name}")


def _check_default(
    report: Report, path: Path, key: str, when: str | None, value: str, library: Library
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
