"""Parts become one PDF: pages, tags, fields, links, bookmarks and faces, each once."""

from __future__ import annotations

import io
import re
import warnings
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from plangen.print.pdf.feet import feet_drawn
from plangen.print.pdf.fonts import Fonts
from plangen.print.pdf.laid import targets
from plangen.print.pdf.parts import SCHEME

if TYPE_CHECKING:
    from pikepdf import Pdf

    from plangen.print.pdf.laid import Laid


#: A font's name where it is chosen.
_FONT = re.compile(rb"/(\w+) (?=[\d.]+ Tf)")


def joined(parts: Sequence[Laid], faces: bytes | None, feet: bytes | None, identifier: str) -> bytes:
    """Return parts as one PDF, with the faces that they only name, each page with its foot.

    Title and language are those of the first.
    """
    import pikepdf

    whole = pikepdf.new()
    fonts = Fonts(whole, faces)
    joiner = _Joiner(whole, fonts)
    for part in parts:
        joiner.add(part.pdf)
    joiner.finish(parts[0].pdf)
    if feet is not None:
        _draw_feet(whole, pikepdf.open(io.BytesIO(feet)), fonts)
    made = io.BytesIO()
    pikepdf.settings.set_flate_compression_level(9)
    try:
        whole.trailer["/ID"] = pikepdf.Array([identifier.encode()[:32]] * 2)
        whole.save(
            made,
            object_stream_mode=pikepdf.ObjectStreamMode.generate,
            compress_streams=True,
            static_id=True,
            fix_metadata_version=False,
        )
    finally:
        pikepdf.settings.set_flate_compression_level(-1)  # as it was
    return made.getvalue()


class _Joiner:
    """A PDF that is put together part by part."""

    def __init__(self, whole: Pdf, fonts: Fonts) -> None:
        from pikepdf import Array, Dictionary, Name

        self.whole, self.fonts = whole, fonts
        self.fields: list[Any] = []
        self.form: Any | None = None
        self.form_fonts: dict[str, Any] = {}
        self.targets: list[tuple[str, Any]] = []
        self.bookmarks: list[tuple[Any, Any, int]] = []
        self.numbers: list[Any | int] = []
        self.next_number = 0
        self.drawings: dict[bytes, Any] = {}
        self.root = whole.make_indirect(Dictionary(Type=Name.StructTreeRoot))
        self.document = whole.make_indirect(
            Dictionary(Type=Name.StructElem, S=Name.Document, K=Array(), P=self.root)
        )

    def add(self, source: Pdf) -> None:
        """Add the pages of a part and all that belongs to them."""
        first = len(self.whole.pages)
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # fields and targets are taken along below
            self.whole.pages.extend(source.pages)
        pages = list(self.whole.pages)[first:]
        root = self.whole.copy_foreign(source.make_indirect(source.Root))
        self._take_tags(root, pages)
        self._take_form(root)
        self.targets += targets(root)
        outlines = root.get("/Outlines")
        if outlines is not None and "/First" in outlines:
            self.bookmarks.append((outlines.First, outlines.Last, abs(int(outlines.get("/Count", 0)))))
        for resources in {page.obj.Resources.objgen: page.obj.Resources for page in pages}.values():
            self.fonts.once_in(resources)
        for page in pages:
            for note in page.obj.get("/Annots", []):
                if note.Subtype == "/Link":
                    _inner_link(note)
                elif "/AP" in note:
                    self._draw_once(note.AP.N)

    def _draw_once(self, states: Any) -> None:
        """Let tick boxes of one size share their drawings over all parts."""
        for state in sorted(states.keys()):
            drawing = states[state]
            alike = drawing.read_raw_bytes() + drawing.BBox.unparse()
            states[state] = self.drawings.setdefault(alike, drawing)

    def _take_tags(self, root: Any, pages: Sequence[Any]) -> None:
        tree = root.get("/StructTreeRoot")
        if tree is None:
            return
        base = self.next_number
        entries = list(tree.ParentTree.Nums)
        for number, target in zip(entries[::2], entries[1::2], strict=True):
            self.numbers += [base + int(number), target]
            self.next_number = max(self.next_number, base + int(number) + 1)
        for page in pages:
            if "/StructParents" in page.obj:
                page.obj.StructParents = base + int(page.obj.StructParents)
            for note in page.obj.get("/Annots", []):
                if "/StructParent" in note:
                    note.StructParent = base + int(note.StructParent)
        for document in tree.K:
            for element in document.K:
                element.P = self.document
                self.document.K.append(element)

    def _take_form(self, root: Any) -> None:
        form = root.get("/AcroForm")
        if form is None:
            return
        self.fields += list(form.Fields)
        self.fonts.once_in(form.DR)
        for key in sorted(form.DR.Font.keys()) if "/Font" in form.DR else ():
            self.form_fonts.setdefault(key, form.DR.Font[key])
        self.form = self.form if self.form is not None else form

    def finish(self, first: Pdf) -> None:
        """Write what belongs to the whole: tags, form, targets, bookmarks, title, language."""
        from pikepdf import Array, Dictionary, Name, String

        whole, catalog = self.whole, self.whole.Root
        self.root.K = Array([self.document])
        self.root.ParentTree = whole.make_indirect(Dictionary(Nums=Array(self.numbers)))
        self.root.ParentTreeNextKey = self.next_number
        catalog.StructTreeRoot = self.root
        for key in ("/Lang", "/MarkInfo", "/ViewerPreferences"):
            if key in first.Root:
                catalog[key] = (
                    whole.copy_foreign(first.make_indirect(first.Root[key]))
                    if key != "/Lang"
                    else first.Root[key]
                )
        if self.form is not None:
            self.form.Fields = Array(self.fields)
            self.form.DR = whole.make_indirect(Dictionary(Font=Dictionary(self.form_fonts)))
            catalog.AcroForm = whole.make_indirect(self.form)
        if self.targets:
            named: dict[str, Any] = {}
            for name, target in self.targets:
                named.setdefault(name, target)
            entries = [
                one
                for name in sorted(named, key=lambda text: text.encode())
                for one in (String(name), named[name])
            ]
            catalog.Names = Dictionary(Dests=whole.make_indirect(Dictionary(Names=Array(entries))))
        if self.bookmarks:
            outlines = whole.make_indirect(Dictionary(Type=Name.Outlines))
            before = None
            for begin, end, _ in self.bookmarks:
                entry = begin
                while True:
                    entry.Parent = outlines
                    if "/Next" not in entry:
                        break
                    entry = entry.Next
                if before is not None:
                    before.Next, begin.Prev = begin, before
                before = end
            outlines.First, outlines.Last = self.bookmarks[0][0], self.bookmarks[-1][1]
            outlines.Count = sum(count for _, _, count in self.bookmarks)
            catalog.Outlines = outlines
        info = Dictionary(dict(first.docinfo.items()))
        whole.trailer.Info = whole.make_indirect(info)


def _inner_link(note: Any) -> None:
    """Make a link from part to part an inner one."""
    from pikepdf import String

    action = note.get("/A")
    if action is not None and str(action.get("/URI", "")).startswith(f"{SCHEME}:"):
        note.Dest = String(str(action.URI).removeprefix(f"{SCHEME}:"))
        del note["/A"]


def _draw_feet(whole: Pdf, feet: Pdf, fonts: Fonts) -> None:
    """Draw each page's foot as what belongs to no text (ISO 32000-1, 14.8.2.2), with fonts under names of its own."""
    from pikepdf import Array, Dictionary, Stream

    resources = whole.copy_foreign(feet.make_indirect(feet.pages[0].obj.Resources))
    fonts.once_in(resources)
    named = {f"/Foot{key.removeprefix('/')}": resources.Font[key] for key in sorted(resources.Font.keys())}
    state_kept = whole.make_indirect(Stream(whole, b"q"))
    heights = [float(page.mediabox[3]) for page in whole.pages]
    drawn = feet_drawn(feet.pages[0].obj.Contents.read_bytes(), heights)
    for page, foot in zip(whole.pages, drawn, strict=True):
        if "/Font" not in page.obj.Resources:
            page.obj.Resources.Font = Dictionary()
        for key, font in named.items():
            page.obj.Resources.Font[key] = font
        shown = b"Q /Artifact <</Type /Pagination>> BDC\n" + _FONT.sub(rb"/Foot\1 ", foot) + b"\nEMC"
        contents = page.obj.Contents
        inner = list(contents) if isinstance(contents, Array) else [contents]
        page.obj.Contents = Array([state_kept, *inner, whole.make_indirect(Stream(whole, shown))])
