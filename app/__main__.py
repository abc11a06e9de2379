"""The program's front door: `offsquare` and `python -m app`."""

import errno
import os
import sys
import warnings

from app.cli import asked, command_line
from app.file import fault_report
from export import files

OUR_FAULT = 70
"""Exit code for a fault of the program itself (EX_SOFTWARE of sysexits.h)."""
NOT_PRINTED = (errno.ENOSPC, errno.EDQUOT, errno.EIO, errno.EBADF)
"""Why a line does not arrive where the output was sent; no file's name stands in such an error."""


def main() -> int:
    """Run the command line; whatever goes wrong, a person sees a sentence and not a traceback."""
    if not sys.warnoptions:
        warnings.simplefilter("ignore")  # a library's warnings are for whoever works on the program
    try:
        code = command_line.run(sys.argv[1:])
        if sys.stdout is not None:  # a program without a terminal has none
            sys.stdout.flush()
    except BrokenPipeError:
        _print_no_more()  # the reader has gone (`| head`); that is no fault
        return 0
    except KeyboardInterrupt:
        return 130
    except Exception as error:  # noqa: BLE001  # the top of the program
        if isinstance(error, OSError) and error.errno in NOT_PRINTED and error.filename is None:
            _print_no_more()
            _say(f"what came of it cannot be printed: {files.why(error)}")
            return asked.REFUSED
        path = fault_report.keep(error)
        kept = f"what happened is kept in {path}" if path else "what happened could not be kept"
        _say(f"a fault of the program, not of your job ({error}); {kept}")
        return OUR_FAULT
    return code


def _say(sentence: str) -> None:
    if sys.stderr is not None:
        sys.stderr.write(f"offsquare: {sentence}.\n")


def _print_no_more() -> None:
    """What still waits to be printed goes nowhere, or Python would complain of it at the end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), 1)


if __name__ == "__main__":
    sys.exit(main())
