"""Acceptance-trial plans for cruising boats.

`load_spec` reads a boat's spec with the packs that concern her, `draft` makes her trial plan, `explain` says why a
check is in it, `assess_findings` judges what was found, `compare` holds two plans side by side, `tally` counts over many hulls.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from plangen.api import (
        Boat,
        answer,
        assess_findings,
        compare,
        draft,
        explain,
        load_findings,
        load_instruments,
        load_plan,
        load_spec,
        tally,
    )

__version__ = "0.1.0"
__all__ = [
    "Boat",
    "answer",
    "assess_findings",
    "compare",
    "draft",
    "explain",
    "load_findings",
    "load_instruments",
    "load_plan",
    "load_spec",
    "tally",
]


def __getattr__(name: str) -> Any:
    """Import the library's calls when one is first asked for, so that importing the package costs nothing."""
    if name in __all__:
        from plangen import api

        return getattr(api, name)
    raise AttributeError(f"module 'plangen' has no attribute {name!r}")
