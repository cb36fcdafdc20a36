"""What changed between two seasons, for a terminal and for another program."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import asdict
from typing import Any

from scopegen.comparing import ChangedClause, ChangedText
from scopegen.report.wrapped import wrapped

_SAID = {"new": "new", "gone": "no longer used", "changed": "changed"}


def compared_json(
    changes: tuple[ChangedClause, ...], elsewhere: Mapping[str, Sequence[str]]
) -> dict[str, Any]:
    """Each clause with its texts as runs of words that stayed (`same`), went out or came in; and those that
    change in other languages alone."""
    others = {clause: list(languages) for clause, languages in elsewhere.items()}
    return {"changes": [asdict(change) for change in changes], "in_other_languages": others}


def compared_text(
    changes: tuple[ChangedClause, ...],
    old: int,
    new: int,
    language: str,
    elsewhere: Mapping[str, Sequence[str]],
) -> str:
    """A block a clause. Words that go out or come in stand in brackets that say so."""
    blocks = [_block(change, language) for change in changes]
    if not changes:
        said = f"No wording changes from {old} to {new}."
    else:
        said = f"{_count(len(changes))} from {old} to {new}."
    if elsewhere:
        names = ", ".join(f"{name} ({', '.join(of)})" for name, of in elsewhere.items())
        own = f"No wording in '{language}' changes" if not changes else _count(len(changes))
        said = f"{own} from {old} to {new}.\nIn other languages alone: {names}."
    return "\n\n".join([*blocks, said])


def _count(count: int) -> str:
    return "1 clause changes" if count == 1 else f"{count} clauses change"


def _block(change: ChangedClause, language: str) -> str:
    lines = [f"{change.clause}: {change.title} ({_SAID[change.kind]})"]
    if change.because:
        lines.append(f"  because: {change.because}")
    if change.instead:
        lines.append(f"  instead: {change.instead}")
    for pair, label in (
        (change.conditions, "taken"),
        (change.titles, "title"),
        (change.absent_names, "name where it is left out,"),
    ):
        none = f"none in '{language}'"
        lines += [f"  {label} before: {pair[0] or none}", f"  {label} now: {pair[1] or none}"] if pair else []
    if change.unworded and not change.texts:
        lines += ["", f"  There is no wording in '{language}'."]
    for text in change.texts:
        lines += ["", f"  {text.way}{_versions(text, language)}", *wrapped(runs_as_text(text))]
    return "\n".join(lines)


def _versions(text: ChangedText, language: str) -> str:
    if text.old and text.new:
        return f" (version {text.old}, then {text.new})"
    if text.without:
        without = f"version {text.without} has no wording for this in '{language}'"
        told = (f"version {text.old}", without) if text.old else (without, f"version {text.new}")
        return f" ({'; '.join(told)})"
    return f" (version {text.old or text.new})"


def runs_as_text(text: ChangedText) -> str:
    """The words of both versions in one line of reading."""
    marks = {"same": "{}", "out": "[out: {}]", "in": "[in: {}]"}
    return " ".join(marks[run.change].format(run.text) for run in text.runs)
