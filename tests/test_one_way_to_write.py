"""Nothing of the program but `export/files.py` opens a file to write, or copies, moves or throws one away."""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent
ONLY = ROOT / "export" / "files.py"
TRACE = ROOT / "app" / "file" / "fault_report.py"
"""Where a traceback goes to a file of the system's own when all else has failed."""
OPENS, MODE = {"open", "fdopen"}, re.compile(r"[wax][bt+]*|r[bt]?\+[bt]?")
WRITES = {
    *("write_text", "write_bytes", "touch", "mkstemp", "mkdtemp", "NamedTemporaryFile", "TemporaryFile"),
    *("copy2", "copyfile", "copyfileobj", "copytree", "rmtree", "hardlink_to", "symlink_to", "savetxt", "saveas"),
    *("QFile", "QSaveFile", "QTemporaryFile", "QSettings"),
}
"""Names by which a file is written, copied or thrown away without being opened for it."""


def writes(code: str) -> Iterator[str]:
    """What in a module's source writes a file, each as a line number and a name."""
    for node in ast.walk(ast.parse(code)):
        if not isinstance(node, ast.Call):
            continue
        name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
        given = [*node.args, *(word.value for word in node.keywords if word.arg == "mode")]
        modes = [part.value for part in given if isinstance(part, ast.Constant) and isinstance(part.value, str)]
        if name in WRITES or (name in OPENS and any(MODE.fullmatch(mode) for mode in modes)):
            yield f"{node.lineno}: {name}"


def modules() -> list[Path]:
    return [path for room in ("app", "export", "geometry") for path in sorted((ROOT / room).rglob("*.py"))]


def test_nothing_else_writes() -> None:
    found = {path: list(writes(path.read_text(encoding="utf-8"))) for path in modules() if path not in (ONLY, TRACE)}
    assert not {str(path): names for path, names in found.items() if names}


def test_what_is_looked_for_is_found_where_it_is() -> None:
    assert len(list(writes(ONLY.read_text(encoding="utf-8")))) >= 3  # a temp file, a lock, a copy


@pytest.mark.parametrize(
    "code",
    [
        'open("job.txt", "w")',
        'path.open("xb")',
        'path.open(mode="a")',
        'open("job.txt", "r+")',
        'path.write_bytes(b"")',
        "shutil.copy2(a, b)",
        'QSaveFile("a")',
    ],
)
def test_every_way_to_write_is_seen(code: str) -> None:
    assert list(writes(code))


@pytest.mark.parametrize("code", ['open("job.txt")', 'path.open("rb")', "dialog.open()", "text.replace(a, b)"])
def test_reading_is_not_writing(code: str) -> None:
    assert not list(writes(code))
