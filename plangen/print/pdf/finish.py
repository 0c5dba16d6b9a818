"""What is done to a PDF that WeasyPrint has drawn, before it is written."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from plangen.print.pdf.faces import in_every_part
from plangen.print.pdf.lean import lean_drawings, lean_fields, lean_tags, leave_out
from plangen.print.pdf.lean_content import lean_content

Finish = Callable[[Any, Any], None]


def finish_with(shared_faces: bool) -> Finish:
    """Return what finishes a part; the faces that all parts share are only named in it, and come in when it is joined."""

    def finish(document: Any, pdf: Any) -> None:
        lean_tags(pdf)
        lean_drawings(pdf)
        lean_fields(pdf)
        lean_content(pdf)
        if shared_faces:
            _name_shared_faces(pdf)
        _tick_boxes_that_show_their_tick(pdf)

    return finish


def _tick_boxes_that_show_their_tick(pdf: Any) -> None:
    """Give each tick box the appearance that viewers draw a tick with, and pages the tab order of their structure.

    A tick box is drawn anew by some viewers when it is ticked; without a default appearance (ISO 32000-1, 12.7.3.3)
    they draw nothing.
    """
    import pydyf

    marks = pydyf.Dictionary({"Type": "/Font", "Subtype": "/Type1", "BaseFont": "/ZapfDingbats"})
    pdf.add_object(marks)
    for entry in pdf.objects:
        if not isinstance(entry, pydyf.Dictionary):
            continue
        if entry.get("Subtype") == "/Widget" and entry.get("FT") == "/Btn":
            entry["DA"] = pydyf.String("/ZaDb 12 Tf 0 g")
            entry["MK"]["CA"] = pydyf.String("4")
        if entry.get("Type") == "/Page":
            entry["Tabs"] = "/S"
    form = pdf.catalog.get("AcroForm")
    if form is not None:
        form["DA"] = pydyf.String("/ZaDb 12 Tf 0 g")
        number = int(form["DR"].split()[0])
        resources = next(entry for entry in pdf.objects if entry.number == number)
        fonts = resources["Font"]
        if isinstance(fonts, bytes):
            number = int(fonts.split()[0])
            fonts = next(entry for entry in pdf.objects if entry.number == number)
        fonts["ZaDb"] = marks.reference


def _name_shared_faces(pdf: Any) -> None:
    import pydyf

    objects = {entry.reference: entry for entry in pdf.objects}
    for font in pdf.objects:
        if not isinstance(font, pydyf.Dictionary) or font.get("Subtype") != "/Type0":
            continue
        if not in_every_part(font["BaseFont"].decode()):
            continue
        inner = objects[font["DescendantFonts"][0]]
        descriptor = objects[inner["FontDescriptor"]]
        for left_out in (inner, descriptor, objects[descriptor["FontFile2"]], objects[font["ToUnicode"]]):
            leave_out(left_out)
        del font["DescendantFonts"], font["ToUnicode"]
