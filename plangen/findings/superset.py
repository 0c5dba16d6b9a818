"""Whether one file holds all that another one held."""

from __future__ import annotations

from plangen.spec.yaml_source import Node


def keeps_all(before: Node, after: Node) -> bool:
    """Tell whether every value of one file stands at the same place in the other; a bare text may stand under `what:`."""
    if isinstance(before.value, str) and after.mapping and "what" in after.mapping:
        return keeps_all(before, after.mapping["what"])
    if before.mapping is not None:
        others = after.mapping or {}
        return all(
            keeps_all(node, others[key]) if key in others else not says_something(node)
            for key, node in before.mapping.items()
        )
    if before.items is not None:
        items = after.items or []
        return len(items) >= len(before.items) and all(
            keeps_all(node, items[index]) for index, node in enumerate(before.items)
        )
    return before.value in (None, "") or (
        type(before.value) is type(after.value) and before.value == after.value
    )


def says_something(node: Node) -> bool:
    """Tell whether anything was typed into a value or into any part of it."""
    if node.mapping is not None:
        return any(map(says_something, node.mapping.values()))
    if node.items is not None:
        return any(map(says_something, node.items))
    return node.value not in (None, "")
