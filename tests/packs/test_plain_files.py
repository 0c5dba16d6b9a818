"""What is kept of a pack's file says the same as its YAML, types and days included."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from plangen.kept import Kept
from plangen.packs.library import shipped_packs
from plangen.packs.plain_files import read_plain
from plangen.spec.problems import InputProblems
from plangen.spec.yaml_source import read_yaml_file


def typed(value: Any) -> Any:
    """Return a value in which each leaf says its type."""
    if isinstance(value, dict):
        return {key: typed(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [typed(inner) for inner in value]
    return type(value).__name__, value


def test_every_shipped_file_comes_back_as_its_yaml_says(tmp_path: Path) -> None:
    kept, folder = Kept(tmp_path), shipped_packs()
    for path in sorted(folder.rglob("*.yaml")):
        expected = typed(read_yaml_file(path).plain())
        assert typed(read_plain(path, path.name, kept).values) == expected
        assert typed(read_plain(path, path.name, kept).values) == expected, "the second time, as it was kept"


def test_a_changed_file_is_read_again(tmp_path: Path) -> None:
    kept, file = Kept(tmp_path / "kept"), tmp_path / "pack.yaml"
    file.write_text("day: 2030-02-01\nword: yes\n", encoding="utf-8")
    first = read_plain(file, "pack.yaml", kept).values
    file.write_text("day: 2030-02-02\nword: yes\n", encoding="utf-8")
    assert read_plain(file, "pack.yaml", kept).values != first


def test_places_are_those_of_the_file_though_its_values_were_kept(tmp_path: Path) -> None:
    kept, file = Kept(tmp_path / "kept"), tmp_path / "pack.yaml"
    file.write_text("a: 1\nb:\n  - c: 2\n", encoding="utf-8")
    for _ in range(2):
        assert str(read_plain(file, "pack.yaml", kept).mark_at(("b", 0, "c"))) == "pack.yaml:3:5"


def test_a_faulty_file_is_never_kept(tmp_path: Path) -> None:
    kept, file = Kept(tmp_path / "kept"), tmp_path / "pack.yaml"
    file.write_text("a: 1\na: 2\n", encoding="utf-8")
    for _ in range(2):
        with pytest.raises(InputProblems, match="stands twice"):
            read_plain(file, "pack.yaml", kept)
