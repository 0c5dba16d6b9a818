"""The words in which verdicts, grades and settlements are printed."""

from __future__ import annotations

GRADE_WORDS = {
    "stop": "Stop",
    "before-handover": "Before handover",
    "by-date": "By an agreed date",
    "remark": "Remark",
}

BASIS_WORDS = {
    "contract": "contract",
    "maker": "maker",
    "law": "law",
    "standard": "standard",
    "computed": "computed",
    "common-practice": "common practice",
    "assumed": "assumed",
}

#: The same in one word, for the sheets.
BASIS_WORD = BASIS_WORDS | {"common-practice": "practice"}

VERDICT_WORDS = {
    "pass": "pass",
    "fail": "fail",
    "leaning-pass": "too close, leaning pass",
    "leaning-fail": "too close, leaning fail",
    "limited": "limited by conditions",
    "met": "condition met",
    "not-met": "condition not met",
    "not-recorded": "condition not recorded",
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

#: The same while the snag is still open: what is to happen.
PENDING_WORDS = SETTLEMENT_WORDS | {
    "mended-before-handover": "to be mended before handover",
    "mended-by-date": "to be mended by the day, a sum held back",
}

#: The same in a few words, for a column of the agreement.
SETTLEMENT_SHORT = {
    "mended-before-handover": "mended before handover",
    "mended-by-date": "mended by the day, sum held",
    "price-reduced": "price reduced",
    "accepted": "accepted as it is",
    "disputed": "disputed",
}
HANDOVER_WORDS = {"yes": "advisable", "no": "not advisable", "cannot-be-said": "can't be said yet"}

CAUSE_WORDS = {"open": "open", "proved": "proved gone", "not-proved": "not proved gone"}
