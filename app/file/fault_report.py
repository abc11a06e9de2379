"""A fault of the program itself, kept for whoever mends it."""

import os
import tempfile
import traceback
from pathlib import Path


def keep(error: BaseException) -> Path | None:
    """Write the traceback to a file of its own among the temporary ones; None where that cannot be."""
    try:
        handle, path = tempfile.mkstemp(".txt", "offsquare-fault-")
        with os.fdopen(handle, "w", encoding="utf-8", errors="replace") as file:
            file.write("".join(traceback.format_exception(error)))
    except OSError:
        return None
    return Path(path)
