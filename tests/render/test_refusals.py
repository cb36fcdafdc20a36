"""What cannot be drawn is refused by name, and nothing from outside gets into a paper."""

import os
import subprocess
import sys
import sysconfig
import threading
from dataclasses import replace
from http.server import BaseHTTPRequestHandler, HTTPServer
from pathlib import Path

import pytest

from scopegen.papers.document import Cell, Column, Document, Paragraph, Row, Section, Table
from scopegen.render import UndrawableText, to_html, to_pdf

from .paper import Paper
from .sample import agreement

ROOT = Path(__file__).parents[2]


def small(text: str = "Text.", **changes: object) -> Document:
    return replace(agreement(), sections=(Section("a", "A", (Paragraph(text),)),), **changes)


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("Spread 花 here", "U+82B1"),
        ("well\u2011drained", "U+2011"),
        ("left\u202eright", "U+202E"),
        ("zero\u200bwidth", "U+200B"),
        ("bell\x07", "U+0007"),
        ("half a pair \ud83c", "U+D83C"),
        ("🌱", "U+1F331"),
    ],
)
@pytest.mark.parametrize("draw", [to_pdf, to_html])
def test_a_character_that_no_font_holds_is_named(draw, text: str, code: str) -> None:
    with pytest.raises(UndrawableText) as refused:
        draw(small(text))
    assert refused.value.code == code
    assert refused.value.character in text
    assert code in str(refused.value)
    str(refused.value).encode()  # it can be printed


@pytest.mark.parametrize(
    "document",
    [
        small(title="花"),
        small(subtitle="花"),
        small(running_head="花"),
        small(page_of="花 {page}"),
        small(draft="花"),
        replace(small(), sections=(Section("a", "花", ()),)),
        replace(small(), sections=(Section("a", "A", (), number="花"),)),
        replace(small(), sections=(Section("a", "A", (Table("t", (Column("花"),), (Row((Cell("x"),)),)),)),)),
        replace(
            small(),
            sections=(Section("a", "A", (Table("t", (Column("x"),), (Row((Cell("x", ("花",)),)),)),)),),
        ),
    ],
)
def test_it_is_found_wherever_it_stands(document: Document) -> None:
    with pytest.raises(UndrawableText, match=r"U\+82B1"):
        to_pdf(document)


def test_what_the_serif_lacks_is_drawn_from_the_sans() -> None:
    """The narrow no-break space of times of day (Unicode CLDR 42, from memory) is in the sans only."""
    paper = Paper(to_pdf(small(title="At 8:00\u202fAM", page_of="{page}")))
    assert {piece.family for piece in paper.pieces} == {"ScopegenSans", "ScopegenSerif"}
    assert "AM" in "".join(piece.text for piece in paper.pieces)


def test_signs_of_the_trade_can_be_drawn() -> None:
    signs = "½ ⅝ ¾ ′ ″ ’ “ ” × − – · ² ³ ° ± $ € § → ☐ ✓ ñ é ễ ß ø š ć"
    assert "".join(signs.split()) in "".join(
        "".join(p.text for p in Paper(to_pdf(small(signs))).body).split()
    )


class Listening:
    """A server on this machine that notes what is asked of it."""

    def __enter__(self) -> "Listening":
        self.asked: list[str] = []
        asked = self.asked

        class Handler(BaseHTTPRequestHandler):
            def do_GET(self) -> None:
                asked.append(self.path)
                self.send_response(404)
                self.end_headers()

            def log_message(self, *_: object) -> None:
                pass

        self.server = HTTPServer(("127.0.0.1", 0), Handler)
        self.address = f"http://127.0.0.1:{self.server.server_port}"
        threading.Thread(target=self.server.serve_forever, daemon=True).start()
        return self

    def __exit__(self, *_: object) -> None:
        self.server.shutdown()
        self.server.server_close()


@pytest.mark.parametrize(
    "markup",
    [
        '<img src="{}/a.png">',
        '<link rel="stylesheet" href="{}/a.css">',
        '<style>@import "{}/a.css";</style>',
        '<style>@font-face {{ font-family: x; src: url("{}/a.ttf") }}</style>',
        '<p style="background: url({}/a.png)">x</p>',
        '<object data="{}/a.svg"></object>',
        '<link rel="attachment" href="{}/a.txt">',
        '<a rel="attachment" href="{}/a.txt">x</a>',
        '<embed src="{}/a.svg">',
        '<ul style="list-style-image: url({}/a.png)"><li>x</li></ul>',
        "<style>p::before {{ content: url({}/a.png) }}</style><p>x</p>",
        "<style>@page {{ background: url({}/a.png) }}</style><p>x</p>",
        "<style>@page {{ @top-left {{ content: url({}/a.png) }} }}</style><p>x</p>",
        '<svg width="9" height="9"><image href="{}/a.png" width="9" height="9"/></svg>',
    ],
)
def test_even_mark_up_that_slipped_in_could_fetch_nothing(markup: str) -> None:
    """Neither from the network nor from this machine; with an open fetcher the same page does ask."""
    import weasyprint
    from weasyprint.urls import FatalURLFetchingError

    from scopegen.render.pdf import _faults_stop, closed_fetcher

    with Listening() as server:
        for address in (server.address, "file:///etc"):
            page = weasyprint.HTML(string=markup.format(address), url_fetcher=closed_fetcher({}))
            # a picture inside a drawing is only logged, which stops the paper as well
            with pytest.raises(
                (FatalURLFetchingError, RuntimeError), match="may not fetch|not drawn as meant"
            ):
                with _faults_stop():
                    page.write_pdf()
        assert server.asked == []
        weasyprint.HTML(string=markup.format(server.address)).write_pdf()
        assert len(server.asked) >= 1


@pytest.mark.parametrize(
    "markup", ['<link rel="attachment" href="{}">', '<a rel="attachment" href="{}">x</a>']
)
def test_a_file_of_this_machine_gets_into_no_paper(tmp_path: Path, markup: str) -> None:
    """A file with a sign of its own: an open fetcher takes it into the PDF, ours stops."""
    import weasyprint
    from weasyprint.urls import FatalURLFetchingError

    from scopegen.render.pdf import closed_fetcher

    canary = tmp_path / "canary.txt"
    canary.write_text("canary-8417")
    said = markup.format(canary.as_uri())
    taken = weasyprint.HTML(string=said).write_pdf(uncompressed_pdf=True)
    assert b"canary-8417" in taken
    with pytest.raises(FatalURLFetchingError, match="may not fetch"):
        weasyprint.HTML(string=said, url_fetcher=closed_fetcher({})).write_pdf()


def run(program: str, *arguments: str, **environment: str) -> str:
    """What a program prints in a new process that finds the standard library and PYTHONPATH alone."""
    done = subprocess.run(
        [sys.executable, "-S", "-c", program, str(ROOT), *arguments],
        env={**os.environ, **environment},
        capture_output=True,
        text=True,
    )
    assert done.returncode == 0, done.stderr
    return done.stdout.strip()


def site_packages() -> list[Path]:
    paths = sysconfig.get_paths()
    return [Path(p) for p in dict.fromkeys((paths["purelib"], paths["platlib"]))]


DRAW = """
import sys
sys.path[:0] = [sys.argv[1], sys.argv[1] + "/tests/render"]
from sample import agreement
from scopegen.render import RenderingUnavailable, to_html, to_pdf
try:
    {}(agreement(3))
except RenderingUnavailable as refusal:
    print(refusal)
"""


@pytest.mark.parametrize("draw", ["to_pdf", "to_html"])
def test_a_missing_font_package_is_one_sentence_with_the_install_line(tmp_path: Path, draw: str) -> None:
    for folder in site_packages():
        for entry in folder.iterdir():
            link = tmp_path / entry.name
            if not entry.name.startswith("font_source_serif_pro") and not link.exists():
                link.symlink_to(entry)
    said = run(DRAW.format(draw), PYTHONPATH=str(tmp_path))
    assert said.count("\n") == 0 and said.endswith(".")
    assert "SourceSerifPro-Semibold.ttf" in said
    assert "python3 -m pip install font-source-serif-pro" in said


def test_missing_libraries_are_one_sentence_with_the_install_line(tmp_path: Path) -> None:
    """An empty file stands where the loader looks first, which it can load no more than a missing one.

    The loader's search path is that of Linux, where the tests run.
    """
    (tmp_path / "libpango-1.0.so.0").touch()
    packages = os.pathsep.join(map(str, site_packages()))
    said = run(DRAW.format("to_pdf"), PYTHONPATH=packages, LD_LIBRARY_PATH=str(tmp_path))
    assert said.count("\n") == 0 and said.endswith(".")
    assert (
        "sudo apt-get install --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
        in said
    )


def test_importing_the_room_does_not_import_what_it_draws_with() -> None:
    program = (
        "import sys; sys.path.insert(0, sys.argv[1]); import scopegen.render; "
        "print(sorted({'weasyprint', 'jinja2', 'fontTools'} & set(sys.modules)))"
    )
    assert run(program, PYTHONPATH=os.pathsep.join(map(str, site_packages()))) == "[]"


def test_drawing_leaves_the_environment_as_it_was() -> None:
    before = dict(os.environ)
    to_pdf(small())
    assert dict(os.environ) == before


def test_what_weasyprint_only_logs_stops_the_paper() -> None:
    import weasyprint

    from scopegen.render.pdf import _faults_stop

    with pytest.raises(RuntimeError, match="not drawn as meant"), _faults_stop():
        weasyprint.CSS(string="p { colour: red }")


# what the loader is asked for by a plain name is refused here; what find_library names goes by another way
BY_LOOKING_ALONE = """
import sys
import cffi.api
load = cffi.api._load_backend_lib
def refused(backend, name, flags):
    if ".so" in name:
        raise OSError(name)
    return load(backend, name, flags)
cffi.api._load_backend_lib = refused
"""


@pytest.mark.parametrize("plain_names_load", [True, False])
def test_libraries_are_looked_for_only_where_their_plain_names_do_not_load(plain_names_load: bool) -> None:
    """Looking for them starts ldconfig and a compiler. Either way the paper is drawn, and what looks for
    libraries is what it was."""
    program = (
        "import ctypes.util, sys; before, started = ctypes.util.find_library, []\n"
        "sys.addaudithook(lambda event, told: event == 'subprocess.Popen' and started.append(told[0]))\n"
        + ("" if plain_names_load else BY_LOOKING_ALONE)
        + DRAW.format("pages = to_pdf")
        + "\nprint(pages[:5].decode(), ctypes.util.find_library is before, len(started) > 0)"
    )
    said = run(program, PYTHONPATH=os.pathsep.join(map(str, site_packages())))
    assert said == f"%PDF- True {not plain_names_load}"
