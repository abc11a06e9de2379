"""The sample jobs that come with the program, wherever it is installed."""

from pathlib import Path

from app.file.job_file import SUFFIX, name_of

_HERE = Path(__file__).parent.parent


def folder() -> Path:
    """The folder of the sample jobs: inside the installed package, or beside it in a checkout."""
    installed = _HERE / "sample_jobs"
    return installed if installed.is_dir() else _HERE.parent / "sample_jobs"


def paths() -> tuple[Path, ...]:
    """The sample jobs in order of their names."""
    return tuple(sorted(folder().glob(f"*{SUFFIX}"), key=name_of))


def is_sample(path: Path) -> bool:
    """Whether a file is one of the samples, or would stand among them, by whichever way it is named; or one of the same
    name in another copy's folder of samples.
    """
    there = path.resolve()
    if there.parent == folder().resolve():
        return True
    return there.parent.name == folder().name and there.name in {known.name for known in paths()}


def find(name: str) -> Path | None:
    """A sample job by its name without the ending, None where there is none."""
    return next((path for path in paths() if name_of(path) == name), None)
