"""Parts become one PDF: pages, tags, fields, links, bookmarks and faces, each once."""

from __future__ import annotations

import io
import warnings
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from plangen.print.pdf.parts import SCHEME

if TYPE_CHECKING:
    from pikepdf import Pdf


def page_count(content: bytes) -> int:
    """Return how many pages a PDF has."""
    import pikepdf

    with pikepdf.open(io.BytesIO(content)) as pdf:
        return len(pdf.pages)


def anchors(content: bytes) -> dict[str, int]:
    """Return the place of each named target of a PDF: the number of its page, from 0."""
    import pikepdf

    with pikepdf.open(io.BytesIO(content)) as pdf:
        numbers = {page.objgen: number for number, page in enumerate(pdf.pages)}
        return {name: numbers[target[0].objgen] for name, target in _targets(pdf.Root)}


def _targets(catalog: Any) -> list[tuple[str, Any]]:
    """Return the named targets of a PDF: name, then page and place."""
    if "/Names" not in catalog or "/Dests" not in catalog.Names:
        return []
    entries = list(catalog.Names.Dests.Names)
    return [(str(name), target) for name, target in zip(entries[::2], entries[1::2], strict=True)]


def joined(contents: Sequence[bytes], feet: bytes | None, identifier: str) -> bytes:
    """Return parts as one PDF, each page with its foot; title and language are those of the first."""
    import pikepdf

    whole = pikepdf.new()
    sources = [pikepdf.open(io.BytesIO(content)) for content in contents]
    joiner = _Joiner(whole)
    for source in sources:
        joiner.add(source)
    joiner.finish(sources[0])
    if feet is not None:
        _draw_feet(whole, pikepdf.open(io.BytesIO(feet)), joiner)
    made = io.BytesIO()
    whole.trailer["/ID"] = pikepdf.Array([identifier.encode()[:32]] * 2)
    whole.save(
        made,
        object_stream_mode=pikepdf.ObjectStreamMode.generate,
        compress_streams=True,
        static_id=True,
        fix_metadata_version=False,
    )
    return made.getvalue()


class _Joiner:
    """A PDF that is put together part by part."""

    def __init__(self, whole: Pdf) -> None:
        from pikepdf import Array, Dictionary, Name

        self.whole = whole
        self.fields: list[Any] = []
        self.form: Any | None = None
        self.form_fonts: dict[str, Any] = {}
        self.targets: list[tuple[str, Any]] = []
        self.bookmarks: list[tuple[Any, Any, int]] = []
        self.numbers: list[Any | int] = []
        self.next_number = 0
        self.alike: dict[bytes, Any] = {}
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
        self.targets += _targets(root)
        outlines = root.get("/Outlines")
        if outlines is not None and "/First" in outlines:
            self.bookmarks.append((outlines.First, outlines.Last, abs(int(outlines.get("/Count", 0)))))
        for resources in {page.obj.Resources.objgen: page.obj.Resources for page in pages}.values():
            self.fonts_once(resources)
        for page in pages:
            for note in page.obj.get("/Annots", []):
                _inner_link(note)

    def fonts_once(self, resources: Any) -> None:
        """Put into resources the fonts that are there already, where they are alike."""
        if "/Font" in resources:
            for key in list(resources.Font.keys()):
                resources.Font[key] = self._once(resources.Font[key])

    def _once(self, font: Any) -> Any:
        """Return the first font that is like this one in all that it says and holds; its file is the first alike too."""
        for inner in font.get("/DescendantFonts", []):
            if "/FontFile2" in inner.FontDescriptor:
                file = inner.FontDescriptor.FontFile2
                inner.FontDescriptor.FontFile2 = self.alike.setdefault(_said(file), file)
        return self.alike.setdefault(_said(font), font)

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
        self.fonts_once(form.DR)
        for key in list(form.DR.Font.keys()) if "/Font" in form.DR else ():
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


def _said(value: Any) -> bytes:
    """Return a digest of all that an object says, whatever its number is."""
    from hashlib import sha256

    from pikepdf import Array, Dictionary, Stream

    if isinstance(value, Stream):
        inner = _said_items(value)
        return sha256(b"stream" + inner + value.read_raw_bytes()).digest()
    if isinstance(value, Dictionary):
        return sha256(b"dictionary" + _said_items(value)).digest()
    if isinstance(value, Array):
        return sha256(b"array" + b"".join(_said(one) for one in value)).digest()
    return sha256(f"{type(value).__name__} {value!s}".encode()).digest()


def _said_items(value: Any) -> bytes:
    keys = sorted(str(key) for key in value.keys())  # noqa: SIM118 - no mapping of Python's own
    return b"".join(key.encode() + _said(value[key]) for key in keys)


def _draw_feet(whole: Pdf, feet: Pdf, joiner: _Joiner) -> None:
    """Draw each page's foot as what belongs to no text (ISO 32000-1, 14.8.2.2)."""
    from pikepdf import Dictionary, Name

    for number, (page, foot) in enumerate(zip(whole.pages, feet.pages, strict=True)):
        form = whole.copy_foreign(foot.as_form_xobject())
        joiner.fonts_once(form.Resources)
        resources = page.obj.Resources
        if "/XObject" not in resources:
            resources.XObject = Dictionary()
        name = Name(f"/Foot{number}")
        resources.XObject[name] = form
        drawn = b"/Artifact <</Type /Pagination>> BDC q " + str(name).encode() + b" Do Q EMC"
        page.contents_add(b"q", prepend=True)
        page.contents_add(b"Q " + drawn)
