"""A PDF is made lean before it is written: tags that say nothing are taken out, drawings that are alike are held once.

What WeasyPrint hands to its finisher is worked on, in its own terms.
"""

from __future__ import annotations

import re
from typing import Any

#: Elements of the structure that only group (ISO 32000-1, 14.8.4): their content can as well belong to what is above them.
_GROUPING = ("/Span", "/NonStruct")
#: Elements that say nothing where nothing is in them. An empty cell is a cell.
_NOTHING_IF_EMPTY = ("/Span", "/NonStruct", "/Div", "/P")

#: A number of a drawing, as WeasyPrint writes it.
_NUMBER = re.compile(rb"(?<![\w.])(-?(?:[1-9]\.\d{5}|[1-9]\d+\.\d{2}))\d+(?![\w.])")
#: A number of a drawing, as WeasyPrint writes it.
_NUMBER = re.compile(rb"(?<![\w.])-?\d+\.\d+(?![\w.])")


def leave_out(entry: Any) -> None:
    """Leave an object out. A stream is emptied: where it is missing, its place in the file is written wrongly."""
    import pydyf

    if isinstance(entry, pydyf.Stream):
        entry.stream, entry.extra = [], {}
    else:
        entry.free = "f"


def lean_fields(pdf: Any) -> None:
    """Give the place of each field and link to a hundredth of a point."""
    import pydyf

    for entry in pdf.objects:
        if isinstance(entry, pydyf.Dictionary) and entry.get("Type") == "/Annot":
            entry["Rect"] = pydyf.Array(round(float(place), 2) for place in entry["Rect"])


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
        above = objects.get(element["P"])
        if element["S"] in _NOTHING_IF_EMPTY and not element["K"] and above is not None:
            if element.reference in above["K"]:
                above["K"].remove(element.reference)
                element.free = "f"
            continue
        groups = element["S"] in _GROUPING or _is_only_body(element, above, objects)
        if not groups or above is None or above.get("Pg") != element["Pg"]:
            _lean_element(element, objects)
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
    for element in elements:
        _say_no_more_than_needed(element)
    for pieces in objects[root["ParentTree"]]["Nums"]:
        if isinstance(pieces, pydyf.Array):
            pieces[:] = [_owner(piece, owners) for piece in pieces]


def _is_only_body(element: Any, above: Any, objects: dict[bytes, Any]) -> bool:
    """Return whether an element groups rows of a table without head and foot, which can as well hold its rows itself."""
    if element["S"] != "/TBody" or above is None or above["S"] != "/Table":
        return False
    return not any(kid in objects and objects[kid].get("S") in ("/THead", "/TFoot") for kid in above["K"])


def _say_no_more_than_needed(element: Any) -> None:
    """Leave out what an element is by where it stands, and its page where nothing in it is on a page by itself."""
    element.pop("Type", None)
    if all(isinstance(kid, bytes) for kid in element["K"]):
        element.pop("Pg", None)


def _lean_element(element: Any, objects: dict[bytes, Any]) -> None:
    """Say of an element only what isn't so anyhow, and hold in it what refers to a field or link."""
    import pydyf

    about = element.get("A")
    if about is not None and about.get("Headers") == []:
        del about["Headers"]
    if about is not None and set(about) == {"O"}:
        del element["A"]
    for place, kid in enumerate(element["K"]):
        inner = objects.get(kid)
        if inner is not None and inner.get("Type") == "/OBJR":
            element["K"][place] = pydyf.Dictionary({"Type": "/OBJR", "Obj": inner["Obj"]})
            inner.free = "f"


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
            _round_drawing(drawing)
            kept = first.setdefault(drawing.data, reference)
            if kept != reference:
                drawn[state] = kept
                leave_out(drawing)


def _round_drawing(drawing: Any) -> None:
    """Give the drawing of a box in hundredths of a point, so that boxes of one size have the same one."""
    import pydyf

    drawn = b"\n".join(pydyf._to_bytes(item) for item in drawing.stream)
    drawing.stream = [_NUMBER.sub(lambda found: b"%.2f" % float(found[0]), drawn)]
    drawing.extra["BBox"] = pydyf.Array(round(float(side), 2) for side in drawing.extra["BBox"])
