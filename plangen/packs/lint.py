"""Holding whole packs against the models, the formulas, the catalogue and one another, without any boat."""

from __future__ import annotations

from collections.abc import Iterator

from plangen.packs.library import Library
from plangen.packs.lint_catalogue import check_catalogue, check_stores
from plangen.packs.lint_law import check_law
from plangen.packs.lint_report import Report
from plangen.packs.lint_rules import check_rule_references, check_rules
from plangen.spec.problems import Problem


def check_library(library: Library) -> list[Problem]:
    """Return every fault of the loaded packs, in the order of files and lines."""
    problems: list[Problem] = []
    rule_ids = _rule_ids(library, problems)
    for pack in library.rules:
        problems.extend(check_rules(pack, library, rule_ids))
    problems.extend(_circles(library))
    for law in library.law:
        report = Report(law)
        check_law(report, law.model, library)
        problems.extend(report.problems)
    for stores in library.stores:
        problems.extend(check_stores(stores, library))
    problems.extend(check_catalogue(library))
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


def check_references(library: Library) -> list[Problem]:
    """Return what the rules refer to and isn't there: the quick part of `check_library`."""
    problems: list[Problem] = []
    rule_ids = _rule_ids(library, problems)
    for pack in library.rules:
        report = Report(pack)
        for index, rule in enumerate(pack.model.checks):
            check_rule_references(report, ("checks", index), rule, library, rule_ids)
        problems.extend(report.problems)
    return problems


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
