"""Lays out the files of a new folder. The shipped ones are sound as they stand, for one season and one day;
another season and day are written in their place."""

from __future__ import annotations

import json
from datetime import date
from importlib.resources import files
from pathlib import Path
from tempfile import TemporaryDirectory

from scopegen.clauses import read_library
from scopegen.library_folder import library_folder
from scopegen.schema import KINDS, schema_of

SHIPPED_SEASON, SHIPPED_DAY = "2027", "2027-03-19"  # as the shipped files have them
NEXT_SEASON_FROM = 10  # the month in which the next year's prices are being made: common practice, no source
SEASON_OPENS = (3, 1)  # the day of a paper in a season that is further off


class InTheWay(Exception):
    """Something lies where the folder is to be laid out; `path` is what."""

    def __init__(self, path: Path) -> None:
        super().__init__(str(path))
        self.path = path


def first_season() -> int:
    """The first season for which every clause that ships has wording."""
    library = read_library(library_folder())
    return max(min(version.season for version in held.shipped.wording) for held in library.held.values())


def season_at(today: date, first: int) -> int:
    """The season that somebody who starts today makes prices for: this year's, in autumn the next one's."""
    return max(first, today.year + (today.month >= NEXT_SEASON_FROM))


def dated_in(season: int, today: date) -> date:
    """The first job's date: today where that fits the season, else the season's first of March."""
    return today if season - today.year in (0, 1) else date(season, *SEASON_OPENS)


def files_of(season: int, dated: date) -> dict[str, str]:
    """Every file of the folder, by its path inside it: its text."""

    def shipped(name: str) -> str:
        text = files("scopegen").joinpath("starter", name).read_text(encoding="utf-8")
        between = (part.replace(SHIPPED_SEASON, str(season)) for part in text.split(SHIPPED_DAY))
        return str(dated).join(between)

    return {
        "company.yaml": shipped("company.yaml"),
        f"prices-{season}.yaml": shipped("prices.yaml"),
        "first-job.yaml": shipped("first-job.yaml"),
        "clauses/README.txt": shipped("clauses.txt"),
        **{f"schemas/{kind}.schema.json": _schema_text(kind) for kind in KINDS},
    }


def _schema_text(kind: str) -> str:
    return json.dumps(schema_of(kind), indent=1, ensure_ascii=False) + "\n"


def lay_out(folder: Path, texts: dict[str, str]) -> None:
    """Writes the files into a new or an empty folder, all or none. Raises InTheWay, before anything is
    written, where something lies there; OSError where it cannot be written."""
    if folder.is_dir():
        lying = sorted(path for path in folder.iterdir() if not path.name.startswith("."))
        known = [folder / name for name in texts if (folder / name).exists()]
        for path in (*known, *lying):
            raise InTheWay(path)
    elif folder.exists() or folder.is_symlink():
        raise InTheWay(folder)
    with TemporaryDirectory(prefix=".scopegen-", dir=folder if folder.is_dir() else folder.parent) as drafts:
        whole = Path(drafts) / "whole"
        whole.mkdir()
        for name, text in texts.items():
            path = whole / name
            path.parent.mkdir(exist_ok=True)
            with path.open("x", encoding="utf-8", newline="\n") as file:
                file.write(text)
        _put(whole, folder)


def _put(whole: Path, folder: Path) -> None:
    """Moves what is whole to its place: in one step, or each thing in it, and all of them back where one
    cannot be."""
    if not folder.is_dir():
        whole.rename(folder)
        return
    moved: list[Path] = []
    try:
        for path in sorted(whole.iterdir()):
            moved.append(path.rename(folder / path.name))
    except BaseException:
        for path in moved:
            path.rename(whole / path.name)
        raise
