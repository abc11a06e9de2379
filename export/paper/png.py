"""A sheet as a picture, of the very page that its PDF holds: for a letter, a screen, or a printer that takes no PDF."""

import io

from export.paper import pdf
from export.records import Sheet

DOTS = 300
"""Dots an inch: a line of 0.13 mm is a dot and a half wide."""


def data(sheet: Sheet, title: str = "", mark: str = "") -> bytes:
    """One sheet in greys, with its size in the file, so that it is printed true; `mark` stands among its words."""
    import pypdfium2
    from PIL.PngImagePlugin import PngInfo

    document = pypdfium2.PdfDocument(pdf.data([sheet], title))
    try:
        picture = document[0].render(scale=DOTS / 72, grayscale=True).to_pil()
    finally:
        document.close()
    words = PngInfo()
    words.add_text("Title", title or sheet.drawing.title)
    words.add_text("Keywords", mark)
    buffer = io.BytesIO()
    picture.save(buffer, "PNG", dpi=(DOTS, DOTS), pnginfo=words)
    return buffer.getvalue()
