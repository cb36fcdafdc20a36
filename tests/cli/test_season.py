"""`scopegen season` and `scopegen clauses edit`, as processes: what they say, write, and leave alone."""

from __future__ import annotations

import json
import shutil
from pathlib import Path

import pytest

from scopegen.cli.folder import save_all
from tests.cli.program import on_terminal, piped
from tests.jobs import EXAMPLES


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A copy of the example's folder, before its second season was opened."""
    later = shutil.ignore_patterns("pages", "*-2028.yaml")
    return Path(shutil.copytree(EXAMPLES, tmp_path / "ours", ignore=later))


def files(folder: Path) -> dict[str, bytes]:
    return {str(path.relative_to(folder)): path.read_bytes() for path in folder.rglob("*") if path.is_file()}


def for_2028(job: Path) -> str:
    """The example's job in the season after, in a file of its own."""
    text = job.read_text(encoding="utf-8").replace("season: 2027", "season: 2028").replace("2027-", "2028-")
    job.with_name("next.yaml").write_text(text, encoding="utf-8")
    return "next.yaml"


def test_a_season_from_opening_to_paper(folder: Path) -> None:
    """Opened, no paper; each price confirmed, set, or taken off by hand; then a paper."""
    before = files(folder)
    opened = piped(
        "season", "open", "2028", "--raise", "4 %", "--raise", "stone=6 %", "--to", "0.05", folder=folder
    )
    assert opened.returncode == 0, opened.stderr
    assert opened.stdout.startswith("Opened season 2028: prices-2028.yaml, from prices-2027.yaml\n")
    rows = [line.split() for line in opened.stdout.splitlines()]
    assert ["materials.washed-river-stone.price", "238.00", "252.30", "+6.0", "%"] in rows  # 252.28

    assert "Raised prices are rounded half up to 0.05, and to 0.01 below 1.00." in opened.stdout
    assert "as they were: work.clear-leaves.price.amount, work.weed-preventer.price.amount" in opened.stdout
    assert "- edging.recut has new wording from season 2028 on, in your own file." in opened.stdout
    after = files(folder)
    assert after.pop("prices-2028.yaml") and after == before

    job = for_2028(folder / "heron-bend.yaml")
    checked = piped("check", job, "--json", folder=folder)
    assert checked.returncode == 1
    stops = [each for each in json.loads(checked.stdout)["findings"] if each["rule"] == "price-to-review"]
    assert len(stops) > 20
    assert {each["file"] for each in stops} == {"prices-2028.yaml"}
    chart = folder / "prices-2028.yaml"
    lines = chart.read_text(encoding="utf-8").splitlines()
    assert all(each["message"].startswith(lines[each["line"] - 1].removeprefix("  - ")) for each in stops)
    assert piped("write", "agreement", job, "--as", "html", folder=folder).returncode == 1

    done = piped(
        "season",
        "review",
        "2028",
        "--confirm",
        "worker_hour",
        "work",
        "--set",
        "job.minimum=300",
        folder=folder,
    )
    assert done.returncode == 0, done.stderr
    assert "job.minimum was 291.20, and is 300.00.\n" in done.stdout
    assert done.stdout.endswith("Taken off the list: 36. Still to look at: 9.\n")
    text = chart.read_text(encoding="utf-8")
    for name in ("job.come_back", "delivery.fee", "materials.twice-ground-hardwood.price"):
        assert f"  - {name}\n" in text
        text = text.replace(f"  - {name}\n", "")
    chart.write_text(text, encoding="utf-8")
    assert piped("check", job, folder=folder).returncode == 0  # what is left, this job does not use
    assert piped("season", "review", "2028", folder=folder).stdout.count("\n") == 6 + 2
    assert piped("season", "review", "2028", "--confirm-all", folder=folder).returncode == 0
    left = piped("season", "review", "2028", folder=folder)
    assert left.stdout == "No price of season 2028 is left to look at.\n"
    assert piped("write", "agreement", job, "--as", "html", folder=folder).returncode == 0


def test_review_as_a_table_and_as_json(folder: Path) -> None:
    """Name, last season's price, this one's, and the line; a name narrows the list."""
    piped("season", "open", "2028", "--raise", "10 %", folder=folder)
    shown = on_terminal("season", "review", "2028", "job", "delivery", "--no-color", folder=folder)
    assert [line.split() for line in shown.shown.splitlines()[:4]] == [
        ["price", "2027", "2028", "line"],
        ["job.minimum", "280.00", "308.00", "6"],
        ["job.come_back", "95.00", "104.50", "7"],
        ["delivery.fee", "75.00", "82.50", "8"],
    ]
    data = json.loads(piped("season", "review", "2028", "job.minimum", "--json", folder=folder).stdout)
    row = {"name": "job.minimum", "before": "280.00", "now": "308.00", "line": 6}
    assert data == {"season": 2028, "earlier": 2027, "to_review": [row]}
    quiet = piped("season", "review", "2028", "--confirm", "job", "--quiet", folder=folder)
    assert (quiet.stdout, quiet.stderr) == ("", "")


REFUSED = [
    (["season", "open", "2027"], 1, "Season 2027 is open already: prices-2027.yaml is there."),
    (["season", "open", "2026"], 1, "Season 2026 is not later than the newest one, 2027"),
    (["season", "open", "1999"], 2, "'1999' is not a year from 2000 to 2100"),
    (["season", "open", "2028", "--to", "0.05"], 2, "--to rounds what --raise raises."),
    (["season", "open", "2028", "--raise", "4"], 2, "'4' is not a percentage; write it like 25 %"),
    (["season", "open", "2028", "--raise", "4 %", "--to", "0"], 2, "0.00 is no step to round to"),
    (["season", "open", "2028", "--raise", "mulhc=4 %"], 1, "Nothing in the chart is called 'mulhc'."),
    (["season", "open", "2028", "--clause", "edging.nwe-edge"], 2, "did you mean 'edging.new-edge'?"),
    (["season", "open", "2028", "--clause", "edging.recut"], 1, "edging.recut has wording for season 2028"),
    (["season", "review", "2028"], 2, "Season 2028 is not open. `scopegen season open 2028` opens it."),
    (["season", "review", "2027", "worker_hour"], 1, "'worker_hour' is confirmed already."),
    (["season", "review", "2027", "--confirm"], 2, "--confirm takes the names of prices."),
    (["season", "review", "2027", "job", "--confirm-all"], 2, "'job' goes with --confirm."),
    (["season", "review", "2027", "job", "--confirm", "--confirm-all"], 2, "Say --confirm with names"),
    (["season", "review", "2027", "--set", "job.minimum"], 2, "--set takes NAME=AMOUNT"),
    (["season", "review", "2027", "--set", "a=1", "--set", "a=2"], 2, "--set says a twice."),
    (["season", "review", "2027", "--set", "job.minimum=x"], 1, "job.minimum: 'x' is not an amount of money"),
    (["clauses", "edit", "edging.recut", "--season", "2028"], 1, "edging.recut has wording for season 2028"),
    (["clauses", "edit", "edging.new-edge", "--season", "2026"], 1, "it begins with 2027."),
    (["clauses", "edit", "../company", "--season", "2028"], 2, "There is no clause '../company'"),
    (["clauses", "edit", "edging.new-edge"], 2, "Missing option '--season'"),
]


@pytest.mark.parametrize(("words", "code", "why"), REFUSED, ids=[" ".join(words) for words, _, _ in REFUSED])
def test_refused_and_nothing_written(folder: Path, words: list[str], code: int, why: str) -> None:
    """Whatever was typed wrong, every file stays as it was, and no traceback is shown."""
    before = files(folder)
    ran = piped(*words, folder=folder)
    assert (ran.returncode, ran.stdout) == (code, "")
    assert why in ran.stderr
    assert "Traceback" not in ran.stderr
    assert files(folder) == before


@pytest.mark.parametrize(
    ("old", "new", "why"),
    [
        ("worker_hour: 62.00", "worker_hour: sixty", "'sixty' is not an amount of money"),
        ("season: 2027", "season: 2026", "says that it is for season 2026"),
        ("currency: USD", "currency: USD\ncurrency: USD", "'currency' is given twice"),
        ("crew: 3", "crew: &three 3", "anchors (&) and aliases (*) are not used here"),
    ],
)
def test_a_broken_chart_is_not_carried_forward(folder: Path, old: str, new: str, why: str) -> None:
    """Its findings are shown, and it is to be mended first."""
    chart = folder / "prices-2027.yaml"
    text = chart.read_text(encoding="utf-8")
    assert text.count(old + "\n") == 1 or f"{old} " in text
    chart.write_text(text.replace(old, new, 1), encoding="utf-8")
    before = files(folder)
    ran = piped("season", "open", "2028", folder=folder)
    assert ran.returncode == 2
    assert why in ran.stderr and "Traceback" not in ran.stderr
    assert files(folder) == before


def test_outside_of_any_folder_of_a_contractor(tmp_path: Path) -> None:
    """The way out is said."""
    for words in (["season", "open", "2028"], ["season", "review", "2028"]):
        ran = piped(*words, folder=tmp_path)
        assert ran.returncode == 2
        assert "There is no company.yaml in " in ran.stderr and "--in" in ran.stderr


def test_a_season_with_new_wording(folder: Path) -> None:
    """A shipped clause gets a file of one's own with that version alone, an own one a further version; both
    are sound, and the jobs of the season before read as before."""

    def wording_of_2027() -> str:
        ran = piped("clauses", "show", "edging.new-edge", "--season", "2027", folder=folder)
        return ran.stdout[ran.stdout.index("included (version 2027") :]

    earlier = wording_of_2027()
    names = ("--clause", "edging.new-edge", "--clause", "edging.cobble-edge")
    opened = piped("season", "open", "2029", *names, folder=folder)
    assert opened.returncode == 0, opened.stderr
    assert "still worded as before, for you to edit: clauses/edging/new-edge.yaml:10\n" in opened.stdout
    new = (folder / "clauses" / "edging" / "new-edge.yaml").read_text(encoding="utf-8")
    assert new.count("- season:") == 1 and "- season: 2029\n" in new
    cobble = (folder / "clauses" / "edging" / "cobble-edge.yaml").read_text(encoding="utf-8")
    assert cobble.startswith(
        (EXAMPLES / "clauses" / "edging" / "cobble-edge.yaml").read_text(encoding="utf-8")
    )
    assert wording_of_2027() == earlier
    assert piped("clauses", "check", folder=folder).returncode == 0


def test_opening_says_what_the_chart_before_leaves_open(folder: Path) -> None:
    """A season that was passed over, and prices that nobody looked at; neither where there is none."""
    first = piped("season", "open", "2028", folder=folder)
    assert "No chart of" not in first.stdout and "never looked at" not in first.stdout
    before = piped("season", "review", "2028", "--json", folder=folder).stdout
    left = len(json.loads(before)["to_review"])
    assert left > 40
    opened = piped("season", "open", "2031", folder=folder)
    assert opened.returncode == 0, opened.stderr
    assert "No chart of 2029, 2030: these prices are those of 2028.\n" in opened.stdout
    assert (
        f"{left} prices of prices-2028.yaml were never looked at: `scopegen season review 2028` tells.\n"
        in opened.stdout
    )
    piped("season", "review", "2031", "--confirm-all", folder=folder)
    chart = folder / "prices-2031.yaml"
    text = chart.read_text(encoding="utf-8").replace("season: 2031", "season: 2031\nto_review: [worker_hour]")
    chart.write_text(text, encoding="utf-8")
    last = piped("season", "open", "2032", folder=folder).stdout
    assert "1 price of prices-2031.yaml was never looked at" in last and "No chart of" not in last


def test_edit_says_where_to_edit(folder: Path) -> None:
    """The line that it prints is that of the new version, and with --quiet nothing else."""
    ran = piped("clauses", "edit", "terms.color", "--season", "2030", "--quiet", folder=folder)
    assert ran.returncode == 0, ran.stderr
    path, _, line = ran.stdout.strip().rpartition(":")
    assert path == "clauses/terms/color.yaml"
    assert (folder / path).read_text(encoding="utf-8").splitlines()[int(line) - 1] == "  - season: 2030"
    again = piped("clauses", "edit", "terms.color", "--season", "2030", folder=folder)
    assert again.returncode == 1
    below = piped(
        "clauses", "edit", "terms.payment", "--season", "2030", "--in", str(folder), folder=folder.parent
    )
    assert below.stdout.startswith("ours/clauses/terms/payment.yaml:")


def test_a_broken_clause_is_not_edited(folder: Path) -> None:
    """What is wrong in it is shown."""
    own = folder / "clauses" / "edging" / "new-edge.yaml"
    own.write_text("clause: edging.new-edge\nwording: [{season: 2027, en: {says: 3}}\n", encoding="utf-8")
    ran = piped("clauses", "edit", "edging.new-edge", "--season", "2028", folder=folder)
    assert ran.returncode == 2
    assert "clauses/edging/new-edge.yaml:" in ran.stderr and "Mend this first." in ran.stderr


def test_what_cannot_be_written_leaves_the_files_before_it_as_they_were(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """A changed file is put back, a new one is taken away; the exit code is the one for that."""
    old, new = tmp_path / "old.yaml", tmp_path / "new.yaml"
    old.write_text("a: 1\r\n", encoding="utf-8", newline="")
    with pytest.raises(SystemExit) as ended:
        save_all({old: "a: 2\n", new: "b: 1\n", old / "below-a-file.yaml": "c: 1\n"})
    assert ended.value.code == 3
    assert capsys.readouterr().err.endswith("Nothing was changed.\n")
    assert files(tmp_path) == {"old.yaml": b"a: 1\r\n"}
