"""What a killed program left behind on this bench is swept away when the next one starts: beside the settings, beside
the recent jobs, and where their sheets go.
"""

import threading
from pathlib import Path

from app.file import job_file, settings
from app.file.settings import Settings
from export import files


def folders(kept: Settings) -> tuple[Path, ...]:
    """The folders in which the program writes, as far as it remembers them."""
    from app.file.export_job import folder_for

    jobs = [Path(name) for name in kept.recent]
    own = settings.where().parent
    beside = [folder for job in jobs for folder in (job.parent, folder_for(job, job_file.name_of(job)))]
    return tuple(dict.fromkeys((own, own / "recovery", *beside)))


def begin(kept: Settings) -> threading.Thread:
    """Sweep behind the work, for a folder may lie on a disk that takes its time."""

    def sweep() -> None:
        for folder in folders(kept):
            files.sweep(folder)

    thread = threading.Thread(target=sweep, name="sweeping", daemon=True)
    thread.start()
    return thread
