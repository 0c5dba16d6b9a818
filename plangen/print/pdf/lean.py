"""A PDF is made lean before it is written: tags that say nothing are taken out, drawings that are alike are held once.

What WeasyPrint hands to its finisher is worked on, in its own terms.
"""

from __future__ import annotations

from typing import Any

#: Elements of the structure that only group (ISO 32000-1, 14.8.4): their content can as well belong to what is above them.
_GROUPING = ("/Span", "/NonStruct")


def lean_tags(pdf: Any) -> None:
    """Let marked pieces of text belong to the paragraph or cell itself, not to an element for each of them."""
    import pydyf

    objects = {entry.reference: entry for entry in pdf.objects}
    root = objects.get(pdf.catalog.get("StructTreeRoot"))
    if root is None:
        return
    owners: dict[bytes, bytes] = {}
    elements = [
        entry
        for entry in pdf.objects
        if isinstance(entry, pydyf.Dictionary) and entry.get("Type") == "/StructElem"
    ]
    for element in reversed(elements):  # what is inside stands behind what holds it
        if element["S"] not in _GROUPING or not element["K"]:
            continue
        above = objects.get(element["P"])
        if above is None or above.get("Pg") != element["Pg"]:
            continue
        if element.reference not in above["K"]:
            continue
        place = above["K"].index(element.reference)
        above["K"][place : place + 1] = element["K"]
        for kid in element["K"]:
            inner = objects.get(kid)
            if inner is not None and inner.get("P") == element.reference:
                inner["P"] = above.reference
        owners[element.reference] = above.reference
        element.free = "f"
    if not owners:
        return
    for pieces in objects[root["ParentTree"]]["Nums"]:
        if isinstance(pieces, pydyf.Array):
            pieces[:] = [_owner(piece, owners) for piece in pieces]


def _owner(piece: bytes, owners: dict[bytes, bytes]) -> bytes:
    while piece in owners:
        piece = owners[piece]
    return piece


def lean_drawings(pdf: Any) -> None:
    """Let tick boxes of one size share their drawings."""
    import pydyf

    objects = {entry.reference: entry for entry in pdf.objects}
    first: dict[bytes, bytes] = {}
    for entry in pdf.objects:
        states = entry.get("AP") if isinstance(entry, pydyf.Dictionary) else None
        drawn = states.get("N") if isinstance(states, pydyf.Dictionary) else None
        if not isinstance(drawn, pydyf.Dictionary):
            continue
        for state, reference in list(drawn.items()):
            drawing = objects.get(reference)
            if drawing is None:
                continue
            kept = first.setdefault(drawing.data, reference)
            if kept != reference:
                drawn[state] = kept
                drawing.free = "f"
