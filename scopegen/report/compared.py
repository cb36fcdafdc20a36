"""What changed between two seasons, for a terminal and for another program."""

from __future__ import annotations

from dataclasses import asdict
from typing import Any

from scopegen.comparing import ChangedClause, ChangedText
from scopegen.report.wrapped import wrapped

_SAID = {"new": "new", "gone": "no longer used", "changed": "changed"}


def compared_json(changes: tuple[ChangedClause, ...]) -> dict[str, Any]:
    """Each clause with its texts as runs of words that stayed (`same`), went out or came in."""
    return {"changes": [asdict(change) for change in changes]}


def compared_text(changes: tuple[ChangedClause, ...], old: int, new: int) -> str:
    """A block a clause. Words that go out or come in stand in brackets that say so."""
    if not changes:
        return f"No wording changes from {old} to {new}."
    blocks = [_block(change) for change in changes]
    count = "1 clause changes" if len(changes) == 1 else f"{len(changes)} clauses change"
    return "\n\n".join([*blocks, f"{count} from {old} to {new}."])


def _block(change: ChangedClause) -> str:
    lines = [f"{change.clause}: {change.title} ({_SAID[change.kind]})"]
    if change.because:
        lines.append(f"  because: {change.because}")
    if change.instead:
        lines.append(f"  instead: {change.instead}")
    if change.conditions:
        lines += [f"  taken before: {change.conditions[0]}", f"  taken now: {change.conditions[1]}"]
    for text in change.texts:
        lines += ["", f"  {text.way}{_versions(text)}", *wrapped(runs_as_text(text))]
    return "\n".join(lines)


def _versions(text: ChangedText) -> str:
    if text.old and text.new:
        return f" (version {text.old}, then {text.new})"
    return f" (version {text.old or text.new})"


def runs_as_text(text: ChangedText) -> str:
    """The words of both versions in one line of reading."""
    marks = {"same": "{}", "out": "[out: {}]", "in": "[in: {}]"}
    return " ".join(marks[run.change].format(run.text) for run in text.runs)
