"""The parser in C reads what the one in Python reads: the same data, each value at the same place.

Only what the one in C reads without complaint is taken from it, so where it is stricter nothing is lost.
"""

from __future__ import annotations

import random
from pathlib import Path

import pytest

from scopegen.load import Unreadable, _built, _read_fast, parse
from scopegen.load.building import Builder
from scopegen.load.source import Source


def is_text(path: Path) -> bool:
    try:
        return bool(path.read_text("utf-8"))
    except UnicodeDecodeError:
        return False


ROOT = Path(__file__).parents[1]
FILES = sorted(
    path
    for folder in ("clause_library", "example_scopes", "scopegen", "tests")
    for path in (ROOT / folder).rglob("*.yaml")
    if is_text(path)
)
SIGNS = list("{}[],:#&*!|>'\"%@`-? \n\t~é½′ab01") + [
    ": ",
    "- ",
    "\n  ",
    "\r\n",
    " #2",
    "''",
    "\\u00e9",
    "%YAML 1.1\n",
]


def read(text: str, *, pure: bool) -> Builder | None:
    """What one of the parsers makes of a text; None where it is refused."""
    source = Source("file.yaml", text, lines=tuple(text.splitlines()))
    if not pure:
        return _read_fast(source)
    try:
        return _built(source, pure=True)
    except Exception:
        return None


def alike(text: str) -> bool | None:
    """Whether both make the same of it; None where one of them refuses it."""
    fast, slow = read(text, pure=False), read(text, pure=True)
    if fast is None or slow is None:
        return None
    return (fast.result, fast.marks) == (slow.result, slow.marks)


def test_parser_in_c_is_there() -> None:
    """It is one of the packages that the project asks for; without it everything is slower, and the same."""
    from ruamel.yaml.main import CParser

    assert CParser is not None


@pytest.mark.parametrize("path", FILES, ids=lambda path: str(path.relative_to(ROOT)))
def test_same_of_every_file(path: Path) -> None:
    """No file of the project reads otherwise."""
    assert alike(path.read_text("utf-8")) is not False


def test_fast_parser_is_the_one_that_reads() -> None:
    """Most files need no second reading."""
    sound = [path for path in FILES if "broken" not in path.parts]
    fast = [path for path in sound if read(path.read_text("utf-8"), pure=False) is not None]
    assert len(fast) == len(sound) > 100


def changed(text: str, by: random.Random) -> str:
    """A text with a few signs put in, taken out or doubled somewhere."""
    for _ in range(by.randint(1, 4)):
        at = by.randrange(len(text) + 1)
        match by.randrange(3):
            case 0:
                text = text[:at] + by.choice(SIGNS) + text[at:]
            case 1:
                text = text[:at] + text[at + by.randint(1, 8) :]
            case _:
                end = min(len(text), at + by.randint(1, 30))
                text = text[:end] + text[at:end] + text[end:]
    return text


def test_same_of_damaged_files() -> None:
    """Slips at any place: where both read such a text at all, they make the same. The one in C takes next
    to nothing that the other refuses (a text block whose first line is indented less than its second)."""
    by, texts = random.Random(2027), [path.read_text("utf-8") for path in FILES if path.stat().st_size < 4000]
    ends: dict[bool | None, int] = {True: 0, False: 0, None: 0}
    only_fast = 0
    for _ in range(3000):
        text = changed(by.choice(texts), by)
        same = alike(text)
        ends[same] += 1
        assert same is not False, text
        only_fast += same is None and read(text, pure=False) is not None
    assert ends[True] > 300 and ends[None] > 300
    assert only_fast < 10


def test_findings_are_those_of_the_parser_in_python() -> None:
    """A text that cannot be read has its finding from the parser whose words are known."""
    with pytest.raises(Unreadable) as found:
        parse("beds: [1, 2\n", "job.yaml")
    assert found.value.finding.message.startswith("the YAML cannot be read here: a bracket or brace")
