"""What is written as YAML, against what the library reads of it."""

from __future__ import annotations

from typing import Any

from hypothesis import example, given, settings
from hypothesis import strategies as st
from ruamel.yaml import YAML

from plangen.plan.yaml_text import yaml_text

WORDS = st.text("abcXYZ 09 :#-'\"?!&*[]{},|>%@`=~.°Ωµ–“”…éæ\u00a0\u2028\U0001f600\n\t", max_size=12)
LONG = st.lists(
    st.sampled_from(["word", "it's", "a", "", "12", "Ω", "x:", "#2", "longer-word"]), max_size=60
).map(" ".join)
TEXTS = st.one_of(
    WORDS, LONG, st.sampled_from(["yes", "NO", "null", "12 V", "1e3", "~", "=", "<<", "- a", "a: b", "a #b"])
)
VALUES: st.SearchStrategy[Any] = st.recursive(
    st.one_of(TEXTS, st.none(), st.booleans(), st.integers(), st.floats(-1e9, 1e9)),
    lambda inner: st.one_of(st.lists(inner, max_size=4), st.dictionaries(TEXTS, inner, max_size=4)),
    max_leaves=20,
)


@settings(max_examples=200)
@given(st.dictionaries(TEXTS, VALUES, max_size=5))
@example({"a": {"b": [{"c": ["word " * 60, {"d": "it's " * 40}], "e": {}}, [], {}]}})
@example({"a": [["nested"]], "k" * 200: "long key"})
@example({"a": "trailing ", "b": " leading", "c": "two  spaces " * 20 + "end", "e" * 99: " a b " * 9})
def test_what_is_written_is_read_again(data: dict[str, Any]) -> None:
    assert (YAML(typ="safe", pure=True).load(yaml_text(data)) or {}) == data
