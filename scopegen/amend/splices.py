"""Edits as cuts and fillings of the text."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from scopegen.amend.edits import AddItem, AddKey, CannotAmend, Edit, Put, Remove, Repeat, spelled
from scopegen.amend.nodes import Entry, Node, entry_at, node_at
from scopegen.amend.written import in_braces, in_lines, scalar
from scopegen.load import Path_

_COMMENT = re.compile(r"^[^\s]+(?=\s|$)")
_TO_COMMA = re.compile(r"((?:\s|#[^\n]*(?=\n))*,)[ \t]*")


@dataclass(frozen=True, slots=True)
class Splice:
    """From `start` to `end` the text is replaced by `new`."""

    start: int
    end: int
    new: str


class Splices:
    """The cuts and fillings of one text, all in its own offsets."""

    def __init__(self, text: str, root: Node, edits: Sequence[Edit]) -> None:
        self.text, self.root, self.edits = text, root, edits
        self.gone = {edit.path for edit in edits if isinstance(edit, Remove)}

    def applied(self) -> str:
        """The text after all of them. Raises CannotAmend where two get into each other's way."""
        text, before = self.text, len(self.text) + 1
        for splice in reversed(_joined(sorted(self._all(), key=lambda each: (each.start, each.end)))):
            if splice.end > before:
                raise CannotAmend("two of the changes stand in each other's way; make them one by one")
            text = text[: splice.start] + splice.new + text[splice.end :]
            before = splice.start
        return text

    def _all(self) -> Iterator[Splice]:
        emptied: set[Path_] = set()
        for edit in self.edits:
            if isinstance(edit, Put):
                yield self._put(edit)
            elif isinstance(edit, AddKey):
                yield self._add_key(edit)
            elif isinstance(edit, AddItem):
                yield self._add_item(edit)
            elif isinstance(edit, Repeat):
                yield self._repeat(edit)
            elif edit.path[:-1] not in emptied:
                yield self._remove(edit, emptied)

    def _put(self, edit: Put) -> Splice:
        node = node_at(self.root, edit.path)
        new = scalar(edit.value, node.style)
        if node.style in ("|", ">"):  # the comment behind the sign stays
            new += _COMMENT.sub("", self.text[node.start : node.end].splitlines()[0], 1)
        if node.start == node.end and self.text[node.start - 1 : node.start] not in " \t":
            new = f" {new}"
        return Splice(node.start, node.end, self._closed(node, new))

    def _add_key(self, edit: AddKey) -> Splice:
        group = node_at(self.root, edit.path)
        if group.flow:
            if edit.above:
                raise CannotAmend(f"{spelled(edit.path)} is written in braces, where no comment has room")
            return self._into_braces(group, edit.after, f"{scalar(edit.key)}: {in_braces(edit.value)}")
        indent = " " * self._column(group.entries[0].start)
        newline = self._newline(group.start)
        lines = [f"# {line}" for line in edit.above]
        lines.append(in_lines(f"{scalar(edit.key)}:", edit.value, indent, newline))
        behind = group if edit.after is None else entry_at(group, (*edit.path, edit.after)).node
        return self._below(behind, newline.join(indent + line for line in lines))

    def _add_item(self, edit: AddItem) -> Splice:
        found = node_at(self.root, edit.path)
        if found.flow:
            return self._into_braces(found, None, in_braces(edit.value))
        last = found.entries[-1]
        gap = self.text[last.start + 1 : last.node.start]
        dash = f"-{gap}" if gap and not gap.strip(" ") else "- "
        return self._below(found, " " * self._column(last.start) + dash + in_braces(edit.value))

    def _repeat(self, edit: Repeat) -> Splice:
        above = node_at(self.root, edit.path[:-1])
        entry = entry_at(above, edit.path)
        if above.flow:
            return Splice(entry.node.end, entry.node.end, f", {self.text[entry.start : entry.node.end]}")
        first = self._line(entry.start)
        lines = self.text[first : self._after(entry.node)]
        if self.text[first : entry.start].strip(" "):
            raise CannotAmend(f"{spelled(edit.path)} shares its line with what stands above it")
        return self._below(entry.node, lines.removesuffix("\n").removesuffix("\r"))

    def _remove(self, edit: Remove, emptied: set[Path_]) -> Splice:
        above_path = edit.path[:-1]
        above = node_at(self.root, above_path)
        entry = entry_at(above, edit.path)
        if all((*above_path, each.step) in self.gone for each in above.entries):
            emptied.add(above_path)
            return self._emptied(above)
        index = above.entries.index(entry)
        if above.flow:
            return self._out_of_braces(above, index)
        first, after = self._line(entry.start), self._after(entry.node)
        if not self.text[first : entry.start].strip(" "):
            return Splice(first, after, "")
        following = above.entries[index + 1].start  # it shares the line of a dash, and so is the first one
        if not self.text[after:following].strip(" "):
            return Splice(entry.start, following, "")
        line_end = len(self.text[:after].rstrip("\r\n"))
        return Splice(entry.start, line_end, "")

    def _emptied(self, above: Node) -> Splice:
        new = "[]" if above.kind == "list" else "{}"
        if above.flow:
            return Splice(above.start + 1, above.end - 1, "")
        if above is not self.root and not self.text[self._line(above.start) : above.start].strip(" "):
            new = f"  {new}"  # deeper than the key, which may stand as far left as its list
        return Splice(above.start, above.end, self._closed(above, new))

    def _into_braces(self, node: Node, after: str | None, new: str) -> Splice:
        if self.text[node.start : node.start + 1] not in ("{", "["):
            raise CannotAmend("a pair in brackets cannot take another key")
        if not node.entries:
            return Splice(node.start + 1, node.start + 1, new)
        last = (node.entries[-1] if after is None else entry_at(node, (after,))).node
        apart = " " if last.start == last.end else ""  # a comma right behind a colon is read as text
        return Splice(last.end, last.end, f"{apart}, {new}")

    def _out_of_braces(self, above: Node, index: int) -> Splice:
        entry, last = above.entries[index], index + 1 == len(above.entries)
        comma = _TO_COMMA.match(self.text, entry.node.end)
        if comma and self.text[comma.end() : comma.end() + 1] == "#":
            return Splice(entry.start, comma.end(1), "")  # a comment keeps the space before it
        if comma and not last:
            return Splice(entry.start, comma.end(), "")
        before: Entry = above.entries[index - 1]
        if "#" not in self.text[before.node.end : entry.start]:
            return Splice(before.node.end, entry.node.end, "")  # a comma may stand before the brace
        return Splice(entry.start, comma.end(1) if comma else entry.node.end, "")

    def _below(self, node: Node, lines: str) -> Splice:
        """New lines below the last one of a value; the file ends with a line end where it did before."""
        place = self._after(node)
        newline = self._newline(place)
        closed = place == 0 or self.text[place - 1] == "\n"
        return Splice(place, place, lines + newline if closed else newline + lines)

    def _closed(self, node: Node, new: str) -> str:
        """A value in place of one whose last line end belonged to it."""
        ends = node.end > node.start and self.text[node.end - 1] == "\n"
        return new + self._newline(node.start) if ends else new

    def _after(self, node: Node) -> int:
        """Where the line below a value's last one starts; the end of the file where there is none."""
        if node.keeps and self.text[node.end - 1 : node.end] == "\n":
            return node.end
        end = self.text.find("\n", node.end)
        return len(self.text) if end < 0 else end + 1

    def _line(self, position: int) -> int:
        """Where the line of a position starts."""
        return self.text.rfind("\n", 0, position) + 1

    def _column(self, position: int) -> int:
        return position - self._line(position)

    def _newline(self, position: int) -> str:
        """The line end that is used around a position."""
        here = self.text.find("\n", max(0, position - 1))
        if here < 0:
            here = self.text.rfind("\n")
        return "\r\n" if here > 0 and self.text[here - 1] == "\r" else "\n"


def _joined(splices: Sequence[Splice]) -> list[Splice]:
    """Cuts that overlap as one."""
    joined: list[Splice] = []
    for splice in splices:
        if joined and not (joined[-1].new or splice.new) and splice.start < joined[-1].end:
            last = joined.pop()
            splice = Splice(last.start, max(last.end, splice.end), "")
        joined.append(splice)
    return joined
