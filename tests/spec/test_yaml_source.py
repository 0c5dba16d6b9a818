"""YAML that may come from a stranger."""

from __future__ import annotations

import datetime
import time

import pytest

from plangen.spec.problems import InputProblems
from plangen.spec.yaml_source import LARGEST_FILE, read_yaml, read_yaml_file
from tests.conftest import faults


def test_values_keep_their_places() -> None:
    node = read_yaml("a: 1\nb: [x, 2026-01-02]\nc: {d: 1.5}\n", "t.yaml")
    assert node.plain() == {"a": 1, "b": ["x", datetime.date(2026, 1, 2)], "c": {"d": 1.5}}
    assert str(node.mark_at(("c", "d"))) == "t.yaml:3:5"
    assert str(node.mark_at(("b", 1))) == "t.yaml:2:8"


def test_yes_and_no_stay_words_as_in_yaml_1_2() -> None:
    """YAML 1.2.2, section 10.3.2: only true and false are booleans in the core schema."""
    assert read_yaml("a: no\nb: on\nc: true", "t").plain() == {"a": "no", "b": "on", "c": True}


BOMB = "x0: &x0 [1,1,1,1,1,1,1,1,1,1]\n" + "\n".join(
    f"x{i}: &x{i} [{','.join([f'*x{i - 1}'] * 10)}]" for i in range(1, 9)
)


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("a: [1", "isn't closed"),
        ("a: 1\n\t- b", "a tab"),
        ("a: !!python/object/apply:os.system [ls]", "the tag"),
        ("a: !include other.yaml", "the tag"),
        ("a: &a [*a]", "inside its own value"),
        ("a: *nothing", "not valid YAML|without an anchor"),
        ("[" * 5000, "nested too deep"),
        ("a: 1\n---\nb: 1", "a second document"),
        ("? [a, b]\n: c", "a key that is itself a list"),
        ("a: \x00", "not valid YAML"),
        (BOMB, "too many values"),
    ],
)
def test_bad_yaml_is_a_clear_fault_and_quickly_so(text: str, part: str) -> None:
    start = time.perf_counter()
    with pytest.raises(InputProblems, match=part):
        read_yaml(text, "t.yaml")
    assert time.perf_counter() - start < 2


def test_every_duplicate_key_is_said() -> None:
    found = faults(lambda: read_yaml("a: 1\na: 2\nb: 1\nb: 2", "t.yaml"))
    assert [(p.mark.line, p.key) for p in found] == [(2, "a"), (4, "b")]


def test_a_file_of_ten_megabytes_is_refused_unread(write) -> None:
    path = write("big.yaml", "a: " + "x" * 10_000_000)
    found = faults(lambda: read_yaml_file(path))
    assert found[0].accepted == f"at most {LARGEST_FILE} bytes"


def test_a_file_that_is_no_text_or_not_there_is_said(tmp_path) -> None:
    (tmp_path / "b.yaml").write_bytes(b"a: \xff\xfe")
    assert "UTF-8" in faults(lambda: read_yaml_file(tmp_path / "b.yaml"))[0].found
    assert "can't be read" in faults(lambda: read_yaml_file(tmp_path / "none.yaml"))[0].found


def test_serial_numbers_stay_as_they_are_written() -> None:
    read = read_yaml(
        "{a: 00123, b: 12E4, c: 0, d: -7, e: 0.50, f: 1e-3, g: 120, h: .5, i: 007.5}", "x.yaml"
    ).plain()
    assert read == {
        "a": "00123",
        "b": "12E4",
        "c": 0,
        "d": -7,
        "e": 0.5,
        "f": 0.001,
        "g": 120,
        "h": 0.5,
        "i": "007.5",
    }
