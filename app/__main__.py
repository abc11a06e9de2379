"""The program's front door: `offsquare` and `python -m app`."""

import os
import sys
import tempfile
import traceback
import warnings

from app import cli

OUR_FAULT = 70
"""Exit code for a fault of the program itself (EX_SOFTWARE of sysexits.h)."""


def main() -> int:
    """Run the command line; whatever goes wrong, a person sees a sentence and not a traceback."""
    if not sys.warnoptions:
        warnings.simplefilter("ignore")  # a library's warnings are for whoever works on the program
    try:
        code = cli.run(sys.argv[1:])
        sys.stdout.flush()
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)  # the reader has gone (`| head`); that is no fault
        return 0
    except KeyboardInterrupt:
        return 130
    except Exception as error:  # noqa: BLE001  # the top of the program
        sys.stderr.write(f"offsquare: a fault of the program, not of your job ({error}); {_kept(error)}.\n")
        return OUR_FAULT
    return code


def _kept(error: Exception) -> str:
    """Keep the traceback for whoever mends the program, and say where it is."""
    try:
        handle, path = tempfile.mkstemp(".txt", "offsquare-fault-")
        with os.fdopen(handle, "w", encoding="utf-8") as file:
            file.write("".join(traceback.format_exception(error)))
    except OSError:
        return "what happened could not be kept"
    return f"what happened is kept in {path}"


if __name__ == "__main__":
    sys.exit(main())
