"""A findings file of the time when readings went by their words: read once, rewritten to ids, nothing lost."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from pathlib import Path

from plangen.findings.carry import Carried, carry
from plangen.findings.read import read_findings
from plangen.plan.draft import draft_plan
from plangen.plan.model import Plan
from plangen.spec.load import load_spec_file
from plangen.spec.yaml_source import Node, read_yaml
from tests.conftest import SPECS, shipped

OLD = Path(__file__).with_name("findings_by_words.yaml").read_text("utf-8")


@cache
def planned() -> Plan:
    """The used monohull's plan, in the units that the file was written in."""
    library = shipped()
    return draft_plan(load_spec_file(SPECS / "monohull.yaml", library.zone_sets()), library, "us").plan


@cache
def carried() -> Carried:
    """The old file, carried over to today's plan."""
    return carry(OLD, "findings.yaml", None, planned())


def values(node: Node) -> Iterator[object]:
    """Every value of a file."""
    for child in [*(node.mapping or {}).values(), *(node.items or [])]:
        yield from values(child)
    if node.mapping is None and node.items is None and node.value not in (None, ""):
        yield node.value


def test_nothing_that_was_typed_is_lost() -> None:
    def all_of(text: str) -> list[str]:
        root = read_yaml(text, "x", 10**7).mapping or {}
        sections = [root[key] for key in ("checks", "apart", "snags", "snags_apart") if key in root]
        return sorted(str(value) for section in sections for value in values(section))

    assert all_of(carried().text) == all_of(OLD)


def test_most_of_it_is_found_under_ids_and_reads_without_a_fault() -> None:
    findings = read_findings(carried().text, "findings.yaml", planned())
    ids = {(check.id, e.id) for check in planned().checks for e in check.expect}
    typed = [
        (id, name) for id, attempts in findings.checks.items() for one in attempts for name in one.values
    ]
    known = sum(pair in ids for pair in typed)
    assert known / len(typed) > 0.9
    assert len(carried().kept) > 150
    assert carried().renamed["hull-identification@second-wind"] == "hull-identification@boat"


def test_a_second_draft_changes_nothing_more() -> None:
    assert carry(carried().text, "findings.yaml", planned(), planned()).text == carried().text
