"""Items that are gone from the spec while alike ones came: perhaps they were only renamed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from plangen.plan.model import Plan
from plangen.spec.names import slug

#: Two items are alike where so many of their rules are the same.
_SHARE = 0.6


@dataclass(frozen=True)
class Suggestion:
    """An item with findings that is gone, and a new one that it may be."""

    gone: str
    came: str

    @property
    def line(self) -> str:
        """Return the line to write under the new item."""
        return f"formerly: {self.gone}"


def suggestions(apart: Iterable[str], before: Plan | None, plan: Plan) -> tuple[Suggestion, ...]:
    """Return for each item whose findings are kept apart the new items of the same kind."""
    if before is None:
        return ()
    now = _rules_by_item(check.id for check in plan.checks)
    then = _rules_by_item(check.id for check in before.checks)
    left = _rules_by_item(apart)
    names = {slug(check.item): check.item for one in (before, plan) for check in one.checks}
    new = {item: rules for item, rules in now.items() if item not in then and item not in left}
    found = []
    for item, typed in left.items():
        rules = then.get(item, typed) | typed
        alike = [other for other, own in new.items() if item not in now and _alike(rules, own, typed)]
        found += [
            Suggestion(names.get(item, item.replace("-", " ")), names.get(other, other)) for other in alike
        ]
    return tuple(found)


def _alike(rules: set[str], others: set[str], typed: set[str]) -> bool:
    return bool(typed & others) and len(rules & others) >= _SHARE * min(len(rules), len(others))


def _rules_by_item(ids: Iterable[str]) -> dict[str, set[str]]:
    found: dict[str, set[str]] = {}
    for id in ids:
        rule, _, item = id.partition("~")[0].partition("@")
        found.setdefault(item, set()).add(rule)
    return found
