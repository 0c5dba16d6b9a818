"""One PDF, made plainly and made as the program makes it; little is imported here, as its process is measured."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from plangen.print.html import Document


def plain(document: Document, digest: str, say: object) -> bytes:
    """Make the whole as one document with WeasyPrint, fields and tags included."""
    import weasyprint
    from weasyprint.text.fonts import FontConfiguration

    from plangen.print.pdf import TEMPLATES
    from plangen.print.pdf.faces import FACES, face_file

    fonts = FontConfiguration()
    faces = "".join(
        f"@font-face {{ font-family: 'Plan Sans'; font-style: {style}; font-weight: {weight}; src: url('{face_file(style, weight).as_uri()}'); }}"
        for style, weight in FACES
    )
    style = "".join((TEMPLATES / name).read_text() for name in (document.style, document.more_style) if name)
    sheet = weasyprint.CSS(string=faces + style, font_config=fonts)
    pages = weasyprint.HTML(string=document.html).render(
        stylesheets=[sheet], font_config=fonts, pdf_forms=True
    )
    made: bytes = pages.write_pdf(pdf_forms=True, pdf_tags=True)
    return made


def ours(document: Document, digest: str, say: Any) -> bytes:
    """Make it as the program does."""
    from plangen.print.pdf import write_pdf

    return write_pdf(document, digest, say)
