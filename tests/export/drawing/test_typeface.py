"""The typeface's own tables, read twice: by our few lines and by fontTools."""

import math

import pytest
from fontTools.ttLib import TTFont

from export.drawing import typeface
from export.drawing.marks import Text


@pytest.mark.parametrize("bold", [False, True])
def test_advances_agree_with_fonttools(bold: bool) -> None:
    font = TTFont(typeface.face(bold).path)
    names, widths, em = font.getBestCmap(), font["hmtx"], font["head"].unitsPerEm
    for sign in "Abg ±°–½→Жżÿ":
        assert typeface.face(bold).advances[sign] == widths[names[ord(sign)]][0] / em


def test_the_capital_height_is_the_fonts() -> None:
    assert typeface.face().capital == TTFont(typeface.face().path)["OS/2"].sCapHeight / 1000


def test_what_is_lacking_shows_as_a_box() -> None:
    assert typeface.shown("山 and 7") == "☐ and 7"
    assert typeface.face().glyph(typeface.LACKING) != 0


def test_breaks_and_apart_accents() -> None:
    assert typeface.shown("a\nb\tc") == "a b c"
    assert typeface.shown("e\u0301") == "é"


def test_words_stand_by_their_anchor() -> None:
    wide = typeface.width("Nut", 3.0)
    assert typeface.baseline(Text((10.0, 10.0), "Nut", 3.0, 0.0, "et")) == pytest.approx((10.0 - wide, 7.0))
    turned = Text((10.0, 10.0), "Nut", 3.0, math.pi / 2, "mb")
    assert typeface.baseline(turned) == pytest.approx((10.0, 10.0 - wide / 2))


def test_words_shrink_with_the_scale() -> None:
    box = typeface.text_box(Text((0.0, 0.0), "Nut", 3.0), scale=2.0)
    assert box.width == pytest.approx(typeface.width("Nut", 3.0) / 2)
