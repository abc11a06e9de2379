"""The wheel: built, installed into a clean venv away from the checkout, and put to work on a sample it carries.

The libraries it stands on are lent to the venv by a path file instead of being installed again, which takes minutes.
"""

import subprocess
import sys
import sysconfig
import venv
import zipfile
from pathlib import Path

import pytest

ROOT = Path(__file__).parent.parent


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), str(ROOT))
    (found,) = folder.glob("offsquare-*.whl")
    return found


@pytest.fixture(scope="module")
def installed(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A venv with the wheel in it; the folder of its programs."""
    home = tmp_path_factory.mktemp("clean") / "venv"
    venv.create(home, with_pip=False)
    programs = home / ("Scripts" if sys.platform == "win32" else "bin")
    here = {"base": str(home), "platbase": str(home)}
    place = Path(sysconfig.get_path("purelib", "venv", vars=here))
    run(sys.executable, "-m", "pip", "--python", str(programs / "python"), "install", "-q", "--no-deps", str(wheel))
    (place / "lent.pth").write_text(sysconfig.get_path("purelib"), encoding="utf-8")
    return programs


def run(*words: str, cwd: Path | None = None) -> str:
    done = subprocess.run(words, capture_output=True, text=True, check=False, cwd=cwd)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_wheel_carries_the_packages_and_the_samples(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    assert {name.split("/")[0] for name in names if not name.startswith("offsquare-")} == {"app", "geometry", "export"}
    carried = {Path(name).name for name in names if name.startswith("app/sample_jobs/")}
    assert carried == {path.name for path in (ROOT / "sample_jobs").iterdir()}


def test_the_installed_program_exports_a_sample_it_carries(installed: Path, tmp_path: Path) -> None:
    code = "from app.file import samples; print(samples.find('leaning-neck'))"
    sample = run(str(installed / "python"), "-c", code, cwd=tmp_path).strip()
    assert Path(sample).is_relative_to(installed.parent)
    run(str(installed / "offsquare"), "export", sample, "--to", "sheets", cwd=tmp_path)
    assert (tmp_path / "sheets" / "placement.pdf").read_bytes().startswith(b"%PDF-")


def test_the_installed_program_tells_its_version(installed: Path, wheel: Path, tmp_path: Path) -> None:
    said = run(str(installed / "offsquare"), "--version", cwd=tmp_path)
    assert said == f"offsquare {wheel.name.split('-')[1]}\n"
