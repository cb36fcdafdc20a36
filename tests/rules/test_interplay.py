"""Whole jobs with several faults at once: exactly these findings, each on its line and with its bed's name.

In a sample under `broken/` each line says what it finds, as `rule of decision in bed`, one after another.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scopegen.build import open_case
from scopegen.check import Checked, check
from tests.rules.laid_over import written

SAMPLES = sorted((Path(__file__).parent / "broken").glob("*.yaml"))
Found = tuple[int, str, str | None, str | None]
FINDS = re.compile(r"(?P<rule>[a-z-]+)(?: of (?P<decision>[a-z_-]+))?(?: in (?P<bed>[A-Z][\w ]+))?")


def expected(text: str) -> list[Found]:
    """What the sample's own lines say: line, rule, decision, bed."""
    told = []
    for number, line in enumerate(text.splitlines(), 1):
        _, marked, finds = line.partition("  # finds ")
        for each in finds.split("; ") if marked else ():
            said = FINDS.fullmatch(each)
            assert said, each
            told.append((number, said["rule"], said["decision"], said["bed"]))
    return told


def checked(sample: Path, folder: Path) -> Checked:
    """The sample beside the sound price chart and company."""
    for name, text in {**written(""), "job.yaml": sample.read_text(encoding="utf-8")}.items():
        (folder / name).write_text(text, encoding="utf-8")
    return check(open_case(folder / "job.yaml"))


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.stem)
def test_exactly_what_the_lines_say(sample: Path, tmp_path: Path) -> None:
    """No finding is missed, none follows on, and each stands on its line with its decision and bed."""
    told = expected(sample.read_text(encoding="utf-8"))
    findings = checked(sample, tmp_path).findings
    found = [(f.place.line, f.rule, f.decision, f.bed) for f in findings]
    assert {Path(f.place.file).name for f in findings} == {"job.yaml"}
    assert sorted(found, key=str) == sorted(told, key=str)
    assert [line for line, *_ in found] == sorted(line for line, *_ in found)


@pytest.mark.parametrize("sample", SAMPLES, ids=lambda sample: sample.stem)
def test_message_names_the_bed(sample: Path, tmp_path: Path) -> None:
    """What is inherited is pointed at where it stands, so the message itself says for which bed."""
    for finding in checked(sample, tmp_path).findings:
        assert finding.bed is None or finding.message.startswith(f"{finding.bed}: "), finding


def test_everything_open_is_everything(tmp_path: Path) -> None:
    """Two beds with five decisions each, and nine of the site: all open, none decided."""
    sample = next(sample for sample in SAMPLES if sample.stem == "everything-open")
    result = checked(sample, tmp_path)
    assert len(result.findings) == len(result.open) == 2 * 5 + 9
    assert result.decided == ()
