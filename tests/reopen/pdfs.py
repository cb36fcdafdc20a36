"""Papers for the tests of `scopegen open`: sound ones, and such as nobody of good will would send."""

from __future__ import annotations

import io
import json
import shutil
from collections.abc import Callable
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

import pikepdf
from click.testing import CliRunner, Result

from scopegen.cli.commands import scopegen

EXAMPLES = Path(__file__).parents[2] / "example_scopes"


def run(*words: str | Path) -> Result:
    """A command; whatever it ends with, it is never a traceback."""
    result = CliRunner().invoke(scopegen, [str(word) for word in words])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exc_info
    return result


def workspace(folder: Path) -> Path:
    """The examples' folder, copied."""
    shutil.copytree(EXAMPLES, folder, ignore=shutil.ignore_patterns("paper", "pages"))
    return folder


@cache
def written(job: str = "cedar-row", *options: str) -> bytes:
    """An example's agreement as the command writes it."""
    with TemporaryDirectory() as folder:
        paper = Path(folder) / "paper.pdf"
        result = run("write", "agreement", EXAMPLES / f"{job}.yaml", "-o", paper, *options)
        assert result.exit_code == 0, result.output
        return paper.read_bytes()


def entries(pdf: pikepdf.Pdf) -> dict[str, pikepdf.Dictionary]:
    """The entries of the files inside, by what they are to the paper."""
    return {str(entry.AFRelationship): entry for entry in pdf.Root.Names.EmbeddedFiles.Names[1::2]}


def saved(pdf: pikepdf.Pdf, **options: Any) -> bytes:
    content = io.BytesIO()
    pdf.save(content, **options)
    return content.getvalue()


def with_record(change: Callable[[dict[str, Any]], None]) -> bytes:
    """A paper whose record says something else."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        stream = entries(pdf)["/Data"].EF.F
        record = json.loads(stream.read_bytes())
        change(record)
        stream.write(json.dumps(record).encode())
        return saved(pdf)


def with_content(relationship: str, content: bytes) -> bytes:
    """A paper with something else in one of the files inside."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        entries(pdf)[relationship].EF.F.write(content)
        return saved(pdf)


def with_job_called(name: str) -> bytes:
    """A paper whose job description has another name, which its record gives too."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        files = entries(pdf)
        record = json.loads(files["/Data"].EF.F.read_bytes())
        record["inputs"]["job"]["file"] = name
        files["/Data"].EF.F.write(json.dumps(record).encode())
        files["/Source"].F = files["/Source"].UF = pikepdf.String(name)
        names = pdf.Root.Names.EmbeddedFiles.Names
        names[next(i for i in range(0, len(names), 2) if names[i + 1].AFRelationship == "/Source")] = name
        return saved(pdf)
