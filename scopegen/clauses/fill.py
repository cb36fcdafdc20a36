"""Fills the blanks of a text, in a sandbox: names and simple conditions, nothing of Python."""

from __future__ import annotations

import difflib
import re
from collections.abc import Mapping
from functools import cache

from jinja2 import StrictUndefined, Template, TemplateError, nodes
from jinja2.sandbox import ImmutableSandboxedEnvironment

_ENVIRONMENT = ImmutableSandboxedEnvironment(
    undefined=StrictUndefined, autoescape=False, keep_trailing_newline=False
)
_ENVIRONMENT.globals.clear()  # no range, no dict: a text has its blanks and nothing else
_ENVIRONMENT.filters.clear()
_ENVIRONMENT.tests.clear()


# What a text may be made of: text, blanks, `if` with names, texts and comparisons.
_ALLOWED = (
    nodes.Template, nodes.Output, nodes.TemplateData, nodes.Name, nodes.Const, nodes.If, nodes.Not, nodes.And,
    nodes.Or, nodes.Compare, nodes.Operand,
)  # fmt: skip
_PLAIN = re.compile(r"\{\{ [a-z_]+ \}\}|\{% (?:if [a-z_]+(?: == '')?|else|endif) %\}")  # as most texts are
_NAMES = re.compile(r"\{\{ ([a-z_]+) \}\}|\{% if ([a-z_]+)")
_BLANK = re.compile(r"\{\{ ([a-z_]+) \}\}")
_CONDITION = re.compile(r"\{% (?:if [a-z_]+|endif) %\}")
OPENING = re.compile(r"\{[{%]")
# A condition or a blank, or the start of one that ends nowhere before the next.
_PIECE = re.compile(r"\{%-?((?:(?!\{[{%]).)*?)-?%\}|\{\{(?:(?!\{[{%]).)*?\}\}|\{[{%]", re.DOTALL)
_WORDS = ("else", "elif", "endif")
MOST_DEEP = 20  # steps of the parsed text below each other; Python itself gives up at a hundred
MOST_FILLED = 20_000  # characters of a filled text: longer paragraphs cost minutes of layout


class Unfillable(ValueError):
    """A text that cannot be filled; says why. `opening` is the number of the `{{` or `{%` that is at fault,
    counted from 0 through the text; None where it is none of them alone."""

    def __init__(self, why: str, opening: int | None = None) -> None:
        super().__init__(why)
        self.opening = opening


def plain_blanks(text: str) -> frozenset[str]:
    """The names of a text's blanks; raises Unfillable. Most texts need no parser for it."""
    if _is_plain(text):
        return frozenset(filter(None, (name for names in _NAMES.findall(text) for name in names)))
    return blanks_of(text)


def filled_whole(text: str, values: Mapping[str, str]) -> str:
    """As `fill`, where every blank has a value and so every simple condition holds."""
    if not _is_plain(text) or "{% else" in text or "==" in text or not all(values.values()):
        return fill(text, values)
    try:
        said = _BLANK.sub(lambda blank: values[blank[1]], _CONDITION.sub("", text))
    except KeyError:
        return fill(text, values)  # which says what is wrong
    return " ".join(said.split())


def _is_plain(text: str) -> bool:
    ends = text.count("{% endif %}")
    return "{" not in _PLAIN.sub("", text) and text.count("{% if ") == ends <= MOST_DEEP


def unclosed(text: str) -> Unfillable:
    """What is wrong with a text whose blanks and conditions cannot be told apart, in plain words."""
    open_ifs: list[tuple[int, str]] = []
    for number, found in enumerate(_PIECE.finditer(text)):
        piece, inside = found[0], (found[1] or "").strip()
        if not piece.endswith(("}}", "%}")):
            return Unfillable(f"a {piece[:2]} that no {'}}' if piece[:2] == '{{' else '%}'} closes", number)
        if piece.startswith("{{"):
            if not re.fullmatch(r"\w+", piece.strip("{} \n")):
                return Unfillable(f"'{piece}', which names no blank", number)
            continue
        word, _, asked = inside.partition(" ")
        if word == "if":
            open_ifs.append((number, piece))
            if not asked:
                return Unfillable("a {% if %} that names no blank", number)
        elif word not in _WORDS:
            return Unfillable(
                f"'{piece}', which is none of {{% if … %}}, {{% else %}}, {{% endif %}}", number
            )
        elif not open_ifs:
            return Unfillable(f"a {piece} without {{% if … %}} before it", number)
        elif word == "endif":
            open_ifs.pop()
    if open_ifs:
        number, piece = open_ifs[-1]
        return Unfillable(f"a {piece} that no {{% endif %}} closes", number)
    return Unfillable("its blanks and conditions cannot be told apart")


def refuse_code(text: str) -> None:
    """Raises Unfillable for a text with more in it than blanks and simple conditions. Nothing is run."""
    if not _is_plain(text):
        blanks_of(text)


def blanks_of(text: str) -> frozenset[str]:
    """The names of a text's blanks; raises Unfillable. They are looked for level by level, so that nothing
    recursive meets what a stranger nested."""
    try:
        level: list[nodes.Node] = [_ENVIRONMENT.parse(text)]
    except TemplateError:
        raise unclosed(text) from None
    except ValueError:  # Python converts no number of thousands of digits
        raise Unfillable("it holds a number that is too long") from None
    except (RecursionError, MemoryError):
        raise Unfillable("its conditions are nested too deep") from None
    names: set[str] = set()
    for _ in range(MOST_DEEP):
        if not all(isinstance(node, _ALLOWED) for node in level):
            raise Unfillable("it holds more than blanks and simple conditions")
        names |= {node.name for node in level if isinstance(node, nodes.Name)}
        level = [child for node in level for child in node.iter_child_nodes()]
        if not level:
            return frozenset(names)
    raise Unfillable("its conditions are nested too deep")


@cache
def _template(text: str) -> tuple[Template, frozenset[str]]:
    """A text ready to be filled, and the names of its blanks."""
    names = blanks_of(text)
    return _ENVIRONMENT.from_string(text), names


def fill(text: str, values: Mapping[str, str]) -> str:
    """The text with its blanks filled, in one paragraph. Raises Unfillable."""
    try:
        template, names = _template(text)
        unknown = sorted(names - values.keys())
        if unknown:
            near = difflib.get_close_matches(unknown[0], list(values), n=1)
            advice = f"; did you mean '{near[0]}'?" if near else ""
            raise Unfillable(f"'{unknown[0]}' is no blank that it can have here{advice}")
        filled = " ".join(template.render(values).split())
    except (TemplateError, TypeError, ValueError, RecursionError) as error:
        raise Unfillable(str(error)) from None
    if len(filled) > MOST_FILLED:
        raise Unfillable(f"it would have more than {MOST_FILLED:,} characters")
    return filled


def fill_with_words(text: str, values: Mapping[str, str]) -> str:
    """As `fill`, for a paper: it would have a heading with nothing under it. Raises Unfillable."""
    filled = fill(text, values)
    if not filled:
        raise Unfillable("its conditions leave no words for this job")
    return filled
