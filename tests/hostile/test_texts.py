"""What a contractor types is text: it is printed as it stands, or found before anything is written."""

from __future__ import annotations

import itertools
import json
import re
import subprocess
import unicodedata
from html.parser import HTMLParser
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from scopegen.build import open_case
from scopegen.check import check
from scopegen.cli.commands import scopegen
from scopegen.load import Unreadable
from scopegen.papers.agreement import compose
from scopegen.papers.frame import NotWorkedOut, frame_of
from scopegen.render.printed import refuse_undrawable
from scopegen.render.refusals import UndrawableText
from scopegen.words import lexicon
from tests.jobs import EXAMPLES, changed, example, laid
from tests.render.test_refusals import Listening

# Text of the example, and which file it stands in; each is printed.
FIELDS = {
    "job": ("Heron Bend, front, side and back beds", "job"),
    "customer.name": ("Rosa Ejemplo", "job"),
    "customer.property": ('"7 Heron Bend, Millbrook, ST 00012"', "job"),
    "beds.name": ("name: Street strip", "job"),
    "parts": ("shade end", "job"),
    "material.note": ("A gap of 12 inches stays open along the house wall.", "job"),
    "site.note": ("The hydrangeas beside the patio stay untouched.", "job"),
    "because": ("the mulch there is deep enough", "job"),
    "who": ("the neighborhood association", "job"),
    "if_found.what": ("roots over 2 inches thick", "job"),
    "discount.because": ("second season with us", "job"),
    "spot": ('"the driveway, left bay"', "job"),
}
COMPANY = ("name", "address", "phone", "license", "insurance")


def with_text(folder: Path, text: str, *, fields: tuple[str, ...] = tuple(FIELDS)) -> Path:
    """The example with a text in each of its fields, in the company's lines, and in names of the chart."""
    said = json.dumps(text, ensure_ascii=False)
    job = example()
    for field in fields:
        old, _ = FIELDS[field]
        job = changed(job, (old, f"name: {said}" if old.startswith("name: ") else said))
    company = (EXAMPLES / "company.yaml").read_text(encoding="utf-8")
    company = re.sub(r"(?m)^(name|phone|license|insurance): .*$", lambda m: f"{m[1]}: {said}", company)
    chart = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")
    chart = changed(
        chart, *((line, re.sub("name: .*", lambda _: f"name: {said}", line)) for line in names(chart))
    )
    return laid(folder, job, chart=chart, company=company)


def names(chart: str) -> list[str]:
    """The lines with the names of two kinds of work and a material that the example uses."""
    found = []
    for key in ("hand-weed", "recut-edge", "twice-ground-hardwood"):
        found.append(re.search(rf"(?m)^  {key}:\n(?:    .*\n)*?    (name: .*)$", chart)[1])
    return found


def squeezed(text: str) -> str:
    """Without white space and line ends, and in small letters, since a text may begin a sentence."""
    return unicodedata.normalize("NFC", re.sub(r"[\s\u00ad]", "", text)).casefold()


class Tags(HTMLParser):
    """The tags of a page with their attributes, and its text."""

    def __init__(self, page: str) -> None:
        super().__init__(convert_charrefs=True)
        self.tags: list[tuple[str, list[str]]] = []
        self.text = ""
        self.inside = ""
        self.feed(page)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.inside = tag
        self.tags.append((tag, [name for name, _ in attrs]))

    def handle_endtag(self, tag: str) -> None:
        self.inside = ""

    def handle_data(self, data: str) -> None:
        if self.inside not in ("style", "script"):
            self.text += data


def written(job: Path, name: str) -> Path:
    result = CliRunner().invoke(scopegen, ["write", "agreement", str(job), "-o", str(job.with_name(name))])
    assert result.exit_code == 0, result.output
    return job.with_name(name)


HOSTILE = {
    "HTML": "<script>alert('x')</script><img src=\"{address}/a.png\" onload=x></td></table> &amp; &#65;",
    "Jinja": "{{ 7*7 }} {% for x in y %} {{ self }} {# no #} %} }} {beds} {0} %s $x",
    "CSS": '"; } * { display: none } @import "{address}/a.css"; /* </style> \\22 \\A url({address}/b.png)',
    "addresses": "file:///etc/passwd {address}/c.svg javascript:alert(1) data:text/html,x {page} {pages}",
    "marks": "e\u0301 n\u0303 o\u0302\u0323, “Niño’s” ½ 12″ ễ Ж Ω − ° € 1:2 [/] [red]x[/red] :smile: `x` *y*",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_text_is_printed_as_it_stands(tmp_path: Path, name: str) -> None:
    """In every field of PDF and page; no tag comes of it, and nobody is asked for anything."""
    plain = tmp_path / "plain"
    plain.mkdir()
    with Listening() as server:
        text = HOSTILE[name].replace("{address}", server.address)
        job = with_text(tmp_path, text)
        pdf, page = written(job, "paper.pdf"), written(job, "paper.html")
        assert server.asked == []
    read = subprocess.run(["pdftotext", "-layout", pdf, "-"], capture_output=True, text=True, check=True)
    letters = itertools.cycle("abcdefghijklmnopqrstuvwxyz")
    as_long = "".join(sign if sign.isspace() else next(letters) for sign in text)  # word by word
    harmless = written(with_text(plain, as_long), "paper.html")
    tags, harmless_tags = Tags(page.read_text("utf-8")), Tags(harmless.read_text("utf-8"))
    assert tags.tags == harmless_tags.tags
    asked = squeezed(harmless_tags.text).count(squeezed(as_long))
    assert squeezed(tags.text).count(squeezed(text)) == asked > len(FIELDS)
    raw = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True, check=True)
    assert squeezed(raw.stdout).count(squeezed(text)) + squeezed(read.stdout).count(squeezed(text)) > len(
        FIELDS
    )


def test_ten_thousand_characters_are_printed(tmp_path: Path) -> None:
    """The longest text that a field may have, in words and in one piece."""
    for text in (("word " * 2000).strip(), "x" * 10_000):
        with_text(tmp_path, text, fields=("site.note",))
        job = laid(tmp_path, changed(example(), (FIELDS["site.note"][0], text)))
        pdf = written(job, "paper.pdf")
        read = subprocess.run(["pdftotext", "-raw", pdf, "-"], capture_output=True, text=True, check=True)
        assert squeezed(read.stdout).count("word" if " " in text else "x") >= len(text.split()) - 5


UNDRAWABLE = {
    "Han": ("花", "U+82B1, cjk unified ideograph-82b1"),
    "Arabic": ("ه", "U+0647, arabic letter heh"),
    "emoji": ("🌱", "U+1F331, seedling"),
    "a mark of Devanagari": ("\u0941", "U+0941, devanagari vowel sign u"),
    "private use": ("\ue000", "U+E000, a character without a name"),
    "a narrow hyphen": ("\u2011", "U+2011, non-breaking hyphen"),
}


@pytest.mark.parametrize("field", FIELDS)
@pytest.mark.parametrize("name", UNDRAWABLE)
def test_what_no_font_draws_is_found_at_its_place(tmp_path: Path, name: str, field: str) -> None:
    """File, line, column, character, field; and `write` writes nothing."""
    sign, spelled = UNDRAWABLE[name]
    old = FIELDS[field][0]
    new = f"name: Bed {sign}" if old.startswith("name: ") else f'"A {sign} here"'
    job = laid(tmp_path, changed(example(), (old, new)))
    found = [each for each in check(open_case(job)).findings if each.rule == "undrawable-character"]
    assert found
    line = job.read_text("utf-8").splitlines()[found[0].place.line - 1]
    assert line[found[0].place.column - 1] == sign
    assert spelled in found[0].message
    assert field.split(".")[-1] in found[0].message or field == "parts"
    result = CliRunner().invoke(scopegen, ["write", "agreement", str(job), "-o", str(tmp_path / "a.pdf")])
    assert result.exit_code == 1
    assert not (tmp_path / "a.pdf").exists()


def found_in(job: Path) -> tuple[str, str]:
    """File and message of the one finding about a character."""
    (found,) = [each for each in check(open_case(job)).findings if each.rule == "undrawable-character"]
    return Path(found.place.file).name, found.message


def test_it_is_found_in_chart_company_clause_and_currency(tmp_path: Path) -> None:
    """Also where a small letter is drawn and the capital that begins the sentence is not."""
    chart = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")
    company = (EXAMPLES / "company.yaml").read_text(encoding="utf-8")
    job = laid(tmp_path, example(), chart=changed(chart, ("name: {en: Weed by hand,", "name: {en: 花,")))
    assert found_in(job)[0] == "prices-2027.yaml"
    job = laid(tmp_path, example(), chart=changed(chart, ("currency: USD", "currency: ILS")))
    assert found_in(job)[0] == "prices-2027.yaml" and "U+20AA, new sheqel sign" in found_in(job)[1]
    job = laid(tmp_path, example(), company=re.sub(r"(?m)^insurance: .*$", "insurance: 花", company))
    assert found_in(job)[0] == "company.yaml"
    job = laid(tmp_path, changed(example(), ("roots over 2 inches thick", "ƒlat roots")))
    assert found_in(job)[0] == "job.yaml" and "U+0191, latin capital letter f with hook" in found_in(job)[1]
    clause = (EXAMPLES.parent / "clause_library/edging/recut.yaml").read_text(encoding="utf-8")
    (tmp_path / "clauses/edging").mkdir(parents=True)
    for sign in ("花", "{{ '花' }}"):
        own = re.sub(r"(included: >-\n\s+)", rf"\g<1>{sign} ", clause, count=1)
        (tmp_path / "clauses/edging/recut.yaml").write_text(own, encoding="utf-8")
        assert found_in(laid(tmp_path, example()))[0] == "recut.yaml"


@pytest.mark.parametrize("sign", ["\u202e", "\u2066", "\u200b", "\ufeff", "\u00ad", "\x00", "\x1b", "\ud83c"])
@pytest.mark.parametrize("file", ["job.yaml", "company.yaml", "prices-2027.yaml"])
def test_what_cannot_be_seen_is_found(tmp_path: Path, file: str, sign: str) -> None:
    """As it stands in the file, and spelled by an escape."""
    job = laid(tmp_path, example())
    sound = (tmp_path / file).read_text("utf-8")
    spelled = (
        [f'"\\u{ord(sign):04x}"'] if ord(sign) in range(0xD800, 0xE000) else [sign, f'"\\u{ord(sign):04x}"']
    )
    for each in spelled:
        (tmp_path / file).write_text(f"note: a{each}\n{sound}".replace('a"', '"'), encoding="utf-8")
        result = CliRunner().invoke(scopegen, ["check", str(job)])
        assert result.exit_code == (2 if file == "job.yaml" else 1)
        assert f"{file}:1:" in result.output
        assert f"U+{ord(sign):04X}" in result.output
        assert sign not in result.output


@settings(max_examples=120, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    text=st.text(st.characters(min_codepoint=0x20, exclude_categories=["Cs"]), min_size=1, max_size=6),
    field=st.sampled_from(sorted(FIELDS)),
)
def test_nothing_stops_exactly_what_can_be_drawn(tmp_path: Path, text: str, field: str) -> None:
    """Any text in any field: where `check` ends with 0 the paper can be drawn, and nowhere else."""
    old = FIELDS[field][0]
    said = json.dumps(text, ensure_ascii=False)
    job = laid(tmp_path, changed(example(), (old, f"name: {said}" if old.startswith("name: ") else said)))
    try:
        case = open_case(job)
    except Unreadable:
        assert any(unicodedata.category(sign)[0] in "CZ" for sign in text)
        return
    checked = check(case)
    try:
        refuse_undrawable(compose(frame_of(case, lexicon("en"), draft=checked.stops)))
        drawn = True
    except (UndrawableText, NotWorkedOut):
        drawn = False
    assert drawn or checked.stops
    if checked.stops and drawn:  # stopped for another reason, such as two beds of one name
        assert {f.rule for f in checked.findings if f.level == "stops"} - {"undrawable-character"}
