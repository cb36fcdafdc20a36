"""YAML's flat events, from the C parser where it can be trusted to say what the Python one says.

ruamel.yaml has both. The one in C is some twenty times as fast, but more lenient: it lets tabs and a few
odd signs pass. So a text that holds one of those is left to the parser in Python, and so is whatever the C
parser refuses: its findings are worded, and placed, in one way only.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any

# tabs, markers of documents, carriage returns, a sign right behind '|', '>' or a quote
_READ_OTHERWISE = re.compile(r"\t|\r|^(?:---|\.\.\.)|[|>][-+0-9]*#|[\"']:[^\s,\]}]|^%", re.MULTILINE)


def events_in_c(text: str) -> Iterator[Any] | None:
    """The events by the C parser; None where it is not installed, or would read the text otherwise."""
    if _READ_OTHERWISE.search(text):
        return None
    parser = _c_parser()
    return None if parser is None else iter(parser(text).get_event, None)


def events_in_python(text: str) -> Iterator[Any]:
    """The events by the parser in Python, which tells best what is wrong."""
    from ruamel.yaml import YAML

    return YAML(typ="safe", pure=True, plug_ins=[]).parse(text)


def _c_parser() -> Any:
    try:
        from _ruamel_yaml import CParser
    except ImportError:  # no wheel for this Python or machine
        return None
    return CParser
