"""Reads the shipped clauses as plain YAML, without the program, for the tests of their wording."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from jinja2.meta import find_undeclared_variables
from jinja2.sandbox import SandboxedEnvironment
from ruamel.yaml import YAML

from scopegen.library_folder import library_folder

FACTS = Path(__file__).parents[2] / "scopegen" / "clauses" / "facts.yaml"
WORDS = Path(__file__).parents[2] / "scopegen" / "words" / "en.yaml"
FOLDERS = (
    "bed_prep", "edging", "debris", "substrate", "material", "extra", "site", "outcomes", "terms", "cautions",
)  # fmt: skip
ENVIRONMENT = SandboxedEnvironment()


@dataclass(frozen=True, slots=True)
class Text:
    """One text of one clause: its way, or 'says' where the clause decides nothing."""

    clause: str
    way: str
    template: str

    def __str__(self) -> str:
        return f"{self.clause} {self.way}"

    @property
    def folder(self) -> str:
        """The folder that the clause lies in."""
        return self.clause.partition(".")[0]

    @property
    def blanks(self) -> set[str]:
        """The blanks that the text prints or asks about."""
        return find_undeclared_variables(ENVIRONMENT.parse(self.template))

    def filled(self, without: frozenset[str] = frozenset()) -> str:
        """The text with the sample values of the blanks, those in `without` left empty."""
        samples = _read(WORDS)["sample"]
        values = samples | dict.fromkeys(without, "")  # as the program fills what a job lacks
        return re.sub(r"[ \t]+", " ", ENVIRONMENT.from_string(self.template).render(values)).strip()

    def paragraphs(self) -> list[str]:
        """The filled text by paragraphs."""
        return self.filled().split("\n")


@cache
def facts() -> dict[str, Any]:
    """The catalogue of blanks and conditions."""
    return _read(FACTS)


@cache
def clauses() -> dict[str, dict[str, Any]]:
    """Every clause file outside `law` by its place: 'folder.file'."""
    return {
        f"{path.parent.name}.{path.stem}": _read(path)
        for folder in FOLDERS
        for path in sorted((library_folder() / folder).glob("*"))
    }


@cache
def texts() -> tuple[Text, ...]:
    """Every English text of every clause, in every season."""
    return tuple(
        Text(name, way, template)
        for name, clause in clauses().items()
        for version in clause["wording"]
        for way, template in version["en"].items()
    )


@cache
def _read(path: Path) -> Any:
    return YAML(typ="safe", pure=True).load(path)
