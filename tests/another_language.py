"""A language made on the fly: every English text with its letters turned into Greek ones, so that whatever is
left of English, from the words or the clauses or out of the code, stands out by its letters.

It is called `qaa`, which ISO 639-2 reserves for local use, and borrows the days, lists and money of Greek
(CLDR, el).
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from scopegen.library_folder import library_folder
from scopegen.load import parse
from scopegen.words import SHIPPED

LANGUAGE, LOCALE = "qaa", "el"
EXAMPLES = Path(__file__).parents[1] / "example_scopes"
_LATIN = "abcdefghijklmnopqrstuvwxyz"
_GREEK = "αβψδεφγηιξκλμνοπωρστθυχζυω"
_TURNED = str.maketrans(_LATIN + _LATIN.upper(), _GREEK + _GREEK.upper())
_BLANK = re.compile(r"(\{[{%].*?[}%]\}|\{\w*\})", re.DOTALL)
# What a job says in words of its own, by key; of the others the values are measures or known words.
_OWN = {
    "job", "name", "property", "note", "because", "who", "what", "spot", "shows", "when", "rest", "visit",
    "choose_one", "on", "bill_to", "beds",
}  # fmt: skip
_OWN_KEYS = {"against", "parts"}  # groups whose keys are names


def turned(text: str) -> str:
    """A text in the other language, its blanks as they are."""
    pieces = _BLANK.split(text)
    return "".join(piece if i % 2 else piece.translate(_TURNED) for i, piece in enumerate(pieces))


def read(path: Path) -> Any:
    """A file's data, every value as text."""
    return parse(path.read_text(encoding="utf-8"), path.name).data


def write(path: Path, data: Any) -> None:
    """The data as a file."""
    path.parent.mkdir(parents=True, exist_ok=True)
    plain = YAML(typ="safe", pure=True)
    plain.width, plain.default_flow_style, plain.allow_unicode = 10_000, False, True
    plain.sort_base_mapping_type_on_output = False
    with path.open("w", encoding="utf-8") as stream:
        plain.dump(data, stream)


def all_turned(node: Any) -> Any:
    """Every text below a value turned."""
    if isinstance(node, dict):
        return {key: all_turned(value) for key, value in node.items()}
    if isinstance(node, list):
        return [all_turned(value) for value in node]
    return turned(node)


def words_folder(folder: Path) -> Path:
    """The words that ship, and those of the other language."""
    made = folder / "words"
    made.mkdir()
    for entry in SHIPPED.iterdir():
        if entry.name.endswith(".yaml"):
            (made / entry.name).write_bytes(entry.read_bytes())
    data = all_turned(read(made / "en.yaml"))
    data["locales"] = {"language": LOCALE, "lists": LOCALE, "short_days": LOCALE}
    data["agreement"]["open"]["found"] = "{line}"  # what a check says is English
    write(made / f"{LANGUAGE}.yaml", data)
    return made


def library(folder: Path) -> Path:
    """The clauses and laws that ship, each with the other language added beside the English."""
    made = folder / "library"
    for path in sorted(library_folder().glob("*/*.yaml")):
        write(made / path.parent.name / path.name, _with_language(read(path)))
    return made


def library_without(made: Path, folder: Path, clause: str, *path: str | int) -> Path:
    """A copy of such a library that lacks what stands at a path of one clause."""
    copy = folder / "library"
    shutil.copytree(made, copy)
    file = copy / f"{clause.replace('.', '/')}.yaml"
    data = node = read(file)
    for step in path[:-1]:
        node = node[step]
    del node[path[-1]]
    write(file, data)
    return copy


def _with_language(node: Any) -> Any:
    """Every group of languages below a value with the other one in it."""
    if isinstance(node, list):
        return [_with_language(value) for value in node]
    if not isinstance(node, dict):
        return node
    data = {key: _with_language(value) for key, value in node.items()}
    return {**data, LANGUAGE: all_turned(node["en"])} if "en" in node else data


def workspace(folder: Path, example: str) -> Path:
    """An example's job with its chart and company, all of it in the other language; the job's path."""
    shutil.copytree(EXAMPLES / "photos", folder / "photos")
    write(folder / "prices-2027.yaml", _with_language(read(EXAMPLES / "prices-2027.yaml")))
    company = _with_language(read(EXAMPLES / "company.yaml"))
    for key in ("name", "address", "signs"):
        company[key] = all_turned(company[key])
    write(folder / "company.yaml", company)
    job = _job(read(EXAMPLES / f"{example}.yaml"))
    path = folder / f"{example}.yaml"
    write(path, {**job, "language": LANGUAGE})
    return path


def _job(node: Any, key: str = "") -> Any:
    if isinstance(node, dict):
        named = turned if key in _OWN_KEYS and "rectangle" not in node else str
        return {named(inner): _job(value, inner) for inner, value in node.items()}
    if isinstance(node, list):
        return [_job(value, key) for value in node]
    known = node in ("rest", "when you sign")
    return turned(node) if key in _OWN and node is not None and not known else node
