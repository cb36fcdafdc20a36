"""Fills the blanks of a text, in a sandbox: names and simple conditions, nothing of Python."""

from __future__ import annotations

import difflib
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


class Unfillable(ValueError):
    """A text that cannot be filled; says why."""


@cache
def _template(text: str) -> tuple[Template, frozenset[str]]:
    """A text ready to be filled, and the names of its blanks."""
    tree = _ENVIRONMENT.parse(text)
    for node in tree.find_all(nodes.Node):
        if not isinstance(node, _ALLOWED):
            raise Unfillable("it holds more than blanks and simple conditions")
    names = frozenset(node.name for node in tree.find_all(nodes.Name))
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
        return " ".join(template.render(values).split())
    except (TemplateError, TypeError, ValueError, RecursionError) as error:
        raise Unfillable(str(error)) from None
