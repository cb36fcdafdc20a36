"""The names of the form fields of a paper."""

from __future__ import annotations

import re
from collections import Counter


class FieldNames:
    """Gives every field of one paper a name of its own, from the section that it stands in and its kind.

    A name holds no dot (ISO 32000-1, 12.7.3.2: a dot parts the names of a field and of those inside it). The
    same paper gives the same names.
    """

    def __init__(self) -> None:
        self._given: Counter[str] = Counter()

    def name(self, section: str, kind: str) -> str:
        """The next name for a field of a kind (`choice`, `initials`, `signature`, `date`, `text`)."""
        stem = f"{re.sub(r'[^a-z0-9]+', '_', section.lower()).strip('_')}_{{}}_{kind}"
        self._given[stem] += 1
        return stem.format(self._given[stem])
