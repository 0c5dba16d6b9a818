"""Holding whole packs against the models, the formulas, the catalogue and one another, without any boat."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from plangen.packs.library import Library, Loaded, shipped_packs
from plangen.packs.lint_catalogue import check_catalogue, check_stores
from plangen.packs.lint_law import check_law
from plangen.packs.lint_report import Report
from plangen.packs.lint_rules import check_rule_references, check_rules
from plangen.spec.problems import Problem


def check_library(library: Library) -> list[Problem]:
    """Return every fault of the loaded packs, in the order of files and lines."""
    return _faults(library, library)


def check_own(library: Library) -> list[Problem]:
    """Return the faults of packs and house file of the user's own, in the words of the house file where it made them.

    A shipped rule that refers to one that the house file drops is no fault.
    """
    shipped, overlay = shipped_packs(), library.overlay
    packs: list[Loaded[Any]] = [*library.rules, *library.law, *library.stores, *library.catalogue]
    files = {pack.source.mark.file for pack in packs if pack.file.is_relative_to(shipped)}
    own = replace(
        library,
        rules=[
            pack
            for pack in library.rules
            if not pack.file.is_relative_to(shipped)
            or (overlay is not None and pack.model.pack in overlay.packs)
        ],
        law=[pack for pack in library.law if not pack.file.is_relative_to(shipped)],
        stores=[pack for pack in library.stores if not pack.file.is_relative_to(shipped)],
        catalogue=[pack for pack in library.catalogue if not pack.file.is_relative_to(shipped)],
    )
    found = [problem for problem in _faults(own, library) if problem.mark.file not in files]
    if overlay is None:
        return found
    return [overlay.house.in_its_words(problem) for problem in (*overlay.problems, *found)]


def _faults(checked: Library, library: Library) -> list[Problem]:
    """Return the faults of some packs, held against all of the library."""
    problems: list[Problem] = []
    rule_ids = _rule_ids(library, problems)
    for pack in checked.rules:
        problems.extend(check_rules(pack, library, rule_ids))
    instruments = [(Report(one), one.model.instruments) for one in checked.rules]
    instruments += [(Report(one), one.model.instruments) for one in checked.catalogue]
    for report, entries in instruments:
        for name, entry in entries.items():
            for step, other in enumerate(entry.serves):
                report.known(("instruments", name, "serves", step), other, library.instruments, "instrument")
        problems.extend(report.problems)
    problems.extend(_circles(library))
    for law in checked.law:
        report = Report(law)
        check_law(report, law.model, library)
        problems.extend(report.problems)
    for stores in checked.stores:
        problems.extend(check_stores(stores, library))
    problems.extend(check_catalogue(checked))
    return sorted(set(problems), key=lambda p: (p.mark.file, p.mark.line, p.mark.column, p.found))


def _rule_ids(library: Library, problems: list[Problem]) -> dict[str, str]:
    """Return the pack of each rule by its id; of two rules with one id, that of the user's own is at fault."""
    found: dict[str, str] = {}
    shipped = shipped_packs()
    for pack in sorted(library.rules, key=lambda pack: not pack.file.is_relative_to(shipped)):
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
            for other in places[name][2].earlier:
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
