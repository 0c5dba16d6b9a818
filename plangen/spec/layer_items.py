"""Items that a layer names: those of the spec below, those that it adds, and those that are only misspelt."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from plangen.spec.names import slug
from plangen.spec.problems import Problem, name_list, nearest_name
from plangen.spec.yaml_source import Node

#: What only says which piece a thing is; an item that states nothing else was meant for one that is there.
IDENTITY = frozenset({"name", "formerly", "maker", "model", "year", "serial", "firmware"})
#: Words of so many letters may differ by one; of two letters changed about, shorter ones too.
_LETTERS, _SWAPPED = 4, 3
#: Words of so many letters may differ by two.
_LONG = 7


def check_layer_item(item: Node, name: str, below: Mapping[str, Node], path: str) -> Iterator[Problem]:
    """Yield what is wrong with an item that no item of the spec below has the name of.

    `add: yes` says that it is a new one whatever it is called, `remove: yes` that one below isn't aboard.
    """
    keys = item.mapping or {}
    mark = item.mark_at(("name",))
    nearest = nearest_name(name, below)
    there = name_list(list(below)) or "none is listed there"
    if "remove" in keys and keys["remove"].says(True):
        yield Problem(mark, path, f"{name!r} to remove: no such item below", there, nearest)
        return
    if "add" in keys and keys["add"].says(True):
        return
    misspelt = next((other for other in below if is_misspelt(name, other)), None)
    if misspelt is not None:
        found = f"{name!r}: no such item in the spec below, which has {misspelt!r}"
        accepted = "a name from below; for an item that is new, `add: yes` beside its name"
        yield Problem(mark, path, found, accepted, misspelt)
    elif set(keys) <= IDENTITY and set(keys) - {"name", "formerly"}:
        found = f"{name!r}: no such item in the spec below, and nothing is said of it but {name_list(sorted(set(keys) - {'name'}))}"
        yield Problem(mark, path, found, f"a name from below ({there}), or an item with its data", nearest)


def is_misspelt(name: str, other: str) -> bool:
    """Tell whether a name is another one with a slip of the pen, rather than that of another item.

    >>> is_misspelt("prot engine", "port engine"), is_misspelt("strabord engine", "starboard engine")
    (True, True)
    >>> is_misspelt("house bank 2", "house bank 1"), is_misspelt("fore cabin", "port cabin"), is_misspelt("Portengine", "port engine")
    (False, False, True)
    """
    words, others = slug(name).split("-"), slug(other).split("-")
    if "".join(words) == "".join(others):
        return True
    if len(words) != len(others):
        return False
    differing = [pair for pair in zip(words, others, strict=True) if pair[0] != pair[1]]
    return all(_slip(*pair) for pair in differing)


def _slip(word: str, other: str) -> bool:
    if any(character.isdigit() for character in word + other):
        return False
    shorter = min(len(word), len(other))
    changed = _changes(word, other)
    if changed == 1:
        swapped = len(word) == len(other) and sorted(word) == sorted(other)
        return shorter >= (_SWAPPED if swapped else _LETTERS)
    return changed == 2 and shorter >= _LONG


def _changes(word: str, other: str) -> int:
    """Return how many letters have to be left out, put in, changed, or changed about with the next to get the other word."""
    rows = [list(range(len(other) + 1))]
    for i, letter in enumerate(word, start=1):
        row = [i]
        for j, wanted in enumerate(other, start=1):
            best = min(rows[-1][j] + 1, row[-1] + 1, rows[-1][j - 1] + (letter != wanted))
            if i > 1 and j > 1 and letter == other[j - 2] and word[i - 2] == wanted:
                best = min(best, rows[-2][j - 2] + 1)
            row.append(best)
        rows.append(row)
    return rows[-1][-1]
