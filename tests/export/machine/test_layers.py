"""The layers' order and colours, by what they promise."""

import pytest

from export.drawing.marks import Line, Mark, Purpose
from export.drawing.pens import PENS
from export.machine.layers import (
    COLOURS,
    LAYERS,
    MADE,
    NOTES,
    ORDER,
    OUTSIDE,
    RANKS,
    WORDS,
    order_words,
    ordered,
    size_words,
)

LINE = Line((0.0, 0.0), (1.0, 0.0))


def test_every_layer_has_a_colour_that_is_one() -> None:
    """AutoCAD colour indices run from 1 to 255 (the DXF reference, group code 62)"""
    assert set(COLOURS) == {*LAYERS.values(), OUTSIDE, NOTES}
    assert all(1 <= colour <= 255 for colour in COLOURS.values())


def test_lines_of_one_colour_are_of_one_width() -> None:
    drawn = {layer: PENS[purpose].width for purpose, layer in LAYERS.items() if layer != WORDS}
    drawn[OUTSIDE] = PENS["cut"].width
    widths: dict[int, set[float]] = {}
    for layer, width in drawn.items():
        widths.setdefault(COLOURS[layer], set()).add(width)
    assert {colour: len(of) for colour, of in widths.items()} == dict.fromkeys(widths, 1)


def test_what_is_made_has_a_colour_of_its_own() -> None:
    made = [COLOURS[layer] for layer in MADE]
    assert len(set(made)) == len(made)
    assert not set(made) & {colour for layer, colour in COLOURS.items() if layer not in MADE}
    assert COLOURS[NOTES] == COLOURS[WORDS] == COLOURS["MEASURED"] == 7  # black on white, white on black


def test_what_is_cut_comes_last_and_outlines_after_windows() -> None:
    assert ORDER[-5:] == MADE
    assert [RANKS[layer] for layer in ORDER] == list(range(len(ORDER)))
    given: list[tuple[Purpose, str]] = [
        *(("cut", "bridge"), ("cut", "seam"), ("drill", ""), ("note", "file note")),
        *(("register", ""), ("measured", ""), ("drill", "pin"), ("kept", "")),
    ]
    marks = ordered([Mark(shape=LINE, purpose=purpose, of=of) for purpose, of in given], ("bridge",))
    assert [given.index((mark.purpose, mark.of)) for mark in marks] == [5, 7, 3, 4, 2, 6, 1, 0]


@pytest.mark.parametrize(
    ("purposes", "template", "words"),
    [
        (("drill", "mark"), False, ("Order: MARK, DRILL.",)),
        (("drill",), False, ()),
        (("drill", "before"), False, ("Only DRILL is worked; all else is only to be looked at.",)),
        (("drill", "route", "dimension"), False, ("Order: DRILL, ROUTE; all else is only to be looked at.",)),
        (
            ("drill", "cut", "lay"),
            True,
            ("A template. Engrave REFERENCE.", "Then cut DRILL, CUT_INSIDE: in this order."),
        ),
        (("lay",), True, ("A template. Engrave REFERENCE.",)),
        (("cut",), True, ("Then cut CUT_INSIDE: in this order.",)),
    ],
)
def test_the_order_of_work_in_words(purposes: tuple[Purpose, ...], template: bool, words: tuple[str, ...]) -> None:
    marks = [Mark(shape=LINE, purpose=purpose, of="") for purpose in purposes]
    assert order_words(marks, (), is_template=template) == words


@pytest.mark.parametrize(
    ("purposes", "kept", "layer"),
    [(("drill", "cut"), ("part",), OUTSIDE), (("drill", "cut"), (), "DRILL"), (("mark",), (), "MARK")],
)
def test_the_size_to_measure_first_is_of_the_layer_that_matters_most(
    purposes: tuple[Purpose, ...], kept: tuple[str, ...], layer: str
) -> None:
    """derived: two lines of 30 mm across and 12.5 mm up lie within 30 by 12.5"""
    across, up = Line((5.0, 5.0), (35.0, 5.0)), Line((5.0, 5.0), (5.0, 17.5))
    marks = [Mark(shape=LINE, purpose=purposes[0], of="hole")] if len(purposes) > 1 and layer == OUTSIDE else []
    last = purposes[-1] if layer == OUTSIDE else purposes[0]
    marks += [Mark(shape=shape, purpose=last, of="part") for shape in (across, up)]
    assert size_words(marks, kept) == f"Measure first: {layer} is 30.0 wide and 12.5 high in all."


def test_of_what_is_only_looked_at_no_size_is_told() -> None:
    """A file without outline and work has nothing to measure, least of all the cross at its datum."""
    assert size_words([Mark(shape=LINE, purpose=purpose, of="") for purpose in ("register", "lay")], ()) == ""


def test_what_is_only_looked_at_is_grey_and_what_is_made_is_not() -> None:
    """In DXF 8 and 9 are the greys, 250 to 255 further ones (the format's own index of colours)."""
    looked_at = ("DATUM", "HIDDEN", "REFERENCE", "DIMENSION", "KEPT", "BODY")
    assert {layer: COLOURS[layer] for layer in looked_at} == dict.fromkeys(looked_at, 8) | {"HIDDEN": 9}
    assert not {COLOURS[layer] for layer in MADE} & {8, 9, *range(250, 256)}
