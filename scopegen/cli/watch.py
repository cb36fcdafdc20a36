"""`write agreement --watch`: a paper is written anew when a file that it rests on changes."""

from __future__ import annotations

import os
from collections.abc import Collection
from pathlib import Path
from typing import TYPE_CHECKING

from scopegen.cli.ending import Exit
from scopegen.cli.jobs import ENDINGS, jobs_named
from scopegen.cli.paper import Made, make_whatever_happens, put
from scopegen.cli.targets import NoTarget, Order, Wanted, orders_for
from scopegen.cli.voice import news, trouble, visible
from scopegen.kept import Kept
from scopegen.load import Unreadable
from scopegen.workspace import shown, workspace_of

if TYPE_CHECKING:
    from watchfiles import Change

SETTLED = 200  # ms without a further change: an editor may write a file in several steps


def watch_and_write(paths: tuple[Path, ...], wanted: Wanted) -> None:
    """Writes all papers, then waits for changes until it is interrupted."""
    from watchfiles import watch

    kept, last = Kept(), dict[Path, Made]()
    try:
        orders = _orders(paths, wanted)
        changes = watch(
            *_roots(paths, orders),
            watch_filter=_may_matter,
            step=SETTLED,
            debounce=4 * SETTLED,
            rust_timeout=SETTLED,
            yield_on_timeout=True,
        )
        next(changes)  # from here on no change is missed, not one while the first papers are written either
        for order in orders:
            last[order.job] = _write(order, kept, (), None)
        news("Watching; Ctrl-C ends it.")
        for some in filter(None, changes):
            changed = {Path(name) for _, name in some}
            for order in _orders(paths, wanted):
                before = last.get(order.job)
                matter = [path for path in changed if _rests_on(order.job, before, path)]
                if before is None or matter:
                    last[order.job] = _write(order, kept, matter, before)
    except KeyboardInterrupt:
        news("No longer watching.")


def _orders(paths: tuple[Path, ...], wanted: Wanted) -> tuple[Order, ...]:
    """The orders as the folders are now; none where there are none or they clash, which is said."""
    try:
        named = jobs_named(paths)
        return orders_for(named.jobs, named.several, wanted)
    except Unreadable as error:
        trouble(error.finding.as_text())
    except NoTarget as error:
        trouble(str(error))
    return ()


def _write(order: Order, kept: Kept, changed: Collection[Path], before: Made | None) -> Made:
    """One paper, and one line on it; all that stops it where something does."""
    made = put(make_whatever_happens(order, kept), record=False)  # many a try, and none of them signed
    files = [path for path in sorted(changed) if not any(path in other.parents for other in changed)]
    why = ", ".join(visible(shown(path)) for path in files)
    since = f": {why} changed" if why else ""
    if made.code is Exit.FINE:
        news(f"Wrote {visible(order.path)}{since}")
        if before is None:
            news("\n".join(made.duties)) if made.duties else None
    elif before is None or before.said != made.said:
        trouble(f"Not written{since}\n{made.said}")
    else:
        trouble(f"Not written{since}; what stops it is as before.")
    return made


def _roots(paths: tuple[Path, ...], orders: tuple[Order, ...]) -> list[str]:
    """The folders to look at: each workspace, and where a job lies that is a link to elsewhere."""
    roots = {os.path.abspath(path) for path in paths if path.is_dir()}
    for job in (order.job for order in orders):
        space = workspace_of(job)
        roots |= {str(space.folder) if space else os.path.dirname(os.path.abspath(job))}
        roots |= {os.path.dirname(os.path.realpath(job))}
    return sorted(root for root in roots if not any(Path(root).is_relative_to(o) for o in roots if o != root))


def _may_matter(change: Change, name: str) -> bool:
    """Whether a file may be one that a paper rests on; a paper itself never is."""
    return not os.path.basename(name).startswith(".") and not name.endswith((".pdf", ".html", ".htm"))


def _rests_on(job: Path, before: Made | None, path: Path) -> bool:
    """Whether a job's paper rests on a file or a folder: the job itself, a chart or the particulars of its
    workspace, a clause of its own, or a photo that it names. Of a folder that is new the files may be known
    by the folder alone."""
    here = Path(os.path.abspath(job))
    if path in (here, Path(os.path.realpath(job))):
        return True
    if before is not None and any(photo.is_relative_to(path) for photo in before.rests_on):
        return True
    if path.name == "company.yaml" and here.is_relative_to(path.parent):
        return True
    space = workspace_of(job)
    if space is None or path.suffix not in ("", *ENDINGS):
        return False
    chart = path.parent == space.folder and path.name.startswith("prices-")
    return chart or path.is_relative_to(space.clauses)
