"""The guide doesn't go stale: its pictures and links are there, and what it names the program has, under that name."""

import json
import re
import tomllib
from functools import cache
from importlib import metadata
from pathlib import Path
from types import UnionType
from typing import Any, Literal, Union, get_args, get_origin

import msgspec
import pytest

from app.cli import command_line, sheet_options
from app.desk.cards.table_of_cards import steps
from app.edit.start import first_questions
from app.file import job_file, samples
from app.say import how_to, look_again
from app.say.figures import key_figures
from export import cautions
from export.templates import TEMPLATES, registration
from geometry import job, units, words
from geometry.advice.measuring_lists import LISTS, measuring_list
from geometry.bridge import wood_left
from geometry.job import Job
from geometry.job.measured.kinds import KINDS, SHAPES
from geometry.strings.usual_sets import SETS
from geometry.work_out import work_out
from tests.guide import DOCS, tables, text
from tests.in_one import in_one
from tests.sources import ROOT, said_by_the_program

GUIDE = sorted(DOCS.glob("*.md"))
PAGES = [ROOT / "README.md", ROOT / "DEVELOPERS.md", *GUIDE]
each_page = pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
each_of_the_guide = pytest.mark.parametrize("page", GUIDE, ids=lambda page: page.name)
RECORDS: dict[str, type[msgspec.Struct]] = {
    "The job": Job,
    "`board`": job.Board,
    "`board.arch`": job.Arch,
    "`points`": job.Point,
    "`points`: a side hint": job.SideHint,
    "`readings`": job.Reading,
    "`frets`": job.Frets,
    "`frets.scales`": job.Scales,
    "`strings`": job.Strings,
    "`strings.list`": job.String,
    "`strings.nut` and `strings.saddle`": job.Spread,
    "`nut`": job.Nut,
    "`strings.height`": job.Heights,
    "`strings.action`": job.Action,
    "`strings.heard`": job.Heard,
    "`saddle`": job.Saddle,
    "`bridge`": job.Bridge,
    "`bridge.moved`": job.Moved,
    "`bridge.slot_front`": job.SlotFront,
    "`bridge.pins`": job.Pins,
    "`bridge.tie`": job.TieBlock,
    "`floating`": job.Floating,
    "`tail`": job.Tail,
    "`separate`": job.Separate,
    "`separate.through`": job.Through,
    "`old`": job.Old,
    "`old.pins`": job.OldPin,
    "`old.metal`": job.OldMetal,
    "`old.holes`": job.OldHole,
    "`old.slot`": job.OldSlot,
    "`old.areas`": job.Area,
    "`old.braces`": job.Brace,
    "`choice`": job.Choosing,
    "`choice.weights`": job.Weights,
    "`proof`": job.Proof,
    "`hardware`": job.Hardware,
    "`hardware.headstock`": job.Headstock,
    "`hardware.tuners`": job.Tuners,
    "`hardware.tuners.plate`": job.TunerPlate,
    "`hardware.markers`": job.Markers,
    "`hardware.markers.side`": job.SideMarkers,
    "`hardware.markers.face`": job.FaceMarkers,
    "`hardware.holes`": job.OtherHole,
    "`sheets`": job.Sheets,
    "`kept`": job.Kept,
    "`kept`: places": job.Places,
}


def links(page: Path) -> list[str]:
    return re.findall(r"\]\(([^)\s]+)\)", page.read_text(encoding="utf-8"))


def anchors(page: Path) -> set[str]:
    """The anchors of a page's headings, as GitHub and its like make them."""
    heads = re.findall(r"^#+ (.+)$", page.read_text(encoding="utf-8"), re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", head.lower()).strip().replace(" ", "-") for head in heads}


@cache
def said() -> str:
    """Every text in the program's code that is no docstring, one a line."""
    return "\n".join(text.replace("&", "") for _, text in said_by_the_program())


@cache
def options() -> frozenset[str]:
    """All options of the command line, as it is made."""
    source = "".join(path.read_text(encoding="utf-8") for path in (ROOT / "app" / "cli").rglob("*.py"))
    return frozenset({"--help", *re.findall(r'add_argument\(\s*"(--[a-z-]+)"', source)})


@each_page
def test_every_link_and_picture_is_there(page: Path) -> None:
    for link in links(page):
        name, _, anchor = link.partition("#")
        target = (page.parent / name).resolve() if name else page
        assert target.is_file(), link
        assert not anchor or anchor in anchors(target), link


@each_page
def test_no_part_of_a_page_is_told_twice(page: Path) -> None:
    heads = [head.strip("?! ").lower() for head in re.findall(r"^#+ (.+)$", page.read_text("utf-8"), re.MULTILINE)]
    assert len(heads) == len(set(heads))


def test_every_picture_is_shown_somewhere() -> None:
    shown = {(page.parent / link).resolve() for page in PAGES for link in links(page)}
    assert [path.name for path in (DOCS / "pictures").iterdir() if path.resolve() not in shown] == []


def test_every_page_can_be_reached_from_the_index() -> None:
    linked = {link.partition("#")[0] for link in links(DOCS / "README.md")}
    assert {page.name for page in GUIDE} - {"README.md"} <= linked
    assert {f"{step.lower().replace(' ', '-')}.md" for step in steps()} <= linked


def stands_in(words: str, text: str) -> bool:
    """Whether the text has these words, not as part of longer ones; quicker than a pattern that looks behind."""
    at = text.find(words)
    while at >= 0:
        if not re.match(r"\w", text[at - 1 : at]) and not re.match(r"\w", text[at + len(words) : at + len(words) + 1]):
            return True
        at = text.find(words, at + 1)
    return False


def test_words_are_found_only_as_they_stand() -> None:
    assert stands_in("nut", "nuts or a nut, nuts")
    assert not any(stands_in("nut", text) for text in ("nuts", "a walnut", "the bolt"))


@each_of_the_guide
def test_words_in_bold_stand_in_the_window_or_on_paper(page: Path) -> None:
    for bold in re.findall(r"\*\*(.+?)\*\*", page.read_text(encoding="utf-8"), re.DOTALL):
        for part in " ".join(bold.split()).split(" → "):
            assert stands_in(part, said()), part


def test_words_that_the_program_does_not_say_would_be_seen() -> None:
    assert "Measure next" in said()
    assert "Measure the moon" not in said()


@each_page
def test_commands_options_and_templates_are_real(page: Path) -> None:
    typed = re.sub(r".*python -m tests\..*", "", page.read_text(encoding="utf-8"))  # options of the tests' own
    ours = re.findall(r"[`/ ]offsquare ([a-z-]+)(?= )", typed)
    assert set(ours) <= {*command_line.COMMANDS, "of"}, ours
    assert (
        page.name in ("DEVELOPERS.md", "how-true.md")
        or set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", typed)) <= options()
    )
    assert set(re.findall(r"--template ([a-z-]+)", typed)) <= {*TEMPLATES, sheet_options.ALL}
    named = set(re.findall(r"sample_jobs/([\w-]+\.job\.json)", typed))
    assert named <= {path.name for path in samples.paths()}


def test_the_templates_are_those_of_the_card() -> None:
    rows = tables(text("sheets.md"))["name", "on the card", "what it is for"]
    assert [(name.strip("`"), title) for name, title, _ in rows] == [(t.name, t.title) for t in TEMPLATES.values()]


def test_every_kind_of_reading_is_told_of() -> None:
    heads = re.findall(r"^## (.+)$", text("readings.md"), re.MULTILINE)
    assert sorted(heads) == sorted(how_to.TAKING[kind].says for kind in KINDS)
    rows = tables(text("numbers.md"))["kind", "equation"]
    assert [kind.strip("`") for kind, *_ in rows] == list(KINDS)


def test_the_measuring_lists_and_their_lengths() -> None:
    rows = tables(text("measure.md"))["list", "readings", "for"]
    assert {name: int(count) for name, count, _ in rows} == {
        name: len(measuring_list(name, "right", 6).readings) for name, _ in first_questions.list_choices()
    }
    assert len(rows) == len(LISTS)


def test_the_least_wood() -> None:
    assert tables(text("bridge.md"))["where", "mm"] == [(where, str(least)) for least, where in wood_left.WOOD.values()]


@in_one("head", RECORDS)
def test_the_job_file_key_by_key(head: str) -> None:
    block = text("job-file.md").split(f"\n## {head}\n")[1].split("\n## ")[0]
    rows = tables(block)["key", "what", "left out"]
    fields = {field.encode_name: field for field in msgspec.structs.fields(RECORDS[head])}
    assert [key.strip("`") for key, _, _ in rows] == list(fields)
    for key, what, default in rows:
        field = fields[key.strip("`")]
        assert default == ("needed" if field.required else f"`{_default(field)}`"), key
        if key not in ("`kind`", "`compensation`", "`nut_compensation`"):
            assert {f"`{choice}`" for choice in _choices(field.type)} <= set(re.findall(r"`[^`]+`", what)), key


def _default(field: Any) -> str:
    value = field.default if field.default_factory is msgspec.NODEFAULT else field.default_factory()
    plain = job_file._said(value)
    return json.dumps(int(plain) if isinstance(plain, float) and plain == int(plain) else plain)


def _choices(kind: Any) -> set[str]:
    """The words a field takes."""
    if get_origin(kind) is Literal:
        return set(get_args(kind))
    return {c for of in get_args(kind) for c in _choices(of)} if get_origin(kind) in (Union, UnionType) else set()


def test_no_block_of_the_job_file_is_left_out() -> None:
    heads = re.findall(r"^## (.+)$", text("job-file.md"), re.MULTILINE)
    assert heads == list(RECORDS)


def test_what_each_kind_of_reading_takes() -> None:
    rows = tables(text("job-file.md"))["kind", "`of`", "`from`", "values"]
    counted = {
        kind.strip("`"): (_count(of.split(":")[0]), _count(laid), int(values)) for kind, of, laid, values in rows
    }
    shapes = {kind: SHAPES[kind] for kind in KINDS}
    assert counted == {kind: (shape.of, shape.laid_from, shape.values) for kind, shape in shapes.items()}


def _count(names: str) -> int:
    return len(names.split(",")) if names else 0


def test_every_form_of_the_place_that_a_finding_names_is_told() -> None:
    """Those of the sample jobs; what only the window leads to is not among them."""
    found = {f.where for path in samples.paths() for f in work_out(job_file.read(path)).findings}
    told = re.findall(r"`([a-z]+):[^` ]+`", (DOCS / "job-file.md").read_text(encoding="utf-8"))
    assert {where.partition(":")[0] for where in found if ":" in where} == set(told)


def test_the_job_in_the_guide_can_be_read() -> None:
    example = re.search(r"```json\n(.*?)```", text("job-file.md"), re.DOTALL)
    assert example is not None
    assert len(job_file.decode(example[1].encode()).readings) == 4


def slipped(value: float | None = None) -> Job:
    """The tutorial's job, as it is or with its wrong reading read again."""
    path = samples.find("one-slip")
    assert path is not None
    found = job_file.read(path)
    if value is None:
        return found
    again = (msgspec.structs.replace(r, value=value) if r.id == "r37" else r for r in found.readings)
    return msgspec.structs.replace(found, readings=tuple(again))


def test_the_tutorial_quotes_what_the_window_says() -> None:
    quoted = re.findall(r"^> (.+)$", text("tutorial.md"), re.MULTILINE)
    found = slipped()
    again = look_again.look_again(found, work_out(found))
    assert quoted == [again.head, again.body]


def test_the_figures_of_the_tutorial_come_out() -> None:
    told, mended = text("tutorial.md"), slipped(42.5)
    layout = work_out(mended)
    assert layout.survey.verdict == "clean"
    figure = key_figures.key_figures(mended, layout)[-1]
    assert f"{figure.value} {figure.rest}" in told
    assert f"file {job_file.fingerprint(mended)}" in told
    checks = {check.code: check for check in layout.checks}
    rows = tables(told)["from", "to", "along", "mm", "good within"]
    rows = [
        row for row in rows if row[2].endswith(" edge")
    ]  # the others are read off the sheets by the tutorial's test
    codes = [f"end.bridge.{edge.split()[0]}" for _, _, edge, _, _ in rows]
    shown = [(units.show(checks[code].distance, "mm"), registration.CLOSE["mm"].removesuffix(" mm")) for code in codes]
    assert [(mm, pm) for *_, mm, pm in rows] == shown
    slot = {hand: units.show(checks[f"fret12.slot.{hand}"].distance, "mm") for hand in ("bass", "treble")}
    assert f"{slot['bass']} mm at the bass and {slot['treble']} mm at the treble" in told
    at_foot = {figure.where: figure for figure in key_figures.key_figures(mended, layout)}
    assert f"{at_foot['check:fret12.slot.bass'].rest.rpartition(' · string ')[2]} at the bass" in told
    assert layout.saddle is not None
    assert f"known to ±{units.show_pm(layout.saddle.pm95[1], 'mm')} mm" in told
    assert f"{units.show(layout.old.scar_widths['front'], 'mm')} mm in front" in told
    assert f"“{words.reading(mended.readings[32], mended.hand)}”" in told


def test_what_height_and_gauge_cost_in_the_strings_page() -> None:
    told, before = text("strings.md"), slipped(42.5)
    higher = (
        msgspec.structs.replace(r, value=units.mm(r.parts[0]) + 1) if r.at == "fret 12" else r for r in before.readings
    )
    moved = _moved(before, msgspec.structs.replace(before, readings=tuple(higher)))
    assert f"back by {min(moved):.1f} to {max(moved):.1f} mm" in told
    strings = before.strings
    assert strings is not None
    medium = msgspec.structs.replace(strings, list=SETS["steel 13-58"].strings)
    assert max(abs(by) for by in _moved(before, msgspec.structs.replace(before, strings=medium))) < 0.2


def _moved(before: Job, after: Job) -> list[float]:
    pairs = zip(work_out(before).strings, work_out(after).strings, strict=True)
    return [new.compensation - old.compensation for old, new in pairs]


def test_the_readme_holds_every_caution() -> None:
    told = " ".join((ROOT / "README.md").read_text(encoding="utf-8").split())
    for caution in cautions.ALL:
        assert f"- **{caution.title}.** {caution.text}" in told
    page = " ".join(text("sheets.md").split())
    for caution in (cautions.METAL, cautions.MACHINES, cautions.LASERS, cautions.ABOVE_ALL):
        assert caution.text in page


LICENCES = {
    "font-source-sans-pro": ("SIL Open Font License 1.1", "OFL"),
    "PySide6-Essentials": ("GNU LGPL, version 3", "LGPL-3.0"),
    "ezdxf": ("MIT", "MIT"),
    "fonttools": ("MIT", "MIT"),
    "msgspec": ("BSD, 3-clause", "BSD-3-Clause"),
    "numpy": ("BSD, 3-clause", "BSD-3-Clause"),
    "pillow": ("MIT-CMU", "MIT-CMU"),
    "pypdfium2": ("BSD, 3-clause, or Apache 2.0", "BSD-3-Clause"),
    "reportlab": ("BSD", "BSD"),
    "scipy": ("BSD, 3-clause", "BSD"),
    "shapely": ("BSD, 3-clause", "BSD-3-Clause"),
}
"""Each library's licence as the guide says it, and the word by which the library's own data says it."""


def test_every_library_stands_with_its_licence() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    needed = [re.match(r"[\w-]+", line)[0] for line in project["dependencies"]]  # type: ignore[index]  # all begin so
    assert sorted(LICENCES) == sorted(needed)
    rows = tables(text("licences.md"))["part", "what it is here for", "licence"]
    said = {re.findall(r"`([^`]+)`", part)[0]: licence for part, _, licence in rows}
    assert said == {name: licence for name, (licence, _) in LICENCES.items()}
    for name, (_, word) in LICENCES.items():
        about = metadata.metadata(name)
        own = [line for key in ("License-Expression", "License", "Classifier") for line in about.get_all(key) or []]
        assert any(word in line for line in own), name


def test_what_the_libraries_bring_is_named_too() -> None:
    told, found = text("licences.md"), set[str]()
    waiting = list(LICENCES)
    while waiting:
        for line in metadata.requires(waiting.pop()) or []:
            name = re.match(r"[\w.-]+", line)
            if name is not None and "extra ==" not in line and name[0] not in found:
                found.add(name[0])
                waiting.append(name[0])
    others = {name for name in found if name.casefold() not in {key.casefold() for key in LICENCES} | {"shiboken6"}}
    assert others
    assert all(f"`{name}`" in told for name in others), others
