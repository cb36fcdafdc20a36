"""A rule's example as a person would write it: a rule has it in one line, laid over a sound job."""

from __future__ import annotations

import io
import re
from dataclasses import dataclass
from typing import Any

from ruamel.yaml import YAML
from ruamel.yaml.comments import CommentedMap, CommentedSeq

LEFT_OUT = "(left out)"
FILES = {"job": "the job description", "chart": "the price chart", "company": "company.yaml"}
# What is written line by line in any file, however short it is.
ALWAYS_IN_LINES = frozenset(
    {"customer", "every_bed", "beds", "site", "extras", "if_found", "materials", "work", "streams", "wording"}
)
MOST_IN_BRACES = 64  # characters


@dataclass(frozen=True, slots=True)
class Piece:
    """A few lines of one file: which file, and the lines as they stand there."""

    file: str
    yaml: str


def as_it_stands(text: str) -> tuple[Piece, ...]:
    """An example that is a file's own lines."""
    return (Piece("the file", text),) if text else ()


def pieces_of(example: str) -> tuple[Piece, ...]:
    """An example under the keys job, chart, company, clauses and laws, as lines of those files."""
    if not example:
        return ()
    pieces = []
    for key, said in _yaml().load(example).items():
        if key == "clauses":
            pieces += [Piece(f"clauses/{name}", _lines(_yaml().load(text))) for name, text in said.items()]
        elif key == "laws":
            note = f"# the legal rules there have no wording for a paper in '{said['without']}'\n"
            pieces.append(Piece("the clause library", note))
        elif key == "printed":
            notes = [f"# on an earlier paper {name} said: {text}\n" for name, text in said.items()]
            pieces.append(Piece("clauses.lock", "".join(notes)))
        else:
            pieces.append(Piece(FILES[key], _lines(said)))
    return tuple(pieces)


def _yaml() -> YAML:
    yaml = YAML()
    yaml.preserve_quotes = True
    yaml.width = 10_000
    yaml.brace_single_entry_mapping_in_flow_sequence = True
    yaml.indent(mapping=2, sequence=4, offset=2)
    return yaml


def _lines(data: Any) -> str:
    _name_beds(data)
    _style(data, inside="")
    stream = io.StringIO()
    _yaml().dump(data, stream)
    left_out = re.compile(rf"^(\s*)([\w-]+): {re.escape(LEFT_OUT)}$", re.M)
    return left_out.sub(r"\1# \2 is left out", stream.getvalue())


def _name_beds(data: Any) -> None:
    """A bed has a name first, as in any job; the sound job's one bed is the front bed."""
    for bed in data.get("beds") or () if isinstance(data.get("beds"), list) else ():
        if "name" not in bed:
            bed.insert(0, "name", "Front bed")


def _style(node: Any, inside: str) -> None:
    """Short groups in braces, what is long, left out or always written so in lines."""
    if not isinstance(node, (CommentedMap, CommentedSeq)):
        return
    in_lines = not inside or inside in ALWAYS_IN_LINES or _holds_left_out(node) or _too_long(node)
    if not in_lines:
        node.fa.set_flow_style()
        return
    node.fa.set_block_style()
    named = inside in ("materials", "work")
    for key, inner in node.items() if isinstance(node, CommentedMap) else ((inside, each) for each in node):
        _style(inner, "beds" if named or inside == "beds" and isinstance(node, CommentedSeq) else str(key))


def _holds_left_out(node: Any) -> bool:
    inner = (
        node.values() if isinstance(node, CommentedMap) else node if isinstance(node, CommentedSeq) else ()
    )
    return node == LEFT_OUT or any(_holds_left_out(each) for each in inner)


def _too_long(node: Any) -> bool:
    return len(re.sub(r"ordereddict|[()']", "", str(node))) > MOST_IN_BRACES
