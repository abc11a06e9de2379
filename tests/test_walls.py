"""The walls: numbers and paper do without Qt, and starting up loads nothing slow."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parent.parent

BLOCK = """
import importlib.abc, sys

class Wall(importlib.abc.MetaPathFinder):
    def find_spec(self, name, path=None, target=None):
        if name.split(".")[0] in {blocked!r}:
            raise ImportError(f"{{name}} is behind the wall")

sys.meta_path.insert(0, Wall())
"""

IMPORT_ALL = """
import importlib, pkgutil
for package in {packages!r}:
    module = importlib.import_module(package)
    for found in pkgutil.walk_packages(module.__path__, package + "."):
        importlib.import_module(found.name)
"""

SLOW = {"PySide6", "reportlab", "ezdxf", "numpy", "scipy", "shapely"}


def run(code: str) -> str:
    """Run it in a Python of its own; what it prints."""
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return done.stdout


def modules_after(code: str) -> set[str]:
    return set(run(f"{code}\nimport sys\nprint(*sorted({{name.split('.')[0] for name in sys.modules}}))").split())


def test_geometry_and_export_do_without_qt() -> None:
    run(BLOCK.format(blocked={"PySide6"}) + IMPORT_ALL.format(packages=["geometry", "export"]))


def test_the_app_below_the_window_does_without_qt() -> None:
    rooms = [f"app.{path.name}" for path in (ROOT / "app").iterdir() if path.is_dir() and path.name != "desk"]
    below = [room for room in rooms if (ROOT / room.replace(".", "/") / "__init__.py").exists()]
    assert len(below) == 4
    run(BLOCK.format(blocked={"PySide6"}) + IMPORT_ALL.format(packages=below))


def test_geometry_does_without_paper() -> None:
    run(
        BLOCK.format(blocked={"PySide6", "reportlab", "ezdxf", "app", "export"})
        + IMPORT_ALL.format(packages=["geometry"])
    )


def test_the_wall_stops_what_it_should() -> None:
    code = BLOCK.format(blocked={"PySide6"}) + "try:\n import PySide6\nexcept ImportError as error:\n print(error)"
    assert run(code) == "PySide6 is behind the wall\n"


def test_starting_up_loads_nothing_slow() -> None:
    assert modules_after("import app.cli.command_line, app.file.job_file, app.file.settings") & SLOW == set()


def test_working_out_loads_neither_window_nor_paper() -> None:
    code = (
        "import contextlib, io\nfrom app.cli import command_line\nfrom app.file import samples\n"
        "with contextlib.redirect_stdout(io.StringIO()):\n"
        " assert command_line.run(['work-out', str(samples.paths()[0])]) == 0"
    )
    loaded = modules_after(code)
    assert loaded & {"PySide6", "reportlab", "ezdxf"} == set()
    assert "numpy" in loaded, "this test would not notice what is loaded"


def test_the_windows_first_picture_loads_nothing_of_the_work() -> None:
    loaded = modules_after("import app.desk.frame.window")
    assert loaded & {"geometry", "numpy", "shapely", "scipy", "reportlab", "hashlib"} == set()
    assert "PySide6" in loaded


def test_the_window_reads_no_source_of_what_it_imports() -> None:
    code = "import app.desk, colorsys, linecache\nprint(colorsys.__file__ in linecache.cache)"
    assert run(code) == "False\n"
    by_the_binding = code.replace("app.desk", "PySide6.QtCore")
    assert run(by_the_binding) == "True\n", "this test would not notice that a source is read"


def test_working_out_loads_no_masked_arrays() -> None:
    """A survey with repeated and doubtful readings meets every median there is."""
    code = (
        "import sys\nfrom app.file import job_file, samples\nfrom geometry.work_out import work_out\n"
        "for path in samples.paths():\n work_out(job_file.read(path))\n"
        "print('numpy.ma' in sys.modules, 'numpy' in sys.modules)"
    )
    assert run(code) == "False True\n"
