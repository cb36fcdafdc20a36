"""A new version of a clause: a copy of the wording before it, byte for byte."""

from __future__ import annotations

import pytest

from scopegen.clauses import Clause
from scopegen.load import parse
from scopegen.season import Refused, new_version, own_file
from scopegen.understand import understand_whole

CLAUSE = """# Ours.
clause: edging.brick-edge
decides: edging
title: {en: Brick edge}
ways: [included]
needs: [beds]
wording:
  - season: 2026
    en: {included: "We lay bricks along {{ beds }}."}

  # Two customers asked about frost.
  - season: 2027
    from: 2027-06-01   # after the first job
    en:
      included: >-
        We lay bricks along {{ beds }}.
        Frost may lift them.
"""
COPY = """  - season: 2028
    en:
      included: >-
        We lay bricks along {{ beds }}.
        Frost may lift them.
"""


def made(text: str, season: int, *, alone: bool = False) -> tuple[str, int]:
    source = parse(text.removeprefix("\ufeff"), "brick-edge.yaml")
    clause, findings = understand_whole(Clause, source)
    assert clause is not None and not findings
    new = new_version(source, text, clause, season, alone=alone)
    again, wrong = understand_whole(Clause, parse(new.text.removeprefix("\ufeff"), "brick-edge.yaml"))
    assert again is not None and not wrong
    return new.text, new.line


def test_the_newest_wording_before_it_is_copied_behind_itself() -> None:
    """Its day within a season stays with the old one."""
    text, line = made(CLAUSE, 2028)
    assert text == CLAUSE + COPY
    assert text.splitlines()[line - 1] == "  - season: 2028"


def test_a_version_between_two_others() -> None:
    """What was in force then is copied, not what came later."""
    later = CLAUSE + COPY.replace("2028", "2030").replace("Frost", "Roots")
    text, line = made(later, 2029)
    assert text == CLAUSE + COPY.replace("2028", "2029") + COPY.replace("2028", "2030").replace(
        "Frost", "Roots"
    )
    assert line == 18


def test_alone_it_is_the_only_version() -> None:
    """A file of one's own rules from its first season on: the shipped clause keeps the earlier ones. What
    stands above the wording stays."""
    text, line = made(CLAUSE, 2028, alone=True)
    head = CLAUSE[: CLAUSE.index("  - season")]
    assert text == head + "\n  # Two customers asked about frost.\n" + COPY
    assert text.splitlines()[line - 1] == "  - season: 2028"


def test_line_ends_and_the_mark_of_byte_order_stay() -> None:
    """As an editor on Windows writes them."""
    text, _ = made("\ufeff" + CLAUSE.replace("\n", "\r\n"), 2028)
    assert text == "\ufeff" + (CLAUSE + COPY).replace("\n", "\r\n")


@pytest.mark.parametrize(
    ("season", "why"),
    [
        (2026, "edging.brick-edge has wording for season 2026 already. Nothing was written."),
        (
            2025,
            "edging.brick-edge has no wording before season 2025: it begins with 2026. Name a season"
            " after that."
            " Nothing was written.",
        ),
    ],
)
def test_refused(season: int, why: str) -> None:
    """A version that is there, and one before the first."""
    with pytest.raises(Refused) as refused:
        made(CLAUSE, season)
    assert str(refused.value) == why


def test_a_season_with_a_later_day_alone_has_none_from_its_start() -> None:
    """2027 has wording from June on: its start can have its own, after that of 2026."""
    text, _ = made(CLAUSE, 2027)
    copy = '  - season: 2027\n    en: {included: "We lay bricks along {{ beds }}."}\n'
    first = '    en: {included: "We lay bricks along {{ beds }}."}\n'
    assert text == CLAUSE.replace(first, first + copy, 1)


def test_a_clause_that_has_only_ended_has_nothing_to_copy() -> None:
    """Its file says from when on it is not used, and no text."""
    with pytest.raises(Refused) as refused:
        made("clause: extra.trim\nno_longer: {season: 2028, because: sold by the hour}\n", 2029)
    assert str(refused.value) == "extra.trim is no longer used, as its file says, and has no wording to copy."


def test_where_an_own_file_lies() -> None:
    """Folder and name are those of the clause."""
    assert own_file("edging.new-edge").as_posix() == "edging/new-edge.yaml"
