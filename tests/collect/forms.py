"""A small plan, its PDF, and the programs that fill it: each in its own way."""

from __future__ import annotations

import ctypes
import io
from collections.abc import Iterable, Mapping
from functools import cache

import pypdfium2
import pypdfium2.raw as pdfium
from pypdf import PdfReader, PdfWriter
from pypdf.generic import ArrayObject, ByteStringObject, DictionaryObject, NameObject, TextStringObject

from plangen.collect.field_names import by_field, note_field, reading_field, round_field
from plangen.collect.pdf_fields import FieldValue, FilledForm
from plangen.plan.boat_identity import BoatIdentity, identity_of
from plangen.plan.day import Round
from plangen.plan.model import Plan, PlannedCheck, SettingSummary
from plangen.print.carried.document import carried_document
from plangen.print.pdf import write_pdf
from tests.assess.building import check, expectation, plan, series

Typed = Mapping[str, str | bool]

CHECKS = (
    check(
        "rest@house",
        expectation("resting voltage", unit="V", low=12.5, high=12.9),
        expectation("terminals tight", text="yes"),
        setting="alongside",
    ),
    check(
        "gauge@tank",
        series("gauge at quarters", {30.0: (27.0, 33.0), 60.0: (54.0, 66.0), 90.0: (81.0, 99.0)}, unit="L"),
        setting="alongside",
    ),
    check("serial@engine", expectation("serial number", record="serial"), setting="under-way"),
    check("coolant@engine", expectation("coolant", unit="°C", high=95.0), setting="under-way"),
)


def small_plan(*checks: PlannedCheck, name: str = "Tern", digest: str = "a" * 64) -> Plan:
    """A plan of a few checks alongside and under way."""
    planned = plan(*(checks or CHECKS))
    settings = list(dict.fromkeys(one.setting for one in planned.checks))
    return planned.model_copy(
        update={
            "boat": planned.boat.model_copy(update={"name": name}),
            "digest": digest,
            "settings": tuple(
                SettingSummary(setting=setting, title=setting.capitalize(), checks=1, minutes=5)
                for setting in settings
            ),
            "rounds": tuple(
                Round(
                    id=setting,
                    number=number,
                    kind="boat",
                    title=setting.capitalize(),
                    setting=setting,
                    minutes=5,
                    checks=tuple(one.id for one in planned.checks if one.setting == setting),
                )
                for number, setting in enumerate(settings, start=1)
            ),
        }
    )


def form(
    planned: Plan,
    typed: Typed,
    *,
    name: str = "filled.pdf",
    digest: str | None = None,
    boat: str | None = None,
    is_retest: bool = False,
) -> FilledForm:
    """The fields of a plan's form with some of them filled, without any PDF."""
    fields: dict[str, FieldValue] = {}
    for one in planned.checks:
        for index, expected in enumerate(one.expect):
            if expected.series:
                fields |= {reading_field(one, index, step): "" for step in range(len(expected.series))}
            elif expected.text in ("yes", "no"):
                base = reading_field(one, index)
                fields |= {f"{base}/yes": False, f"{base}/no": False}
            else:
                fields[reading_field(one, index)] = ""
        fields |= {note_field(one.id): "", by_field(one.id): ""}
    for visit in planned.rounds:
        fields |= {round_field(visit.id, about): "" for about in ("by", "date", "from", "to")}
    about = BoatIdentity(boat) if boat else identity_of(planned.boat)
    return FilledForm(name, about, digest or planned.digest, is_retest, {**fields, **typed})


@cache
def printed() -> bytes:
    """The PDF of the small plan, as it is drafted."""
    planned = small_plan()
    return write_pdf(carried_document(planned), planned.digest)


def filled_by_pypdf(content: bytes, typed: Typed) -> bytes:
    """Fill as a library does that also draws what it fills in."""
    writer = PdfWriter(clone_from=io.BytesIO(content))
    for page in writer.pages:
        here = {name for a in page.get("/Annots", []) if (name := a.get_object().get("/T")) in typed}
        if here:
            values = {name: ("/on" if typed[name] is True else str(typed[name])) for name in here}
            writer.update_page_form_field_values(page, values, auto_regenerate=False)
    return _written(writer)


def filled_by_command_line(content: bytes, typed: Typed) -> bytes:
    """Fill as command-line programs do from an FDF file: values only, in UTF-16, and the viewer shall draw them."""
    writer = PdfWriter(clone_from=io.BytesIO(content))
    for page in writer.pages:
        for reference in page.get("/Annots", []):
            annotation = reference.get_object()
            value = typed.get(str(annotation.get("/T")))
            if value is None:
                continue
            if isinstance(value, bool):
                annotation[NameObject("/V")] = NameObject("/Yes" if value else "/Off")
            else:
                annotation[NameObject("/V")] = ByteStringObject(b"\xfe\xff" + value.encode("utf-16-be"))
            annotation.pop("/AP", None)
    return _written(writer)


def filled_in_a_browser(content: bytes, typed: Typed) -> bytes:
    """Fill as a browser does: with PDFium, by clicking into each field and typing."""
    document = pypdfium2.PdfDocument(content)
    document.init_forms()
    environment = document.formenv
    for number in range(len(document)):
        page = document[number]
        pdfium.FORM_OnAfterLoadPage(page, environment)
        for index in range(pdfium.FPDFPage_GetAnnotCount(page)):
            annotation = pdfium.FPDFPage_GetAnnot(page, index)
            value = typed.get(_pdfium_name(environment, annotation))
            if value is not None:
                rectangle = pdfium.FS_RECTF()
                pdfium.FPDFAnnot_GetRect(annotation, ctypes.byref(rectangle))
                x, y = (rectangle.left + rectangle.right) / 2, (rectangle.top + rectangle.bottom) / 2
                pdfium.FORM_OnMouseMove(environment, page, 0, x, y)
                pdfium.FORM_OnLButtonDown(environment, page, 0, x, y)
                pdfium.FORM_OnLButtonUp(environment, page, 0, x, y)
                if isinstance(value, str):
                    text = (value + "\0").encode("utf-16-le")
                    units = (ctypes.c_ushort * (len(text) // 2)).from_buffer_copy(text)
                    pdfium.FORM_ReplaceSelection(environment, page, units)
                pdfium.FORM_ForceToKillFocus(environment)
            pdfium.FPDFPage_CloseAnnot(annotation)
    stream = io.BytesIO()
    document.save(stream)
    return stream.getvalue()


def _pdfium_name(environment: object, annotation: object) -> str:
    length = pdfium.FPDFAnnot_GetFormFieldName(environment, annotation, None, 0)
    units = (ctypes.c_ushort * (length // 2))()
    pdfium.FPDFAnnot_GetFormFieldName(environment, annotation, units, length)
    return bytes(units).decode("utf-16-le").rstrip("\0")


def without_metadata(content: bytes) -> bytes:
    """Drop title and keywords, as some programs do on saving."""
    writer = PdfWriter()
    reader = PdfReader(io.BytesIO(content))
    for page in reader.pages:
        writer.add_page(page)
    form_dictionary = reader.trailer["/Root"]["/AcroForm"]
    writer._root_object[NameObject("/AcroForm")] = form_dictionary.clone(writer)
    return _written(writer)


def bare_pdf(fields: Iterable[tuple[str, str]], info: Mapping[str, str] | None = None) -> bytes:
    """A PDF of one empty page with text fields."""
    writer = PdfWriter()
    page = writer.add_blank_page(width=595, height=842)
    widgets = [
        writer._add_object(
            DictionaryObject(
                {
                    NameObject("/Type"): NameObject("/Annot"),
                    NameObject("/Subtype"): NameObject("/Widget"),
                    NameObject("/FT"): NameObject("/Tx"),
                    NameObject("/T"): TextStringObject(name),
                    NameObject("/V"): TextStringObject(value),
                }
            )
        )
        for name, value in fields
    ]
    page[NameObject("/Annots")] = ArrayObject(widgets)
    writer._root_object[NameObject("/AcroForm")] = DictionaryObject(
        {NameObject("/Fields"): ArrayObject(widgets)}
    )
    writer.add_metadata(dict(info or {}))
    return _written(writer)


def _written(writer: PdfWriter) -> bytes:
    stream = io.BytesIO()
    writer.write(stream)
    return stream.getvalue()
