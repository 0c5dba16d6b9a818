"""The words in which verdicts, grades and settlements are printed."""

from __future__ import annotations

from plangen.print.sheets import GRADE_WORDS

__all__ = ["GRADE_WORDS", "SETTLEMENT_WORDS", "VERDICT_WORDS"]

VERDICT_WORDS = {
    "pass": "pass",
    "fail": "fail",
    "leaning-pass": "too close, leaning pass",
    "leaning-fail": "too close, leaning fail",
    "not-done": "not done",
    "does-not-apply": "doesn't apply",
    "recorded": "recorded",
    "unclear": "unclear",
}

SETTLEMENT_WORDS = {
    "mended-before-handover": "mended before handover",
    "mended-by-date": "mended by a date against a sum held back",
    "price-reduced": "price reduced",
    "accepted": "accepted as it is",
    "disputed": "disputed",
}
