"""What is measured against what."""

from __future__ import annotations

import os
import shutil
import sys
from importlib import resources
from pathlib import Path

from scopegen.build import open_case
from scopegen.papers.agreement import compose
from scopegen.papers.frame import frame_of
from scopegen.render import to_html
from scopegen.render.faces import FACES
from scopegen.render.markup import markup
from scopegen.render.pdf import FIELDS
from scopegen.render.styles import document_rules, sheet
from scopegen.words import lexicon
from tests.benchmarks.jobs import with_beds, workspace
from tests.benchmarks.running import Subject

PROGRAM = (sys.executable, "-m", "scopegen")
BARE = "a bare interpreter with pydantic, ruamel.yaml and click"
CHROMIUM = "/usr/bin/chromium"
NO_CHROMIUM = (
    f"There is no {CHROMIUM}, so its row is left out; on Debian `sudo apt-get install chromium` installs it."
)

# What write_pdf is asked for is what scopegen.render.pdf asks for, but for the files inside.
WEASYPRINT = """
import weasyprint
from weasyprint.text.fonts import FontConfiguration
fonts = FontConfiguration()
look = weasyprint.CSS(filename="paper.css", font_config=fonts)
page = weasyprint.HTML(filename="paper.html", media_type="print")
options = dict(pdf_variant="pdf/a-3a", pdf_tags=True, pdf_forms=True)
page.write_pdf("bare.pdf", font_config=fonts, stylesheets=[look], **options)
"""


def checking(folder: Path, beds: tuple[int, ...]) -> list[Subject]:
    """`check` of jobs with so many beds, beside an interpreter that imports what it cannot do without."""
    workspace(folder)
    for number in beds:
        (folder / f"beds-{number}.yaml").write_text(with_beds(number), encoding="utf-8")
    bare = Subject(BARE, [[sys.executable, "-c", "import pydantic, ruamel.yaml, click"]])
    return [
        bare,
        *(Subject(f"check, {n} bed{'s' * (n > 1)}", [[*PROGRAM, "check", f"beds-{n}.yaml"]]) for n in beds),
    ]


def writing(folder: Path, beds: int) -> list[Subject]:
    """`write agreement` beside what draws the same page from the same style sheet."""
    job = workspace(folder) / "job.yaml"
    job.write_text(with_beds(beds), encoding="utf-8")
    case = open_case(job)
    document = compose(frame_of(case, lexicon("en")))
    (folder / "paper.html").write_text(markup(document), encoding="utf-8")
    (folder / "paper.css").write_text(_style(folder) + document_rules(document), encoding="utf-8")
    (folder / "screen.html").write_text(to_html(document), encoding="utf-8")
    subjects = [
        Subject("WeasyPrint alone, the same page", [[sys.executable, "-c", WEASYPRINT]]),
        Subject(f"write agreement, {beds} beds", [[*PROGRAM, "write", "agreement", "job.yaml"]]),
    ]
    if os.path.exists(CHROMIUM):
        subjects.append(_chromium(folder))
    return subjects


def _style(folder: Path) -> str:
    """The style sheet of a PDF, its typefaces as files."""
    rules = ""
    for face in (*FACES, FIELDS):
        (folder / f"{face.family}-{face.weight}.ttf").write_bytes(face.content())
        rules += face.rule(f"{face.family}-{face.weight}.ttf")
    return rules + sheet("look") + sheet("paper")


def _chromium(folder: Path) -> Subject:
    profile = folder / "profile"
    words = (
        "--headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking"
    )
    command = [
        CHROMIUM,
        *words.split(),
        f"--user-data-dir={profile}",
        "--print-to-pdf=chromium.pdf",
        "screen.html",
    ]
    return Subject(
        "headless Chromium, the HTML paper", [command], lambda: shutil.rmtree(profile, ignore_errors=True)
    )


def many_papers(folder: Path, papers: int, beds: int) -> list[Subject]:
    """Several papers in one process, in several at once, and by one run each."""
    workspace(folder)
    names = [f"job-{number}.yaml" for number in range(papers)]
    for name in names:
        (folder / name).write_text(with_beds(beds), encoding="utf-8")
    write = [*PROGRAM, "write", "agreement"]
    return [
        Subject(f"{papers} papers in one process", [[*write, ".", "--at-once", "1"]]),
        Subject(f"{papers} papers on all cores", [[*write, "."]]),
        Subject(f"{papers} papers, a run each", [[*write, name] for name in names]),
    ]


def environment(compiled: Path) -> dict[str, str]:
    """The caller's, with this checkout's program, none of the machine's typefaces, and a folder for compiled
    modules: a user's Python keeps them, whatever the caller's is told."""
    fonts = str(resources.files("scopegen.render") / "no-fonts.conf")
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    own = {"PYTHONPATH": str(Path(__file__).parents[2]), "PYTHONPYCACHEPREFIX": str(compiled)}
    return {**kept, **own, "FONTCONFIG_FILE": fonts}
