"""How much of a law pack its cases hold: numbers, comparisons, dates, strengths and conditions are changed one at a time.

    python -m tests.law.mutants                  # twenty changes in each jurisdiction
    python -m tests.law.mutants finland          # every change; a name and a number: so many, chosen evenly

Prints how many changes some case notices, and those that none does.
"""

from __future__ import annotations

import datetime
import re
import sys
from collections.abc import Iterator
from dataclasses import replace
from typing import Any

from plangen.packs.law import LawPack
from tests.law import test_law_cases as cases

NUMBER = re.compile(r"(?<![\w.])(\d+(?:\.\d+)?)")
COMPARISONS = ((" >= ", " > "), (" <= ", " < "), (" > ", " >= "), (" < ", " <= "), (" == ", " != "))


def changed_texts(text: str) -> Iterator[tuple[str, str]]:
    """Yield the expression with one number or one comparison changed, and what was changed."""
    for found in NUMBER.finditer(text):
        value = float(found[1])
        other = value + 1 if value == int(value) and value < 60 else value * 1.1
        yield f"{found[1]} -> {other:g}", f"{text[: found.start()]}{other:g}{text[found.end() :]}"
    for sign, other_sign in COMPARISONS:
        for found in re.finditer(re.escape(sign), text):
            yield (
                f"{sign.strip()} -> {other_sign.strip()}",
                f"{text[: found.start()]}{other_sign}{text[found.end() :]}",
            )


def mutants(law: LawPack) -> Iterator[tuple[str, LawPack]]:
    """Yield every changed pack with what was changed."""

    def with_requirement(index: int, **keys: Any) -> LawPack:
        requires = list(law.requires)
        requires[index] = requires[index].model_copy(update=keys)
        return law.model_copy(update={"requires": tuple(requires)})

    for index, one in enumerate(law.requires):
        for key in ("when", "quantity"):
            text = getattr(one, key)
            for words, changed in changed_texts(text) if text is not None else ():
                yield f"{one.id} {key} {words}", with_requirement(index, **{key: changed})
        if one.when is not None:
            yield f"{one.id} without its condition", with_requirement(index, when=None)
        other = "recommended" if one.strength == "required" else "required"
        yield f"{one.id} {other}", with_requirement(index, strength=other)
        for key in ("from_", "until"):
            day = getattr(one, key)
            if day is not None:
                later = day + datetime.timedelta(days=1)
                yield f"{one.id} {key} a day later", with_requirement(index, **{key: later})
    for name, band in law.zones.items():
        for key, text in band.model_dump(exclude_none=True).items():
            for words, changed in changed_texts(text):
                zones = {**law.zones, name: band.model_copy(update={key: changed})}
                yield f"zone {name} {key} {words}", law.model_copy(update={"zones": zones})


def noticed(variants: list[cases.Variant]) -> bool:
    """Tell whether some case fails."""
    for variant in variants:
        try:
            cases.check(variant)
        except Exception:
            return True
    return False


def run(jurisdiction: str, most: int | None = None) -> tuple[int, list[str]]:
    """Return how many changes were tried, and those that no case notices."""
    law = cases.library().law
    place = next(i for i, pack in enumerate(law) if pack.model.jurisdiction == jurisdiction)
    original = law[place]
    variants = [variant for variant in cases.case_variants() if variant.jurisdiction == jurisdiction]
    if noticed(variants):
        raise SystemExit(f"{jurisdiction}: its cases fail before anything is changed")
    every = list(mutants(original.model))
    tried = every if most is None else every[:: max(1, len(every) // most)]
    survivors: list[str] = []
    for words, mutant in tried:
        law[place] = replace(original, model=mutant)
        if not noticed(variants):
            survivors.append(words)
    law[place] = original
    return len(tried), survivors


if __name__ == "__main__":
    names = [word for word in sys.argv[1:] if not word.isdigit()]
    numbers = [int(word) for word in sys.argv[1:] if word.isdigit()]
    for name in names or sorted(pack.model.jurisdiction for pack in cases.library().law):
        count, left = run(name, numbers[0] if numbers else None if names else 20)
        sys.stdout.write(f"{name}: {count - len(left)} of {count} noticed\n")
        sys.stdout.writelines(f"  {words}\n" for words in left)
        sys.stdout.flush()
