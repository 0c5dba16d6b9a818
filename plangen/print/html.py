"""Templates filled as HTML, escaped throughout."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import Any, Literal

from jinja2 import Environment, PackageLoader, StrictUndefined

from plangen.collect.field_names import (
    ATTEMPTS_FIELD,
    also_field,
    by_field,
    note_field,
    plan_field,
    plan_value,
    question_field,
    retest_field,
    round_field,
    snag_field,
)
from plangen.plan.model import Plan
from plangen.print.carried.words import day_in_words
from plangen.print.pdf.parts import part_mark
from plangen.print.sources import source_text
from plangen.print.words import GRADE_WORDS
from plangen.spec.quantity import number_text

Paper = Literal["A4", "letter"]


@dataclass(frozen=True)
class Document:
    """What is printed: its HTML, its style sheets among the templates, and what stands at the left of each page's foot.

    Without a foot the style draws its own.
    """

    html: str
    style: str
    more_style: str = ""
    foot: str = ""


def foot_of(plan: Plan) -> str:
    """Return what stands at the left of each page's foot: the boat, and the plan that the page belongs to."""
    return f"{plan.boat.name} · plan {plan.short_digest}"


@cache
def _environment() -> Environment:
    environment = Environment(
        loader=PackageLoader("plangen.print", "templates"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
    )
    environment.filters["day_in_words"] = day_in_words
    environment.filters["hours"] = hours_text
    environment.filters["stopped"] = stopped
    environment.filters["amount"] = amount_text
    environment.filters["significant"] = number_text
    environment.filters["setting_word"] = lambda text: str(text).replace("-", " ")
    return environment


def hours_text(minutes: float) -> str:
    """Write minutes as hours and minutes.

    >>> hours_text(95), hours_text(12)
    ('1 h 35 min', '12 min')
    """
    whole = round(minutes)
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def stopped(text: str) -> str:
    """Return a remark as a sentence of its own: with a full stop, where it has no mark at its end.

    >>> stopped("hose cracked"), stopped("hose cracked!"), stopped("")
    ('hose cracked.', 'hose cracked!', '')
    """
    bare = text.rstrip()
    return bare if not bare or bare[-1] in ".!?" else f"{bare}."


def amount_text(quantity: float) -> str:
    """Write a number of things without needless decimals."""
    return f"{quantity:g}"


@dataclass(frozen=True)
class Assumption:
    """Keys for which the same value is assumed for the same reason."""

    keys: str
    value: str
    why: str


def assumptions_of(plan: Plan) -> tuple[Assumption, ...]:
    """Return the assumed values, those that are alike together."""
    alike: dict[tuple[str, str], list[str]] = {}
    for line in plan.assumed:
        alike.setdefault((line.value, line.why), []).append(line.key)
    return tuple(Assumption(", ".join(keys), value, why) for (value, why), keys in alike.items())


def render(template: str, **values: Any) -> str:
    """Return a template filled with values, under which every template finds the names that it needs."""
    names = {
        "note_field": note_field,
        "by_field": by_field,
        "snag_field": snag_field,
        "also_field": also_field,
        "plan_field": plan_field,
        "plan_value": plan_value,
        "question_field": question_field,
        "round_field": round_field,
        "retest_field": retest_field,
        "attempts_field": ATTEMPTS_FIELD,
        "source_text": source_text,
        "part_mark": part_mark,
        "grade_words": GRADE_WORDS,
    }
    return _environment().get_template(template).render(**names, **values)
