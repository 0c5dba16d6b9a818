"""The lines of the shopping list and of the papers, made from purchases and the demands that they meet."""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from plangen.plan.gear.lines import Demand, GearPurchase, Met
from plangen.plan.gear.purchases import Purchase, Wanted

if TYPE_CHECKING:
    from plangen.plan.gear.merge import Gear

#: How long the kind on the shopping list may be; the inventory by clause holds the whole.
LONGEST_KIND = 90


def shopping_line(
    one: Purchase,
    strength: str,
    known: Sequence[tuple[str, Demand]],
    gear: Gear,
    swaps: Mapping[str, int],
) -> GearPurchase:
    """Return a purchase as it is printed: the strictest demand says why it has to be of this kind."""
    entry = gear.items[one.kind]
    met = [(item, demand) for item, demand in known if demand.key in one.meets]
    strictest = max(
        met,
        key=lambda pair: (
            pair[1].strength == strength,
            pair[0] == one.kind,
            pair[1].quantity,
            -len(pair[1].marks),
            pair[1].key,
        ),
    )[1]
    contents = dict.fromkeys(demand.contents for _, demand in met if demand.contents)
    dated = entry.dated or any(demand.service_days or demand.life_days for _, demand in met)
    return GearPurchase(
        id=f"{one.kind}--{one.mark}" if one.mark else one.kind,
        item=one.kind,
        title=entry.title,
        group=entry.group,
        list=gear.groups[entry.group].list,
        quantity=one.quantity,
        counts=entry.counts,
        strength=strength,
        mark=gear.marks[one.mark].title if one.mark else None,
        kind=short_kind(strictest.approval),
        contents=tuple(contents),
        why=_why(strictest, gear),
        known_by=strictest.known_by,
        dated=dated,
        meets=tuple(
            Met(
                jurisdiction=demand.jurisdiction,
                law=gear.titles.get(demand.jurisdiction, demand.jurisdiction),
                requirement=demand.requirement,
                clause=demand.clause,
                quantity=min(demand.quantity, one.quantity),
                strength=demand.strength,
            )
            for _, demand in met
        ),
        in_place_of=dict(swaps),
    )


def short_kind(approval: str | None) -> str | None:
    """Return the beginning of what a law says about the kind, up to a stop that fits on the list.

    >>> short_kind("class 150; sized to the wearer")
    'class 150; sized to the wearer'
    >>> short_kind("a" * 80 + "; " + "b" * 80) == "a" * 80
    True
    """
    if approval is None or len(approval) <= LONGEST_KIND:
        return approval
    parts = re.split(r"(?<=[;,.]) | - ", approval)
    text = parts[0]
    for part in parts[1:]:
        if len(text) + 1 + len(part) > LONGEST_KIND:
            break
        text = f"{text} {part}"
    if len(text) > LONGEST_KIND:
        text = text[:LONGEST_KIND].rsplit(" ", 1)[0] + " …"
    return text.rstrip(";,. ")


def _why(demand: Demand, gear: Gear) -> str:
    law = gear.titles.get(demand.jurisdiction, demand.jurisdiction).partition(" (")[0]
    return f"{law}: {demand.quantity:g}"


def in_place_of(
    further: Sequence[Purchase], needed: Sequence[Purchase], required: Sequence[Wanted]
) -> list[dict[str, int]]:
    """Return for each recommended purchase which required ones it can stand in for, so that both are met by one.

    >>> fixed = Purchase("fixed", "", 1, frozenset({"law"}))
    >>> dsc = Purchase("dsc", "", 1, frozenset({"advice"}))
    >>> in_place_of([dsc], [fixed], [Wanted("law", 1, frozenset({"fixed", "dsc"}))])
    [{'fixed': 1}]
    """
    left = {index: one.quantity for index, one in enumerate(needed)}
    found: list[dict[str, int]] = []
    for one in further:
        open_, swaps = one.quantity, dict[str, int]()
        for index, other in enumerate(needed):
            wide = all(w.takes(one.kind, one.mark) for w in required if w.id in other.meets)
            count = min(open_, left[index]) if wide else 0
            if count:
                swaps[other.kind] = swaps.get(other.kind, 0) + count
                left[index] -= count
                open_ -= count
        found.append(swaps)
    return found
