"""Texts of any kind pasted as readings: the job takes them, or says in one sentence why not."""

import json
import random
from collections import Counter

from app.edit.measure import pasting
from app.file import job_file
from app.say import plain_words
from app.say.terminal import LONGEST
from geometry.job import NotAJob
from tests.campaign.safe.jobs import read
from tests.campaign.safe.outcome import Outcome, repeat
from tests.campaign.safe.spoiling import TEXTS, tree

MARKS = ("\t", ";", ",", ", ", " ", "\n", "\r\n", '"', "\u2028", "\x00")
VALUES = ("43.2", "43,2 mm", "1 11/16 in", '25-11/32"', "12", "1e9", "-3", "9" * 200_000)


def run(count: int, seed: int) -> Outcome:
    return repeat(one, count, seed)


def one(chance: random.Random, counted: Counter[str]) -> None:
    job = job_file.decode(json.dumps(tree(chance)).encode())
    ids = [reading.id for reading in job.readings]
    pieces = (*TEXTS, *VALUES, *MARKS, *MARKS, *VALUES[:5], *ids[:5])
    if chance.random() < 0.5:
        mark = chance.choice(MARKS[:4])
        text = "\n".join(
            f"{chance.choice(ids)}{mark}{chance.choice(VALUES[:5])}" for _ in range(chance.randrange(1, 9))
        )
    else:
        text = "".join(chance.choice(pieces) for _ in range(chance.randrange(1, 40)))
    try:
        made = pasting.paste(job, text, chance.choice([*ids, None]))
    except NotAJob as error:
        said = plain_words.sentence(str(error))
    else:
        assert read(job_file.encode(made), Counter()) == made
        counted["taken"] += 1
        return
    assert len(said) <= LONGEST + 1, said
    counted["refused"] += 1
