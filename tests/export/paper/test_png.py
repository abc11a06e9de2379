"""Sheets as pictures: the right size, the very page, known again as ours."""

import io
import zlib
from pathlib import Path as File

import msgspec
import pytest
from PIL import Image

from export import write_all
from export.paper import png
from export.records import Stamp
from export.templates import sheets
from export.writing import is_ours
from geometry.job import Job
from geometry.layout import Layout

INCH = 25.4
"""mm (exact, International yard and pound agreement, 1959)."""


def test_a_picture_is_as_large_as_its_sheet(job: Job, layout: Layout, stamp: Stamp) -> None:
    (page,) = sheets(job, layout, stamp)
    picture = Image.open(io.BytesIO(png.data(page)))
    assert picture.info["dpi"] == pytest.approx((300, 300), abs=0.1)
    size = [pixels / 300 * INCH for pixels in picture.size]
    assert size == pytest.approx([page.paper.width, page.paper.height], abs=0.2)  # two dots


def test_what_is_drawn_is_there(job: Job, layout: Layout, stamp: Stamp) -> None:
    """The middle of a line to cut is black, and the paper beside it white."""
    (page,) = sheets(job, layout, stamp)
    assert page.transform is not None
    assert layout.bridge is not None
    picture = Image.open(io.BytesIO(png.data(page))).convert("L")

    def grey(x: float, y: float) -> int:
        at = round(x / INCH * 300), round((page.paper.height - y) / INCH * 300)
        near = picture.crop((at[0] - 1, at[1] - 1, at[0] + 2, at[1] + 2))
        return min(near.tobytes())

    (ax, ay), (bx, by) = (page.transform.xy(at) for at in layout.bridge.corners[:2])
    assert grey((ax + bx) / 2, (ay + by) / 2) < 80
    assert grey(page.paper.width / 2, 4.0) > 250


def test_one_picture_a_page_and_no_pdf(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    asked = msgspec.structs.replace(stamp, templates=("full-length",))
    names = [page.name for page in sheets(job, layout, asked)]
    written = write_all(job, layout, asked, tmp_path, ("png",), owner="a")
    assert [file.name for file in written] == [f"{name}.png" for name in names]
    assert all(is_ours(file, "a") for file in written)
    assert not is_ours(written[0], "b")


def test_a_written_picture_is_sound(job: Job, layout: Layout, stamp: Stamp, tmp_path: File) -> None:
    """Each piece of a PNG ends with the CRC-32 of its name and what it holds (PNG, third edition, 5.3)."""
    (file,) = write_all(job, layout, stamp, tmp_path, ("png",), owner="job 27")
    data = file.read_bytes()
    at, names = 8, []
    while at < len(data):
        long = int.from_bytes(data[at : at + 4], "big")
        names.append(data[at + 4 : at + 8])
        held = data[at + 4 : at + 8 + long]
        assert zlib.crc32(held).to_bytes(4, "big") == data[at + 8 + long : at + 12 + long]
        at += 12 + long
    assert names[-1] == b"IEND"
    assert names.count(b"tEXt") == 2
    with Image.open(file) as picture:
        picture.load()
        assert picture.info["dpi"] == pytest.approx((300, 300), abs=0.1)
        assert picture.info["Keywords"].startswith("offsquare:")
    assert is_ours(file, "job 27")
    assert not is_ours(file, "job 28")
    file.write_bytes(data.replace(b"IDAT", b"iDAT", 1))
    assert not is_ours(file, "job 27")
