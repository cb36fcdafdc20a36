"""What changed between two wordings, word by word."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import SequenceMatcher
from typing import Literal

Change = Literal["same", "out", "in"]


@dataclass(frozen=True, slots=True)
class Run:
    """Some words in a row that stayed, went out or came in."""

    change: Change
    text: str


def differences(old: str, new: str) -> tuple[Run, ...]:
    """The words of both, in the order of reading; what goes out stands before what comes in for it."""
    before, after = old.split(), new.split()
    runs: list[Run] = []
    for kind, i, j, k, m in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if kind == "equal":
            runs.append(Run("same", " ".join(before[i:j])))
            continue
        if i < j:
            runs.append(Run("out", " ".join(before[i:j])))
        if k < m:
            runs.append(Run("in", " ".join(after[k:m])))
    return tuple(runs)
