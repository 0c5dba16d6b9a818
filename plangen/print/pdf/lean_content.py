"""What is drawn on a page is written shortly: numbers, lines that go on, letters, and pieces of text that belong together.

Content streams are those of ISO 32000-1, 7.8.2; what WeasyPrint hands to its finisher is worked on, in its own terms.
"""

from __future__ import annotations

import re
from typing import Any

from plangen.print.pdf.lean import leave_out

#: Letters written without a shift between them, which needs no two pieces.
_NO_SHIFT = re.compile(rb">0<")
_NO_SHIFT_AT_THE_END = re.compile(rb">0\] TJ")
#: A hundredth of a pixel is beyond what any eye or printer tells apart; what is less than ten may be a factor, and
#: keeps more figures.
_LONG_NUMBER = re.compile(rb"(?<![\w.])(-?(?:[1-9]\.\d{5}|[1-9]\d+\.\d{2}))\d+(?![\w.])")
#: A drawing that stands in an object of its own.
_APART = re.compile(rb"(?<![^\n])/(\w+) Do(?![^\n])")
#: A line from one place to another, and how it is drawn.
_LINE = re.compile(
    rb"/Artifact\nBMC\nq\nq\n((?:[^\n]+\n){1,6}?)([-\d.]+) ([-\d.]+) m\n([-\d.]+) ([-\d.]+) l\nS\nQ\nQ\nEMC\n"
)
#: The beginning of a piece of text that has a place in the structure, after the end of another piece where it follows one.
_PIECE = re.compile(rb"(ET\nEMC\n)?/(\w+)\n<</MCID (\d+)>>\nBDC\n(BT\n)?")


def lean_content(pdf: Any) -> None:
    """Write shortly what is drawn on pages."""
    import pydyf

    objects = {entry.reference: entry for entry in pdf.objects}
    for entry in pdf.objects:
        if not isinstance(entry, pydyf.Dictionary) or entry.get("Type") != "/Page":
            continue
        stream = objects[entry["Contents"]]
        drawn = _with_inner_drawings(_said(stream), objects[entry["Resources"]], objects)
        drawn = _NO_SHIFT_AT_THE_END.sub(b">] TJ", _NO_SHIFT.sub(b"", drawn))
        drawn = _lines_that_go_on(_LONG_NUMBER.sub(rb"\1", drawn))
        if "StructTreeRoot" in pdf.catalog:
            drawn = _text_that_goes_on(drawn, entry, pdf, objects)
        stream.stream = [drawn]


def _said(stream: Any) -> bytes:
    import pydyf

    return b"\n".join(pydyf._to_bytes(item) for item in stream.stream)


def _with_inner_drawings(drawn: bytes, resources: Any, objects: dict[bytes, Any]) -> bytes:
    """Draw on the page itself what is drawn apart for no reason: each text of a chart is a drawing of its own."""
    apart = resources["XObject"]
    taken: set[str] = set()

    def inner(found: re.Match[bytes]) -> bytes:
        name = found[1].decode()
        drawing = objects.get(apart.get(name))
        if drawing is None or "Group" not in drawing.extra:
            return found[0]
        own = drawing.extra["Resources"]
        own = objects.get(own, own) if isinstance(own, bytes) else own
        content = _said(drawing)
        if not _is_plain(own, resources) or b"MCID" in content:
            return found[0]
        taken.add(name)
        return content

    drawn = _APART.sub(inner, drawn)
    for name in taken:
        drawing = objects[apart.pop(name)]
        if isinstance(drawing.extra["Resources"], bytes):
            leave_out(objects[drawing.extra["Resources"]])
        leave_out(drawing)
    return drawn


def _is_plain(own: Any, resources: Any) -> bool:
    """Return whether a drawing needs nothing that the page doesn't have under the same names."""
    states = own.get("ExtGState", {})
    return (
        not any(own.get(kind) for kind in ("XObject", "Pattern", "Shading"))
        and own.get("Font") == resources.get("Font")
        and all(resources["ExtGState"].get(name) == state for name, state in states.items())
    )


def _lines_that_go_on(drawn: bytes) -> bytes:
    """Draw level lines that begin where the one before ends as one: a row has one for each of its cells."""
    pieces: list[bytes] = []
    line: tuple[bytes, ...] = ()
    at = 0
    for found in _LINE.finditer(drawn):
        style, left, height, right, other_height = found.groups()
        goes_on = line[:1] == (style,) and found.start() == at and line[2:] == (height, left, height)
        if goes_on and height == other_height:
            line = (style, line[1], height, right, height)
        else:
            pieces += [_line(line), drawn[at : found.start()]]
            line = (style, left, height, right, other_height)
        at = found.end()
    return b"".join([*pieces, _line(line), drawn[at:]])


def _line(line: tuple[bytes, ...]) -> bytes:
    return b"/Artifact\nBMC\nq\nq\n%b%b %b m\n%b %b l\nS\nQ\nQ\nEMC\n" % line if line else b""


def _text_that_goes_on(drawn: bytes, page: Any, pdf: Any, objects: dict[bytes, Any]) -> bytes:
    """Let pieces of text that follow one another in one paragraph or cell be one piece, and number the pieces anew."""
    numbers = objects[objects[pdf.catalog["StructTreeRoot"]]["ParentTree"]]["Nums"]
    owners = numbers[numbers.index(page["StructParents"]) + 1]
    places = {
        (owner, kid): place
        for owner in dict.fromkeys(owners)
        for place, kid in enumerate(objects[owner]["K"])
        if isinstance(kid, int)
    }
    if {int(found[3]) for found in _PIECE.finditer(drawn)} != set(range(len(owners))):
        return drawn  # some are in drawings of their own
    merged: set[int] = set()
    before, end = -1, 0
    pieces: list[bytes] = []
    for found in _PIECE.finditer(drawn):
        number, owner = int(found[3]), owners[int(found[3])]
        goes_on = (
            before >= 0
            and found[1] is not None
            and found[4] is not None
            and found[2] == b"Span"
            and owners[before] == owner
            and b"BMC" not in drawn[end : found.start()]
            and places.get((owner, number), -1) == places.get((owner, before), -3) + 1
        )
        pieces.append(drawn[end : found.start()])
        if goes_on:
            merged.add(number)
        else:
            pieces.append(found[0])
        before = number if found[2] == b"Span" else -1
        end = found.end()
    left = [number for number in range(len(owners)) if number not in merged]
    new = {number: place for place, number in enumerate(left)}
    for owner in dict.fromkeys(owners):
        element = objects[owner]
        kids = [kid for kid in element["K"] if not isinstance(kid, int) or kid in new]
        element["K"][:] = [new[kid] if isinstance(kid, int) else kid for kid in kids]
    owners[:] = [owners[number] for number in left]
    whole = b"".join([*pieces, drawn[end:]])
    return re.sub(rb"(?<=<</MCID )\d+(?=>>)", lambda found: b"%d" % new[int(found[0])], whole)
