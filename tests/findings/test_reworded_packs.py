"""Any wording of any pack may change: no verdict does, and nothing that was found is lost."""

from __future__ import annotations

import random
from dataclasses import replace
from typing import Any

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from plangen.assess.assess import assess_findings
from plangen.findings.blank import findings_text
from plangen.findings.carry import carry
from plangen.findings.read import read_findings
from plangen.packs.library import Library, Loaded
from plangen.packs.model import CheckRule, ReadingRule, RulePack
from plangen.plan.draft import draft_plan
from plangen.plan.model import Expectation, Plan
from tests.conftest import shipped, spec_from

SPEC = """
vessel: {name: Tern, hull: motor-planing, length_hull: 7 m, persons: 5}
engines: [{name: engine, power: 80 kW, fuel: diesel, drive: shaft}]
heads: [{name: head, flush: electric, tank: holding}]
tanks: [{name: holding, holds: black, capacity: 60 L}]
"""
PACKS = ("waste", "engines", "hull_and_deck", "bilge")


def few(packs: list[Loaded[RulePack]]) -> Library:
    """The shipped catalogue with some packs of rules."""
    own = [pack for pack in packs if pack.model.pack.replace("-", "_") in PACKS]
    rules = {rule.id for pack in own for rule in pack.model.checks}
    return replace(shipped(), rules=[_alone(pack, rules) for pack in own], law=[])


def _alone(pack: Loaded[RulePack], rules: set[str]) -> Loaded[RulePack]:
    checks = tuple(
        rule.model_copy(update={"after": tuple(id for id in rule.after if id in rules)})
        for rule in pack.model.checks
    )
    return replace(pack, model=pack.model.model_copy(update={"checks": checks}))


class Rewording:
    """Other words wherever a pack has words, by a seed."""

    def __init__(self, seed: int) -> None:
        self.random = random.Random(seed)

    def words(self, text: str | None) -> str | None:
        """Other words, or now and then the same."""
        if text is None or self.random.random() < 0.2:
            return text
        return " ".join(
            self.random.choice(("oil", "level", "sound", "free", "drip", "at rest", "no")) for _ in range(4)
        )

    def reading(self, rule: ReadingRule) -> ReadingRule:
        """A reading in other words."""
        parts = tuple(part.model_copy(update={"part": self.words(part.part)}) for part in rule.parts)
        return rule.model_copy(
            update={"reading": self.words(rule.reading), "note": self.words(rule.note), "parts": parts}
        )

    def check(self, rule: CheckRule) -> CheckRule:
        """A rule in other words."""
        return rule.model_copy(
            update={
                "title": self.words(rule.title),
                "do": self.words(rule.do),
                "protects": self.words(rule.protects),
                "watch_out": self.words(rule.watch_out),
                "procedure": tuple(
                    step.model_copy(update={"do": self.words(step.do)}) for step in rule.procedure
                ),
                "expect": tuple(self.reading(reading) for reading in rule.expect),
            }
        )

    def library(self) -> Library:
        """The packs in other words."""
        return few(
            [
                replace(
                    pack,
                    model=pack.model.model_copy(
                        update={
                            "title": self.words(pack.model.title),
                            "checks": tuple(self.check(rule) for rule in pack.model.checks),
                        }
                    ),
                )
                for pack in shipped().rules
            ]
        )


def planned(library: Library) -> Plan:
    """Draft the boat with some packs."""
    return draft_plan(spec_from(SPEC), library).plan


def filled(plan: Plan, seed: int) -> str:
    """Findings in which most readings are filled, some of them badly."""
    chance = random.Random(seed)
    lines = findings_text(plan).splitlines()
    readings = {(check.id, e.id): e for check in plan.checks for e in check.expect}
    check = ""
    for at, line in enumerate(lines):
        name = line.strip().rstrip(":").removesuffix(": []").removesuffix(":")
        if line.startswith("  ") and not line.startswith("   ") and line.endswith(":"):
            check = name
        elif line.startswith("        ") and (check, name) in readings and chance.random() < 0.8:
            lines[at] = f"        {name}: {_typed(readings[check, name], chance)}"
    return "\n".join(lines) + "\n"


def _typed(expected: Expectation, chance: random.Random) -> Any:
    if expected.parts and chance.random() < 0.3:
        return '["1"]'
    if expected.text is not None:
        return chance.choice(("yes", "no"))
    if expected.series:
        return [chance.randint(0, 100) for _ in expected.series]
    return chance.choice((0, 3, 12.5, 80, "~7", "n/a"))


def verdicts(text: str, plan: Plan) -> dict[tuple[str, str], str]:
    """Each reading's verdict by the ids of check and reading, and each check's."""
    found = {}
    for check in assess_findings(plan, read_findings(text, "x", plan)).checks:
        found[check.id, ""] = check.verdict
        for attempt in check.attempts:
            found |= {(check.id, reading.id): reading.verdict for reading in attempt.readings}
    return found


BEFORE = planned(few(list(shipped().rules)))


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.integers(0, 10**6))
def test_other_words_change_no_verdict_and_lose_nothing(seed: int) -> None:
    after = planned(Rewording(seed).library())
    text = filled(BEFORE, seed)
    carried = carry(text, "x", BEFORE, after)
    assert not carried.apart
    assert not carried.second_look
    assert verdicts(carried.text, after) == verdicts(text, BEFORE)
    assert sum(verdict == "fail" for verdict in verdicts(text, BEFORE).values()) > 5


def test_what_was_written_by_the_words_of_then_is_found_by_them() -> None:
    """A file in which readings go by the words of the plan before, as files did before readings had ids."""
    text = filled(BEFORE, 7)
    by_words, check = [], ""
    words = {(one.id, e.id): e.reading for one in BEFORE.checks for e in one.expect}
    for line in text.splitlines():
        name, colon, rest = line.strip().partition(":")
        if line.startswith("  ") and not line.startswith("   ") and not rest:
            check = name
        read_as = words.get((check, name)) if line.startswith("        ") else None
        by_words.append(f'        "{read_as}"{colon}{rest}' if read_as else line)
    after = planned(Rewording(3).library())
    carried = carry("\n".join(by_words) + "\n", "x", BEFORE, after)
    assert verdicts(carried.text, after) == verdicts(text, BEFORE)
