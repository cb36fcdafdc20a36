"""YAML as people write it, at random: every style, odd spacing, comments anywhere, two sorts of line ends."""

from __future__ import annotations

from hypothesis import strategies as st

KEYS = ("a", "b", "c d", "e-f", "'g'", '"h"', "ñ", "10")
ONE_LINE = ("x", "12 ft 6 in", "'it''s'", '"two, \\"three\\""', "~", "1.45", "𝄞 é", "a  b", "''", "7:30")
IN_BRACES = ("x", "12 ft", "'a, b'", '"{c}"', "~", "1.45", "ñ")
COMMENTS = ("", "", "", " # note", "   #tight", "  # far off")
MARKS = ("# note", "#tight", "# far off", "# between", "# far in", "# two", "# in braces")
BETWEEN = ("", "", "", "\n", "# between\n", "      # far in\n", "  \n", "\n# two\n\n")


@st.composite
def texts(draw: st.DrawFn, *, with_list: bool = False) -> str:
    """A whole file: a group of keys, with or without a mark of byte order, CRLF, a last line end."""
    text = draw(st.sampled_from(BETWEEN)) + "".join(_group(draw, "", 3))
    if with_list:
        inside = draw(st.sampled_from(["", "  "]))
        text += "z:\n" + "".join(_list(draw, inside, 2)) + draw(st.sampled_from(["", "y: last\n"]))
    text = draw(st.sampled_from(["", "", "---\n"])) + text
    if draw(st.booleans()):
        text = text.rstrip("\n")
    if draw(st.booleans()):
        text = text.replace("\n", "\r\n")
    return draw(st.sampled_from(["", "", "\ufeff"])) + text


def _group(draw: st.DrawFn, indent: str, depth: int) -> list[str]:
    keys = draw(st.lists(st.sampled_from(KEYS), min_size=1, max_size=4, unique=True))
    lines = []
    for key in keys:
        gap = draw(st.sampled_from(["", "", " "]))
        lines += [f"{indent}{key}{gap}:{_value(draw, indent, depth, of_key=True)}", _between(draw)]
    return lines


def _list(draw: st.DrawFn, indent: str, depth: int) -> list[str]:
    lines = []
    for _ in range(draw(st.integers(1, 4))):
        lines += [f"{indent}-{_value(draw, indent, depth, of_key=False)}", _between(draw)]
    return lines


def _value(draw: st.DrawFn, indent: str, depth: int, *, of_key: bool) -> str:
    """What follows a colon or a dash, to the end of its last line."""
    kinds = ["text", "text", "text", "nothing", "folded", "wrapped", "braces"]
    kind = draw(st.sampled_from([*kinds, "group", "list", "compact"] if depth else kinds))
    comment, gap = draw(st.sampled_from(COMMENTS)), draw(st.sampled_from([" ", " ", "   "]))
    deeper = indent + draw(st.sampled_from(["  ", "  ", "   "]))
    if kind == "text":
        return f"{gap}{draw(st.sampled_from(ONE_LINE))}{comment}\n"
    if kind == "nothing":
        return f"{comment}\n"
    if kind == "folded":
        header = draw(st.sampled_from([">-", "|", "|+", ">", "|-"]))
        rest = draw(st.sampled_from(["", "\n", "\n\n", f"{deeper}more\n"]))
        return f"{gap}{header}{comment}\n{deeper}words # no comment\n{rest}"
    if kind == "wrapped":
        quote = draw(st.sampled_from(["", "'", '"']))
        return f"{gap}{quote}first\n{deeper}second{quote}{comment}\n"
    if kind == "braces":
        return f"{gap}{_braces(draw, indent + '    ', 2)}{comment}\n"
    if kind == "compact" and not of_key:
        inside = indent + " " + gap
        first, *others = (_group if draw(st.booleans()) else _list)(draw, inside, depth - 1)
        return gap + first.removeprefix(inside) + "".join(others)
    if kind == "list":
        same = indent if of_key and draw(st.booleans()) else deeper
        return f"{comment}\n" + "".join(_list(draw, same, depth - 1))
    return f"{comment}\n" + "".join(_group(draw, deeper, depth - 1))


def _braces(draw: st.DrawFn, indent: str, depth: int) -> str:
    def inside() -> str:
        nested = depth and draw(st.integers(0, 3)) == 0
        return _braces(draw, indent, depth - 1) if nested else draw(st.sampled_from(IN_BRACES))

    def apart() -> str:
        return draw(st.sampled_from(["", "", " ", f"\n{indent}", f" # in braces\n{indent}"]))

    if draw(st.booleans()):
        keys = draw(st.lists(st.sampled_from(KEYS), max_size=3, unique=True))
        entries, signs = [f"{key}: {inside()}" for key in keys], "{}"
    else:
        entries, signs = [inside() for _ in range(draw(st.integers(0, 3)))], "[]"
    last = draw(st.sampled_from(["", ","])) if entries else ""
    return (
        signs[0]
        + apart()
        + ",".join(f"{apart()} {each}{apart()}" for each in entries)
        + last
        + apart()
        + signs[1]
    )


def _between(draw: st.DrawFn) -> str:
    return draw(st.sampled_from(BETWEEN))
