"""A contractor's folder: the company, the season's price chart and the library that belong to a job."""

from __future__ import annotations

from dataclasses import dataclass
from os.path import abspath, lexists
from pathlib import Path, PurePath

from scopegen.findings import printable

LEVELS_UP = 3  # a job may lie this deep below the folder that holds company.yaml


@dataclass(frozen=True, slots=True)
class Workspace:
    """The folder that holds `company.yaml`, nearest above a job description."""

    folder: Path

    @property
    def company(self) -> Path:
        """The contractor's particulars."""
        return self.folder / "company.yaml"

    def chart(self, season: int) -> Path:
        """A season's price chart."""
        return self.folder / f"prices-{season}.yaml"

    @property
    def lock(self) -> Path:
        """The wording that was put on paper."""
        return self.folder / "clauses.lock"

    @property
    def clauses(self) -> Path:
        """The contractor's own clauses, over the library that ships."""
        return self.folder / "clauses"


def workspace_of(job: Path) -> Workspace | None:
    """The workspace of a job description: its own folder, or one of the three above."""
    folder = Path(abspath(job)).parent
    for _ in range(LEVELS_UP + 1):
        if lexists(folder / "company.yaml"):  # what is no file there is found when it is read
            return Workspace(folder)
        folder = folder.parent
    return None


def shown(path: Path) -> str:
    """A path as findings show it: as `near_name` has it, in one line that a terminal does not obey."""
    return printable(near_name(path)).replace("\n", "\\n")


def near_name(path: Path) -> str:
    """A path relative to where the user is, where that is shorter."""
    try:
        return str(Path(abspath(path)).relative_to(Path.cwd()))
    except (ValueError, OSError):  # it lies elsewhere, or the folder we are in is gone
        return str(path)


def place_in_workspace(job: Path) -> PurePath:
    """Where a job description lies below the folder of its company.yaml; its name where there is none."""
    space = workspace_of(job)
    return PurePath(abspath(job)).relative_to(space.folder) if space else PurePath(job.name)
