"""What all commands share: options whose complaint is one sentence, a refusal, and a job's layout."""

import argparse
from pathlib import Path
from typing import NoReturn

from export import files
from geometry.job import Job
from geometry.layout import Layout

OK, REFUSED = 0, 2


class CommandRefused(Exception):
    """What was asked for cannot be done; the message is for the person."""


class Parser(argparse.ArgumentParser):
    """An argument parser whose complaint is one sentence."""

    def error(self, message: str) -> NoReturn:
        raise CommandRefused(f"{message}; `{self.prog} --help` tells more")


def is_there(path: Path, done: str) -> bool:
    """Whether there is a file; `done` is what is to be done to it. Raises `CommandRefused` where nobody can tell."""
    try:
        return path.exists()
    except OSError as error:
        raise CommandRefused(f"{path} cannot be {done}: {files.why(error)}") from None


def layout_of(job: Job) -> Layout:
    """The layout; what works it out is loaded only now."""
    from geometry.work_out import work_out

    return work_out(job)
