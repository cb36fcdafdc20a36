"""Ways to spoil a file: its bytes, its lines, its tokens, its tree."""

from __future__ import annotations

import json
import random
from collections.abc import Iterator
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "example_scopes"
LIBRARY = ROOT / "clause_library"
JOB, CHART, COMPANY = "job.yaml", "prices-2027.yaml", "company.yaml"
MOST_TREE = 100_000
Files = dict[str, bytes]

NASTY = (
    "", "~", "null", "yes", "no", "0", "1", "-1", "1e999999", "0.1", "1/0", "1/3", "½", "9" * 20,
    "9" * 5000, "0 ft", "1 ft", "0.001 in", "99999 ft", "1000000 ft", "3 m", "2 yd3", "40 ft2",
    "12 ft 6 in", "12'6\"", "100 %", "101 %", "0 %", "0.0001 %", "1,200.00", "$5", "0.005",
    "100000000.00", "2027-02-29", "2028-02-29", "0000-00-00", "2000-01-01", "2100-12-31", "2027-03-19",
    "rest", "open", "included", "add-on", "customer", "no-charge", "excluded", "elsewhere",
    "not-needed", "[]", "{}", "[[]]", "{a: b}", "[a, b]", "&a b", "*a", "!!python/object:os.system x",
    "<<", "<script>alert(1)</script>", "{{ 7*7 }}", "{% for a in b %}", "{% if a %}", "{{ beds }}",
    "{{ beds.x }}", "file:///etc/passwd", "'", '"', "\\", "|", ">", "#", "# 2", "花", "ه", "🌱",
    "e\u0301", "\u202e", "\u200b", "\x00", '"\\u202e"', '"\\ud83c"', '"\\U00110000"', "[/]", "[red]",
    ":smile:", "x" * 300, "x " * 6000, "EUR", "ILS", "XXX", "en", "de", "tape", "eye", "a fair",
    "by measure", "3 weeks of signing", "0 days", "3660 days", "10000 h",
)  # fmt: skip
PIECES = (": ", ":", "- ", "? ", " #", "\n", "\t", "  ", "{", "}", "[", "]", ",", "&a ", "*a", "!", "%", "@",
          "---\n", "...\n", "\r\n", "\ufeff", "\u2028", "<<: ", "|-\n", ">\n", "'", '"')  # fmt: skip


def spoil_bytes(chance: random.Random, raw: bytes) -> bytes:
    """Bytes changed, put in, cut out, or the whole saved in another encoding."""
    if chance.random() < 0.05:
        return raw.decode("utf-8").encode(chance.choice(["utf-16", "utf-16-le", "utf-32", "utf-8-sig"]))
    signs = bytearray(raw)
    for _ in range(chance.randint(1, 4)):
        at = chance.randrange(len(signs) + 1)
        signs[at : at + chance.choice((0, 0, 1, 40))] = chance.randbytes(chance.randint(0, 3))
    return bytes(signs)


def spoil_lines(chance: random.Random, raw: bytes) -> bytes:
    """Lines left out, doubled, changed round, shifted, or cut short."""
    lines = raw.decode("utf-8").splitlines(keepends=True) or [""]
    for _ in range(chance.randint(1, 4)):
        at, other = chance.randrange(len(lines)), chance.randrange(len(lines))
        match chance.randrange(5):
            case 0:
                lines[at] = ""
            case 1:
                lines.insert(at, lines[other])
            case 2:
                lines[at], lines[other] = lines[other], lines[at]
            case 3:
                lines[at] = "  " + lines[at]
            case _:
                lines[at] = lines[at][: chance.randrange(len(lines[at]) + 1)] + "\n"
    return "".join(lines).encode()


def spoil_tokens(chance: random.Random, raw: bytes) -> bytes:
    """Values replaced by nasty ones, and signs of YAML put anywhere."""
    text = raw.decode("utf-8")
    for _ in range(chance.randint(1, 3)):
        if chance.random() < 0.75:
            colons = [at for at, sign in enumerate(text) if sign == ":" and text[at : at + 2] == ": "]
            at = chance.choice(colons) + 2 if colons else 0
            end = min((e for e in (text.find(s, at) for s in ",}]\n") if e >= 0), default=len(text))
            text = text[:at] + chance.choice(NASTY) + text[end:]
        else:
            at = chance.randrange(len(text) + 1)
            text = text[:at] + chance.choice(PIECES) + text[at:]
    return text.encode("utf-8", "surrogatepass")


def spoil_tree(chance: random.Random, raw: bytes) -> bytes:
    """Branches moved, copied, cut, nested in themselves or replaced, in a file that is sound YAML."""
    from scopegen.load import parse

    tree: Any = parse(raw.decode("utf-8"), "x").data
    for _ in range(chance.randint(1, 4)):
        branches = list(_branches(tree))
        try:
            if not branches or len(json.dumps(tree)) > MOST_TREE:
                break
        except RecursionError:
            break
        (parent, step), (other, from_) = chance.choice(branches), chance.choice(branches)
        copy = json.loads(json.dumps(other[from_]))
        match chance.randrange(5):
            case 0:
                parent[step] = copy
            case 1:
                del parent[step]
            case 2:
                parent[step] = chance.choice(([copy], {"x": copy}, [copy] * chance.choice((2, 30, 600))))
            case 3:
                parent[step] = chance.choice(NASTY)
            case _:
                for _ in range(chance.choice((1, 5, 45, 300))):
                    copy = [copy]
                parent[step] = copy
    try:
        return json.dumps(tree, ensure_ascii=False, indent=chance.choice((None, 1))).encode(
            "utf-8", "replace"
        )
    except RecursionError:
        return b"[" * 900


def _branches(tree: Any) -> Iterator[tuple[Any, Any]]:
    below = [tree]
    while below:
        here = below.pop()
        for step in here if isinstance(here, dict) else range(len(here)) if isinstance(here, list) else ():
            yield here, step
            if isinstance(here[step], (dict, list)):
                below.append(here[step])


def spoiled(seed: str) -> tuple[Files, str]:
    """A workspace with one spoiled file, and that file's name; the same for the same seed."""
    chance = random.Random(seed)
    jobs = sorted(path for path in EXAMPLES.glob("*.yaml") if path.name not in (CHART, COMPANY))
    files = {name: (EXAMPLES / name).read_bytes() for name in (CHART, COMPANY)}
    files[JOB] = chance.choice(jobs).read_bytes()
    name = chance.choices((JOB, CHART, COMPANY, "clause"), (55, 20, 8, 17))[0]
    if name == "clause":
        path = chance.choice(sorted(LIBRARY.glob("*/*.yaml")))
        name = f"clauses/{path.parent.name}/{path.name}"
        files[name] = path.read_bytes()
    spoil = chance.choices((spoil_bytes, spoil_lines, spoil_tokens, spoil_tree), (1, 2, 5, 4))[0]
    files[name] = spoil(chance, files[name])
    return files, name
