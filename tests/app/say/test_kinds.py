"""Every kind of reading has its entry in each of the tables, and the words in them can be filled in."""

import string
from typing import get_args

from app.say.how_to import TAKING
from export.plan.reading_as_taken import DRAWN
from geometry import words
from geometry.job.measured.kinds import KINDS, SHAPES, Kind, PointForm
from geometry.survey.rows.forms import FORMS
from tests.in_one import in_one

OWN = {"how_high", "how_spanned"}
"""What how to take a reading fills in itself."""


def braces(text: str) -> set[str]:
    return {word for _, word, _, _ in string.Formatter().parse(text) if word is not None}


def test_no_table_lacks_a_kind_or_has_one_more() -> None:
    assert tuple(SHAPES) == KINDS
    assert sorted(TAKING) == sorted(DRAWN) == sorted(KINDS)


def test_every_form_has_its_equation() -> None:
    assert tuple(FORMS) == get_args(PointForm)


@in_one("kind", KINDS)
def test_a_kinds_row_runs_over_its_own_points(kind: Kind) -> None:
    shape = SHAPES[kind]
    assert set(shape.points) == set(range(shape.laid_from + shape.of))
    assert bool(shape.points) == (shape.form != "none")


@in_one("kind", KINDS)
def test_what_a_kind_is_called_and_how_it_is_taken_knows_its_words(kind: Kind) -> None:
    shape, taking = SHAPES[kind], TAKING[kind]
    said = f"{shape.named}{shape.how}{taking.take}{taking.ask}"
    assert braces(said) <= {*words.NAMES, *OWN, "off", "one"}
    assert braces(shape.amiss) <= ({"much", "more"} if shape.degrees else {"much"})


@in_one("kind", KINDS)
def test_what_is_no_number_is_a_question(kind: Kind) -> None:
    shape, taking = SHAPES[kind], TAKING[kind]
    asks = (bool(taking.ask), bool(taking.question), bool(taking.yes))
    assert asks == (shape.values == 0,) * 3
    assert bool(shape.amiss) == bool(shape.again) == (shape.values == 0 or shape.degrees)


@in_one("kind", KINDS)
def test_what_stands_for_points_must_be_said(kind: Kind) -> None:
    shape = SHAPES[kind]
    assert bool(shape.must) == (shape.fret or shape.at or bool(shape.on)) == (shape.of == 0)
