"""What has to be brought, and how many checks need it."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from plangen.packs.library import Library
from plangen.packs.model import Instrument
from plangen.packs.uncertainty_ratio import fixed_error
from plangen.plan.model import KitItem, PlannedCheck

_KINDS = ("instrument", "tool", "consumable", "protection")


def kit_of(checks: Sequence[PlannedCheck], library: Library) -> tuple[KitItem, ...]:
    """Return the instruments, tools and consumables that the checks name."""
    needed = Counter(name for check in checks for name in check.instruments)
    items = [
        KitItem(
            id=name, title=entry.title, kind=entry.kind, measures=entry.measures, range=entry.range,
            accuracy=accuracy_text(entry),
            accuracy_fixed=fixed_error(entry, entry.unit) if entry.accuracy is not None else None,
            accuracy_percent=entry.accuracy_percent, unit=entry.unit, checks=count,
        )
        for name, count in needed.items()
        for entry in [library.instruments[name]]
    ]  # fmt: skip
    return tuple(sorted(items, key=lambda item: (_KINDS.index(item.kind), item.title)))


def accuracy_text(instrument: Instrument) -> str:
    """Write an instrument's accuracy.

    >>> accuracy_text(Instrument(title="x", accuracy="0.02 V", accuracy_percent=0.5))
    '± (0.5 % of reading + 0.02 V)'
    """
    share = f"{instrument.accuracy_percent:g} % of reading" if instrument.accuracy_percent else ""
    fixed = instrument.accuracy if instrument.accuracy not in (None, "0") else ""
    if share and fixed:
        return f"± ({share} + {fixed})"
    return f"± {share or fixed}" if share or fixed else ""
