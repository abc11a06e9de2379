"""A reading's value as it is typed, put into the document; what it tells of the old work is taken up with it."""

from app.desk.document.document import Document
from app.edit import edits
from app.edit.old_work import taking_up
from geometry import words


def put_reading(document: Document, reading_id: str, text: str, word: str) -> None:
    """Put a reading's value into force as typed; raises `NotAJob`, `NotALength`."""
    job = document.job
    made = taking_up.taken_up_when_read(document.job, edits.set_value(job, reading_id, text), reading_id)
    name = words.reading_inside(edits.find(job, reading_id), job.hand)
    document.edit(f"{name} {text.strip()}".strip(), made, word)
