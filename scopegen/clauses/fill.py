"""Fills the blanks of a text, in a sandbox: names and simple conditions, nothing of Python."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache

from jinja2 import StrictUndefined, Template, TemplateError
from jinja2.sandbox import ImmutableSandboxedEnvironment

_ENVIRONMENT = ImmutableSandboxedEnvironment(
    undefined=StrictUndefined, autoescape=False, keep_trailing_newline=False
)
_ENVIRONMENT.globals.clear()  # no range, no dict: a text has its blanks and nothing else
_ENVIRONMENT.filters.clear()
_ENVIRONMENT.tests.clear()


class Unfillable(ValueError):
    """A text that cannot be filled; says why."""


@cache
def _template(text: str) -> Template:
    return _ENVIRONMENT.from_string(text)


def fill(text: str, values: Mapping[str, str]) -> str:
    """The text with its blanks filled, in one paragraph. Raises Unfillable."""
    try:
        return " ".join(_template(text).render(values).split())
    except (TemplateError, TypeError, ValueError, RecursionError) as error:
        raise Unfillable(str(error)) from None
