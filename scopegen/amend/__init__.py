"""Changes of YAML text that leave everything else byte for byte: text in, text out.

Dumping what was read would change line ends, quotes, spaces and more. So the text is cut and filled at the
places that the parser tells, then read again: it says the wanted data, or nothing is changed.
"""

from __future__ import annotations

from collections.abc import Sequence

from scopegen.amend.edits import AddItem, AddKey, CannotAmend, Edit, Put, Remove, Repeat, wanted
from scopegen.amend.nodes import tree_of
from scopegen.amend.splices import Splices
from scopegen.load import Data, Unreadable, parse

__all__ = ["AddItem", "AddKey", "CannotAmend", "Edit", "Put", "Remove", "Repeat", "amended"]

_MARK = "\ufeff"  # of the byte order, at the start of some files


def amended(text: str, edits: Sequence[Edit], name: str = "the file") -> str:
    """The text with all edits made at once; their paths are those of the text as it is given.

    Raises Unreadable for YAML that cannot be read, CannotAmend for an edit that does not fit what stands
    there, or that cannot be made without changing anything else.
    """
    mark, body = (_MARK, text[1:]) if text.startswith(_MARK) else ("", text)
    data = parse(body, name).data
    goal = wanted(data, edits)
    changed = Splices(body, tree_of(body), edits).applied()
    if _read(changed, name) != goal:
        raise CannotAmend(
            f"{name} is written in a way that cannot be changed without touching more than was asked"
        )
    return mark + changed


def _read(text: str, name: str) -> Data:
    """What the changed text says; nothing where it cannot be read any more."""
    try:
        return parse(text, name).data
    except Unreadable:
        return None
