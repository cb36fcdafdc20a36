"""The commands, as typed and as mistyped."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scopegen.cli.commands import scopegen
from tests.jobs import EXAMPLES, changed, example, laid

HERON, QUARRY = str(EXAMPLES / "heron-bend.yaml"), str(EXAMPLES / "quarry-lane.yaml")


def run(*words: str) -> Result:
    return CliRunner().invoke(scopegen, list(words))


def test_check_says_fine() -> None:
    """Nothing stops the example: exit code 0, and a tally of its 30 bed and 9 site decisions."""
    result = run("check", HERON)
    assert result.exit_code == 0
    assert "39 decisions: 39 decided, 0 open." in result.stdout


def test_check_says_stopped() -> None:
    """Something stops the walk's notes: exit code 1."""
    assert run("check", QUARRY).exit_code == 1


def test_check_in_json() -> None:
    """JSON names each finding and each decision with its place."""
    result = run("check", QUARRY, "--json")
    data = json.loads(result.stdout)
    assert result.exit_code == 1
    assert set(data) == {"findings", "decided", "open"}
    assert {(each["bed"], each["decision"]) for each in data["open"]} == {
        ("Garage side", "bed_prep"),
        ("Garage side", "edging"),
        ("Garage side", "substrate"),
        (None, "irrigation-and-lighting"),
        (None, "drains-and-slope"),
    }
    finding = next(each for each in data["findings"] if each["rule"] == "open-edging")
    assert finding["level"] == "stops"
    assert (finding["bed"], finding["decision"], finding["line"], finding["column"]) == (
        "Garage side",
        "edging",
        28,
        5,
    )
    assert set(finding) == {"rule", "level", "message", "fix", "file", "line", "column", "bed", "decision"}


def test_price_in_json_adds_up() -> None:
    """The printed lines, discount and taxes make the total, and the payments come to it."""
    from decimal import Decimal

    data = json.loads(run("price", HERON, "--json").stdout)
    lines = sum(Decimal(line["amount"]) for line in data["lines"])
    assert lines == Decimal(data["subtotal"])
    assert lines - Decimal(data["discount"]) + Decimal(data["tax"]) == Decimal(data["total"])
    assert sum(Decimal(payment["amount"]) for payment in data["payments"]) == Decimal(data["total"])
    for line in data["lines"]:
        if line["unit_price"] is not None:
            assert (Decimal(line["quantity"]) * Decimal(line["unit_price"])).quantize(
                Decimal("0.01")
            ) == Decimal(line["amount"])


def test_price_of_an_unfinished_job_says_so() -> None:
    """A price is printed as far as decided, and what stands in the way is counted beside it."""
    result = run("price", QUARRY)
    assert result.exit_code == 0
    assert "Total" in result.stdout
    assert (
        "This price is not final: 6 findings stop the agreement. `scopegen check` names them."
        in result.stderr
    )


@pytest.mark.parametrize("command", [["check"], ["price"], ["write", "agreement"]])
@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("nowhere.yaml", "there is no file nowhere.yaml"),
        ("empty.yaml", "is empty"),
        ("picture.yaml", "is not UTF-8 text"),
        ("list.yaml", "does not start with 'key: value' lines"),
    ],
)
def test_file_that_cannot_be_understood(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: list[str], name: str, said: str
) -> None:
    """One clear finding and exit code 2, never a traceback."""
    (tmp_path / "empty.yaml").write_text("# nothing\n")
    (tmp_path / "list.yaml").write_text("- a\n")
    (tmp_path / "picture.yaml").write_bytes(b"\x89PNG\r\n\x1a\n\xff\xfe")
    monkeypatch.chdir(tmp_path)
    result = run(*command, name)
    assert result.exit_code == 2
    assert said in result.output
    assert "Traceback" not in result.output


def test_price_of_a_folder_is_refused(tmp_path: Path) -> None:
    """A price is of one job."""
    result = run("price", str(tmp_path))
    assert result.exit_code == 2
    assert "is a folder, not a file" in result.stderr


def test_job_without_a_workspace(tmp_path: Path) -> None:
    """A job that lies nowhere near a company.yaml is told where it belongs."""
    path = tmp_path / "job.yaml"
    path.write_text(example())
    result = run("check", str(path))
    assert result.exit_code == 1
    assert "there is no company.yaml beside this job or in a folder above it" in result.stdout


def test_season_without_a_chart(tmp_path: Path) -> None:
    """The chart that is missing is named."""
    result = run("check", str(laid(tmp_path, changed(example(), ("season: 2027", "season: 2031")))))
    assert result.exit_code == 1
    assert "prices-2031.yaml for season 2031" in result.stdout


def test_write_writes_where_check_is_fine(tmp_path: Path) -> None:
    """The paper is where it was asked for, and the command says so."""
    (tmp_path / "papers").mkdir()
    paper = tmp_path / "papers" / "heron.pdf"
    result = run("write", "agreement", HERON, "-o", str(paper))
    assert result.exit_code == 0
    assert result.stdout.splitlines() == [
        f"Wrote {paper}",
        "The customer may cancel this sale (16 CFR Part 429). When they sign:",
        "- Tell the customer aloud that they may cancel.",
        "- Give the customer a full copy of the agreement and both copies of the form.",
        "- Do not start the work before the last day to cancel has passed.",
        "This is no legal advice; local law may ask for more.",
    ]
    assert paper.read_bytes().startswith(b"%PDF-")
    assert [entry.name for entry in paper.parent.iterdir()] == ["heron.pdf"]


def test_what_a_right_asks_is_said_in_the_papers_language(tmp_path: Path) -> None:
    """The contractor reads the duties as the customer reads the paper: whole in one language."""
    job = laid(tmp_path, changed(example(), ("language: en", "language: es")))
    result = run("write", "agreement", str(job), "--as", "html")
    assert result.exit_code == 0
    assert result.stdout.splitlines()[1:] == [
        "El cliente puede cancelar esta venta (16 CFR Part 429). Cuando firme:",
        "- Dígale al cliente en voz alta que puede cancelar.",
        "- Dele al cliente una copia completa del acuerdo y las dos copias del formulario.",
        "- No empiece el trabajo antes de que haya pasado el último día para cancelar.",
        "Esto no es consejo legal; la ley local puede pedir más.",
    ]


def test_write_names_the_paper_after_the_job(tmp_path: Path) -> None:
    """Without -o the paper lies beside the job, a draft told apart by its name."""
    job = laid(tmp_path, example("quarry-lane"))
    assert run("write", "agreement", str(job), "--draft", "--as", "html").exit_code == 0
    assert (tmp_path / "job-draft.html").read_text(encoding="utf-8").startswith("<!doctype html>")


def test_write_refuses_and_says_which_decisions_are_open(tmp_path: Path) -> None:
    """Nothing is written while a decision is open."""
    paper = tmp_path / "paper.pdf"
    result = run("write", "agreement", QUARRY, "-o", str(paper))
    assert result.exit_code == 1
    assert "Garage side: nobody decided edging" in result.stderr
    assert not paper.exists()


@pytest.mark.parametrize("day", ["2027-02-30", "3/19/2027", "9999-12-31", "2027-W11-5", ""])
def test_paper_cannot_be_dated_by_a_day_that_is_none(day: str) -> None:
    """A day that the calendar does not have, or no job can, is refused by name."""
    result = run("write", "agreement", HERON, "--dated", day)
    assert result.exit_code == 2
    assert f"'{day}' is not " in result.stderr


def test_file_that_leads_back_to_itself(tmp_path: Path) -> None:
    """A link in a circle is one finding."""
    (tmp_path / "job.yaml").symlink_to("job.yaml")
    result = run("check", str(tmp_path / "job.yaml"))
    assert result.exit_code == 2
    assert "cannot be read" in result.stderr


@pytest.mark.parametrize(
    ("day", "said"),
    [
        ("2027-03-18", "is before the paper's date, 2027-03-19"),
        ("2027-04-10", "is after the offer's last day, 2027-04-09"),
    ],
)
def test_signing_outside_the_offer_is_refused(day: str, said: str) -> None:
    """Nobody signs before the paper is dated, or after the offer has ended."""
    result = run("write", "agreement", HERON, "--signed-on", day)
    assert result.exit_code == 1
    assert said in result.stderr


def test_dated_goes_before_the_job_s_own_date(tmp_path: Path) -> None:
    """--dated moves the paper's date, and the offer with it."""
    paper = tmp_path / "paper.html"
    assert (
        run("write", "agreement", HERON, "--dated", "2027-03-22", "--as", "html", "-o", str(paper)).exit_code
        == 0
    )
    text = paper.read_text(encoding="utf-8")
    assert "Dated March 22, 2027" in text
    assert "Offer stands to April 12, 2027" in text


def test_paper_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    """A folder that is not there is not made: exit code 3, and a sentence."""
    result = run("write", "agreement", HERON, "-o", str(tmp_path / "papres" / "paper.pdf"))
    assert result.exit_code == 3
    assert (
        result.stderr
        == f"There is no folder {tmp_path / 'papres'}. Make it first, or name another file with -o.\n"
    )
    assert list(tmp_path.iterdir()) == []


def test_kind_of_paper_goes_by_its_name(tmp_path: Path) -> None:
    """`-o paper.html` is HTML; a name that says otherwise than --as is refused."""
    paper = tmp_path / "paper.html"
    assert run("write", "agreement", HERON, "-o", str(paper)).exit_code == 0
    assert paper.read_text(encoding="utf-8").startswith("<!doctype html>")
    result = run("write", "agreement", HERON, "--as", "pdf", "-o", str(paper))
    assert result.exit_code == 3
    assert "--as pdf does not go with the name" in result.stderr


def test_other_file_than_a_job_is_said(tmp_path: Path) -> None:
    """company.yaml is no job description: one finding, exit code 2."""
    result = run("check", str(EXAMPLES / "company.yaml"))
    assert result.exit_code == 2
    assert "is no job description: it has neither 'job' nor 'beds'" in result.stderr
    assert result.stderr.count("stops") == 1


def test_mistyped_decision_is_counted_as_not_understood(tmp_path: Path) -> None:
    """A decision with a slip in it is neither decided nor lost from the count."""
    result = run(
        "check",
        str(
            laid(
                tmp_path,
                changed(
                    example(),
                    (
                        "    edging: {decided: included, work: new-edge}",
                        "    edging: {decided: include, work: new-edge}",
                    ),
                ),
            )
        ),
    )
    assert "39 decisions: 38 decided, 0 open, 1 not understood." in result.stdout
    assert "did you mean 'included'?" in result.stdout


@pytest.mark.parametrize("name", ["heron-bend", "quarry-lane"])
def test_write_writes_exactly_where_check_is_fine(tmp_path: Path, name: str) -> None:
    """`check` ends with 0 exactly where `write` writes."""
    paper = tmp_path / "paper.html"
    checked = run("check", str(EXAMPLES / f"{name}.yaml")).exit_code
    written = run(
        "write", "agreement", str(EXAMPLES / f"{name}.yaml"), "--as", "html", "-o", str(paper)
    ).exit_code
    assert checked == written
    assert paper.exists() == (checked == 0)


def test_check_loads_no_renderer() -> None:
    """`check` works without the renderer, which takes a second to load."""
    script = """
import sys
from scopegen.cli.commands import scopegen
try:
    scopegen(["check", sys.argv[1]])
except SystemExit as ended:
    print(ended.code, "weasyprint" in sys.modules)
"""
    ended = subprocess.run([sys.executable, "-c", script, HERON], capture_output=True, text=True, check=False)
    assert ended.stdout.splitlines()[-1] == "0 False", ended.stderr


def test_program_runs_as_a_module() -> None:
    """`python -m scopegen` is the same program."""
    command = [sys.executable, "-m", "scopegen", "check", HERON]
    ended = subprocess.run(command, capture_output=True, text=True, check=False)
    assert (ended.returncode, ended.stderr) == (0, "")


def test_chart_is_told_from_a_job() -> None:
    """Somebody who checks the price chart reads that it is one, and not that a job's decisions are open."""
    result = CliRunner().invoke(scopegen, ["check", str(EXAMPLES / "prices-2027.yaml")])
    assert result.exit_code == 2
    assert "prices-2027.yaml is a price chart" in result.stderr and "undecided" not in result.stderr
