"""Where papers go and what they are: all settled before the first one is made."""

from __future__ import annotations

import os
import unicodedata
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from scopegen.cli.voice import visible

KINDS = {".pdf": "pdf", ".html": "html", ".htm": "html"}


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is asked of every paper of a run."""

    output: str | None = None
    kind: str | None = None
    draft: bool = False
    dated: date | None = None
    signed_on: date | None = None


@dataclass(frozen=True, slots=True)
class Order:
    """One paper to be made: of which job, under which path, of which kind."""

    job: Path
    path: Path
    kind: str
    wanted: Wanted


class NoTarget(Exception):
    """A paper has no place to go; the text says why and what to do."""


def orders_for(jobs: tuple[Path, ...], several: bool, wanted: Wanted) -> tuple[Order, ...]:
    """An order a job. Raises NoTarget where a folder is missing, a name says otherwise than --as, or two
    jobs would write the same file."""
    named = _named_kind(wanted)
    if wanted.kind and named and wanted.kind != named:
        shown = visible(wanted.output)
        raise NoTarget(
            f"--as {wanted.kind} does not go with the name {shown}. Leave --as out, or name another file."
        )
    kind = wanted.kind or named or "pdf"
    orders = tuple(Order(job, _path(job, several, kind, wanted), kind, wanted) for job in jobs)
    for order in orders:
        folder, place = order.path.parent, Path(wanted.output or "") if several else order.path.parent
        if not folder.is_dir() and not (several and wanted.output and place.parent.is_dir()):
            missing = place.parent if several and wanted.output else folder
            raise NoTarget(
                f"There is no folder {visible(missing)}. Make it first, or name another "
                f"{'folder' if several else 'file'} with -o."
            )
        _refuse_other_names(order)
    _refuse_the_same(orders)
    return orders


def _refuse_other_names(order: Order) -> None:
    """A paper takes no place of what jobs are read from, through a link neither, nor another kind of name."""
    meant = Path(os.path.realpath(order.path))
    if meant.suffix.lower() in (".yaml", ".yml") or meant == Path(os.path.realpath(order.job)):
        raise NoTarget(
            f"{visible(order.path)} is a file that jobs are read from, and is not overwritten. "
            "Name another file with -o."
        )
    if order.path.suffix.lower() not in KINDS and order.wanted.kind is None:
        raise NoTarget(
            f"{visible(order.path)} does not say whether it is a PDF or HTML. Let its name end in .pdf or"
            " .html, or add --as."
        )


def _named_kind(wanted: Wanted) -> str | None:
    return None if _names_a_folder(wanted) else KINDS.get(Path(wanted.output or "").suffix.lower())


def _names_a_folder(wanted: Wanted) -> bool:
    """Whether -o is said to be a folder: it is one, or ends like one."""
    seps = tuple(filter(None, (os.sep, os.altsep)))
    return bool(wanted.output) and (wanted.output.endswith(seps) or Path(wanted.output).is_dir())


def _path(job: Path, several: bool, kind: str, wanted: Wanted) -> Path:
    name = f"{job.stem}-{'draft' if wanted.draft else 'agreement'}.{kind}"
    if wanted.output is None:
        return job.with_name(name)
    output = Path(wanted.output)
    if not several:
        return output / name if _names_a_folder(wanted) else output
    if output.exists() and not output.is_dir() or not _names_a_folder(wanted) and _named_kind(wanted):
        raise NoTarget(
            f"-o {visible(output)} names a file, and several jobs need a folder. Name one, or leave -o out."
        )
    return output / name


def _refuse_the_same(orders: tuple[Order, ...]) -> None:
    """Names that differ by case or by accents' spelling alone are one file on some machines, and so here."""
    taken: dict[tuple[str, str], Order] = {}
    for order in orders:
        name = unicodedata.normalize("NFC", order.path.name).casefold()
        other = taken.setdefault((os.path.realpath(order.path.parent), name), order)
        if other is not order:
            raise NoTarget(
                f"{visible(other.job)} and {visible(order.job)} would both be written to "
                f"{visible(order.path)}; nothing was written. Rename one, or write them one by one."
            )
