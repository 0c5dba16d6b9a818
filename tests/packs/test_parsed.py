"""What is kept of expressions that were read: the same nodes as the grammar gives, and no harm where it is damaged."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from jinja2 import nodes

from plangen.kept import Kept
from plangen.packs.parsed import Parsed
from plangen.packs.syntax import ExpressionError, parse_expression, parse_text

EXPRESSIONS = [
    "tank.capacity / 4",
    "'12 V' | q if engine.fuel == 'diesel' and not stated(engine.power) else -1.5e3",
    "wind(at=vessel.beam, over=[1, 2.0, true, none])",
    "zones[0].name ~ ' é ' ~ 2",
    "2 < tank.capacity <= 3 or 'a' in names",
]
TEXTS = ["no braces", "of {{ tank.name }}, {{ tank.capacity }}: {# gone #} done", "{{ 'x' }}"]


def read_in(kept: Kept, parsed: Parsed) -> list[tuple[nodes.Node, ...]]:
    parsed.remember(kept)
    found = [parsed.read(f"={text}", lambda text=text: [parse_expression(text)]) for text in EXPRESSIONS]  # type: ignore[misc]
    found += [parsed.read(f"'{text}", lambda text=text: parse_text(text)) for text in TEXTS]  # type: ignore[misc]
    parsed.keep(kept)
    return found


def test_another_run_has_the_same_nodes_without_reading_anything(tmp_path: Path) -> None:
    first = read_in(Kept(tmp_path), Parsed())
    again = Parsed()
    again.remember(Kept(tmp_path))

    def never() -> list[nodes.Node]:
        raise AssertionError("read once more")

    keys = [*(f"={text}" for text in EXPRESSIONS), *(f"'{text}" for text in TEXTS)]
    assert [again.read(key, never) for key in keys] == first


@pytest.mark.parametrize(
    "damaged", ["", "[", "[]", '[["Exec", 1]]', '[["Name"]]', '[["Name", 1, 2, 3, 4]]', "[" * 100_000, "7"]
)
def test_what_is_damaged_is_read_from_its_text(tmp_path: Path, damaged: str) -> None:
    first = read_in(Kept(tmp_path), Parsed())
    (file,) = (path for path in tmp_path.iterdir())
    kept = Kept(tmp_path)
    kept.put(file.name, json.dumps({f"={text}": damaged for text in EXPRESSIONS}).encode())
    assert read_in(kept, Parsed()) == first


def test_without_a_folder_nothing_is_kept(tmp_path: Path) -> None:
    assert read_in(Kept(None), Parsed()) == read_in(Kept(None), Parsed())
    assert not list(tmp_path.iterdir())


def test_what_is_refused_is_not_kept(tmp_path: Path) -> None:
    parsed = Parsed()
    with pytest.raises(ExpressionError):
        parsed.read("=a ** b", lambda: [parse_expression("a ** b")])
    parsed.keep(Kept(tmp_path))
    assert not list(tmp_path.iterdir())
