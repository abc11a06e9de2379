"""The layers of files for machines: one for each operation, named for what is done there, in the order it is done.

What is engraved or only looked at comes first, then holes and slots, then windows; the outlines of the parts come last,
for a part that is cut free moves. **Words** belong on the part; **notes** are for whoever reads the file.
"""

from collections.abc import Sequence

from export.drawing.flatten import box, union
from export.drawing.marks import Arc, Circle, Line, Mark, Path, Purpose, Text
from export.drawing.pens import PENS

WORDS, NOTES = "WORDS", "NOTES"
OUTSIDE, INSIDE = "CUT_OUTSIDE", "CUT_INSIDE"
LAYERS: dict[Purpose, str] = {
    "cut": INSIDE,
    "drill": "DRILL",
    "route": "ROUTE",
    "mark": "MARK",
    "lay": "REFERENCE",
    "centre": "CENTRE",
    "hidden": "HIDDEN",
    "before": "OLD",
    "kept": "KEPT",
    "metal": "METAL",
    "dimension": "DIMENSION",
    "note": WORDS,
    "register": "DATUM",
    "measured": "MEASURED",
    "body": "BODY",
}
ORDER = (
    NOTES,
    "DATUM",
    "OLD",
    "HIDDEN",
    "METAL",
    "CENTRE",
    "REFERENCE",
    "DIMENSION",
    WORDS,
    "MARK",
    "DRILL",
    "ROUTE",
    INSIDE,
    OUTSIDE,
)
"""The order of work: what is cut comes after what is only looked at or marked, windows before outlines."""
RANKS = {layer: rank for rank, layer in enumerate(ORDER)}
"""Where in the order of work a layer comes."""
COLOURS = {
    NOTES: 7,
    "DATUM": 8,
    "OLD": 30,
    "HIDDEN": 9,
    "METAL": 12,
    "CENTRE": 4,
    "REFERENCE": 8,
    "DIMENSION": 8,
    WORDS: 7,
    "MARK": 6,
    "DRILL": 5,
    "ROUTE": 3,
    INSIDE: 1,
    OUTSIDE: 14,
    "KEPT": 8,
    "MEASURED": 7,
    "BODY": 8,
}
"""The layers' colours in DXF, by number; lines of one colour are of one width."""
CUTS = ("DRILL", "ROUTE", INSIDE, OUTSIDE)
MADE = ("MARK", *CUTS)
"""The layers on which something is made in the work or in the template."""


def layer_of(mark: Mark, kept: Sequence[str]) -> str:
    """The layer a mark is on; `kept` names the outlines (`of`) that are cut round, all others are cut within."""
    if mark.of == "file note":
        return NOTES
    if isinstance(mark.shape, Text):
        return WORDS
    return OUTSIDE if mark.purpose == "cut" and mark.of in kept else LAYERS[mark.purpose]


def layers_of_purpose(purpose: Purpose) -> str:
    """The names of the layers that lines of a purpose come to lie on, in words."""
    return f"{INSIDE} and {OUTSIDE}" if purpose == "cut" else LAYERS[purpose]


def ordered(marks: Sequence[Mark], kept: Sequence[str]) -> tuple[Mark, ...]:
    """The marks in the order of work; those of one layer stay together, in theirs."""
    return tuple(sorted(marks, key=lambda mark: RANKS.get(layer_of(mark, kept), -1)))


def order_words(marks: Sequence[Mark], kept: Sequence[str], *, is_template: bool) -> tuple[str, ...]:
    """The order of work, and that all else is not worked, or what of a template is engraved; nothing where there is no
    more than one layer.
    """
    there = {layer_of(mark, kept) for mark in marks}
    cuts = [layer for layer in CUTS if layer in there]
    engraved = [layer for layer in ORDER if layer in there and layer not in (NOTES, "DATUM", *CUTS)]
    if is_template:
        last = f"Then cut {', '.join(cuts)}: in this order." if cuts else ""
        return tuple(filter(None, [f"A template. Engrave {', '.join(engraved)}." if engraved else "", last]))
    steps = [layer for layer in MADE if layer in there]
    others = "; all else is only to be looked at" if there - {NOTES, WORDS, "DATUM", *MADE} else ""
    if len(steps) > 1:
        return (f"Order: {', '.join(steps)}{others}.",)
    return (f"Only {steps[0]} is worked{others}.",) if steps and others else ()


def size_words(marks: Sequence[Mark], kept: Sequence[str]) -> str:
    """How large the lines of one layer are, for whoever reads the file to see that its unit and size are taken right:
    of the outlines that are cut round, or else of what is made first. Empty where neither is there.
    """
    shapes: dict[str, list[Line | Arc | Circle | Path]] = {}
    for mark in marks:
        if not isinstance(mark.shape, Text):
            shapes.setdefault(layer_of(mark, kept), []).append(mark.shape)
    layer = next((name for name in (OUTSIDE, *MADE) if name in shapes), None)
    if layer is None:
        return ""
    around = union([box(shape) for shape in shapes[layer]])
    return f"Measure first: {layer} is {around.width:.1f} wide and {around.height:.1f} high in all."


def pen_words(marks: Sequence[Mark], kept: Sequence[str]) -> str:
    """For DXF R12, which has no line widths: pens go by colour there, and this tells which colour is how wide."""
    pens = {
        COLOURS[layer_of(mark, kept)]: PENS[mark.purpose].width for mark in marks if not isinstance(mark.shape, Text)
    }
    widths = (f"{colour} = {width:g}" for colour, width in sorted(pens.items()))
    return f"DXF R12 has no line widths. Pens by colour, mm: {', '.join(widths)}."
