"""The example's chart, read as the commands read it."""

from __future__ import annotations

from scopegen.load import Source, parse
from tests.jobs import EXAMPLES

TEXT = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")


def source(text: str = TEXT, name: str = "prices-2027.yaml") -> Source:
    return parse(text.removeprefix("\ufeff"), name)
