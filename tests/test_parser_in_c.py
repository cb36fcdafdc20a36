"""The parser in C and the one in Python: the same data, the same places, the same findings."""

from __future__ import annotations

import os
import random
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from scopegen.load import Source, Unreadable, _built_in_c, _built_in_python, parse
from scopegen.load.events import events_in_c
from scopegen.load.hidden import refuse_hidden_signs

ROOT = Path(__file__).parents[1]
OURS = sorted([*ROOT.glob("example_scopes/*.yaml"), *ROOT.glob("clause_library/*/*.yaml")])
OTHERS = sorted(ROOT.glob("tests/**/*.yaml"))
SPLICED = (
    ": ", ":", " :", "- ", "-", "? ", "?", "#", " #", "\n", "\t", "  ", '"', "'", "{", "}", "[", "]", ",",
    "&a ", "*a", "!t ", "!", "%", "@", "`", "|", ">", "|-", ">+", "\\", "\\x41", "\\/", "\r\n", "\u00a0", "é",
    "花", "𝄞", "---", "...", "~", "null", "<<: ", ": {", "a: b", "=", '"a":1', "{a:1}", "[a:b]", "{a: b}:",
    "|#", "? a\n: b",
)  # fmt: skip


def texts() -> Iterator[str]:
    """Every YAML file of the checkout, and 4,000 pieces of them with signs put in, cut and doubled."""
    whole = [path.read_bytes().decode("utf-8", "replace") for path in (*OURS, *OTHERS)]
    yield from whole
    chance = random.Random(20270319)
    for _ in range(4_000):
        text = chance.choice(whole)
        start = chance.randrange(len(text) + 1)
        signs = list(text[start : start + chance.randint(20, 600)])
        for _ in range(chance.randint(1, 4)):
            at, from_ = chance.randrange(len(signs) + 1), chance.randrange(len(signs) + 1)
            cut, put = chance.choice(((0, [chance.choice(SPLICED)]), (chance.randint(1, 12), [])))
            doubled = signs[from_ : from_ + chance.randint(1, 40)] if chance.random() < 0.2 else []
            signs[at : at + cut] = [*put, *doubled]
        yield "".join(signs)


def test_what_the_parser_in_c_reads_the_one_in_python_reads_alike() -> None:
    """Data, and line and column of every key and value."""
    compared = 0
    for text in texts():
        source = Source("job.yaml", text, lines=tuple(text.splitlines()))
        try:
            refuse_hidden_signs(source)
            in_c = _built_in_c(source)
        except Unreadable as refused:  # a limit, or a sign that neither parser sees
            with pytest.raises(Unreadable) as again:
                refuse_hidden_signs(source)
                _built_in_python(source)
            assert again.value.finding == refused.finding, text
            continue
        if in_c is None:
            continue
        in_python = _built_in_python(source)
        assert (in_c.result, in_c.marks) == (in_python.result, in_python.marks), text
        compared += 1
    assert compared > 700


@pytest.mark.parametrize("path", OURS, ids=lambda path: path.stem)
def test_our_own_files_are_read_by_the_parser_in_c(path: Path) -> None:
    """None of them holds a sign that is left to the parser in Python."""
    assert events_in_c(path.read_text(encoding="utf-8")) is not None


def test_where_the_parser_in_c_is_missing_the_one_in_python_reads(tmp_path: Path) -> None:
    """A module that cannot be imported stands before the real one, in a process of its own."""
    (tmp_path / "_ruamel_yaml.py").write_text("raise ImportError('not for this machine')\n")
    path = OURS[0]
    program = (
        "import sys; from pathlib import Path; from scopegen.load import load; "
        "from scopegen.load.events import events_in_c; "
        "assert events_in_c('a: 1') is None; source = load(Path(sys.argv[1]), 'x'); "
        "print(repr((source.data, source.marks)))"
    )
    said = subprocess.run(
        [sys.executable, "-c", program, str(path)],
        env={**os.environ, "PYTHONPATH": os.pathsep.join((str(tmp_path), str(ROOT)))},
        capture_output=True,
        text=True,
        timeout=60,
    )
    assert said.returncode == 0, said.stderr
    source = parse(path.read_text(encoding="utf-8"), "x")
    assert said.stdout.strip() == repr((source.data, source.marks))
