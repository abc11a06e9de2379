"""What dragging a point does to the job, by the rule: readings of places are edited, measured points stay."""

from typing import assert_never

from app.desk.document.document import Document
from app.desk.plan.plan_answers import PlanAnswers
from app.edit import edits
from app.edit.old_work import old_places
from geometry import words
from geometry.layout import XY


def move_point(document: Document, answers: PlanAnswers, name: str, by: XY, to: XY, merge: str) -> str:
    """Move a point by a step, to a place; what holds it, in a sentence, where it was measured and stays.

    `merge`: the word that makes one change of all the steps of a drag.
    """
    job = document.job
    said = words.point(name, job.hand)
    match edits.how_movable(job, name):
        case "near":
            made = edits.move_near(job, name, to)
        case "placed":
            made = edits.move_placed(job, name, answers.step_on_sheet(name, by))
        case "pointed":
            made = old_places.moved(job, document.layout, name, to)
        case "measured":
            return _held_by(
                words.point_headed(name, job.hand), [words.reading(r, job.hand) for r in edits.holds(job, name)]
            )
        case how:
            assert_never(how)
    document.edit(f"place of {said}", made, merge)
    return ""


def _held_by(point: str, readings: list[str]) -> str:
    """Why a measured point does not move."""
    shown = [words.quoted(text) for text in readings[:3]] + ([f"{len(readings) - 3} more"] if len(readings) > 3 else [])
    return f"{point} was measured and stays: held by {words.joined(shown)}."
