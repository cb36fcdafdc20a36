"""Spoils the contractor's files in every way that we can think of, and looks for what breaks.

    python -m tests.fuzz --runs 20000 --seed 1

Each run spoils one file of an example and takes it the whole way, in a process of its own with a limit on
memory and time. A traceback, a hang, or a paper that cannot be drawn although nothing stops it, is
a failure: the spoiled file is made as small as it still fails, and saved with its seed.
"""

from __future__ import annotations

import argparse
import json
import multiprocessing
import random
import resource
import shutil
import signal
import sys
import tempfile
import traceback
import unicodedata
from collections.abc import Callable, Iterator
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "example_scopes"
LIBRARY = ROOT / "clause_library"
JOB, CHART, COMPANY = "job.yaml", "prices-2027.yaml", "company.yaml"
MOST_SECONDS, MOST_BYTES, MOST_TREE = 10, 2_000_000_000, 100_000
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


class Mismatch(Exception):
    """Nothing stops the agreement, and yet it cannot be drawn."""


def take_through(files: Files, folder: Path, share: float = 0.0) -> str:
    """The whole way of one workspace: what came of it. `share` from 0 to 1: the larger, the more is drawn."""
    from scopegen.build import open_case
    from scopegen.check import check
    from scopegen.load import Unreadable
    from scopegen.papers.agreement import compose
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.render.faces import refuse_undrawable
    from scopegen.render.refusals import UndrawableText
    from scopegen.report.as_json import check_json
    from scopegen.report.as_text import check_text
    from scopegen.words import lexicon

    for name, raw in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(raw)
    try:
        case = open_case(folder / JOB)
    except Unreadable as refused:
        _look_at(refused.finding.as_text())
        return "unreadable"
    checked = check(case)
    _look_at(check_text(checked))
    json.dumps(check_json(checked)).encode()
    try:
        words = lexicon(case.job.language)
        frame = frame_of(case, words, draft=checked.stops)
    except (NotWorkedOut, KeyError):
        if not checked.stops:
            raise Mismatch("nothing stops it, but it was not worked out") from None
        return "stopped"
    document = compose(frame)
    try:
        refuse_undrawable(document)
    except UndrawableText as error:
        if not checked.stops:
            raise Mismatch(str(error)) from None
        return "stopped"
    _report(frame, share)
    _draw(document, share)
    return "draft" if checked.stops else "written"


def _report(frame: Any, share: float) -> None:
    """What `price` prints."""
    from io import StringIO

    from rich.console import Console

    from scopegen.report.as_json import price_json
    from scopegen.report.as_text import price_text
    from scopegen.report.by_bed import by_bed_json, by_bed_text
    from scopegen.report.worked import working_text

    if share > 0.95:
        console = Console(file=StringIO(), markup=False, emoji=False)
        for text in (price_text(frame), by_bed_text(frame), working_text(frame)):
            console.print(text)
        json.dumps([price_json(frame), by_bed_json(frame)])


def _draw(document: Any, share: float) -> None:
    from scopegen.render import to_html, to_pdf

    if share > 0.992:
        to_html(document)
    if share > 0.996:
        to_pdf(document)


def _look_at(text: str) -> None:
    """What a terminal shows holds no sign that a terminal obeys, and can be printed."""
    odd = [sign for sign in text if unicodedata.category(sign)[0] == "C" and sign != "\n"]
    assert not odd, f"a finding prints {odd[0]!r}"
    text.encode()


def run(seed: str, files: Files | None = None) -> tuple[str, str]:
    """One run: (what came of it, the traceback or nothing)."""

    def too_long(*_: object) -> None:
        raise TimeoutError(f"more than {MOST_SECONDS} seconds")

    made = files or spoiled(seed)[0]
    signal.signal(signal.SIGPROF, too_long)
    signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)  # of its own time, whatever else the machine does
    folder = Path(tempfile.mkdtemp(prefix="fuzz-"))
    try:
        return take_through(made, folder, random.Random(seed + " share").random()), ""
    except Exception:
        return "failed", traceback.format_exc()
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        shutil.rmtree(folder, ignore_errors=True)


def where(said: str) -> str:
    """A failure's kind: its last line's first word and the line of ours that it came from."""
    ours = [line.strip() for line in said.splitlines() if "/scopegen/" in line]
    return f"{said.strip().splitlines()[-1].split(':')[0]} at {ours[-1] if ours else ''}"


def smaller(files: Files, name: str, fails: Callable[[Files], bool]) -> Files:
    """The files with as little as possible of the spoiled one, by halves, then line by line."""
    lines = files[name].splitlines(keepends=True)
    size = len(lines) // 2
    while size:
        at = 0
        while at < len(lines):
            fewer = [*lines[:at], *lines[at + size :]]
            if fails({**files, name: b"".join(fewer)}):
                lines = fewer
            else:
                at += size
        size //= 2
    return {**files, name: b"".join(lines)}


def _read_the_library_once() -> None:
    """Files that ship do not change between runs."""
    from scopegen.clauses import library

    read, known = library._read, dict[Path, Any]()

    def once(path: Path, *names: str) -> Any:
        if not path.is_relative_to(LIBRARY):
            return read(path, *names)
        if path not in known:
            known[path] = read(path, *names)
        return known[path]

    library._read = once  # type: ignore[assignment]


def work(pipe: Connection) -> None:
    """A worker: seeds in, outcomes out."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    _read_the_library_once()
    while (asked := pipe.recv()) is not None:
        pipe.send(run(*asked))


class Worker:
    """A process that does the runs; killed and begun anew where it no longer answers."""

    def __init__(self) -> None:
        self.start()

    def start(self) -> None:
        self.pipe, theirs = multiprocessing.Pipe()
        self.process = multiprocessing.Process(target=work, args=(theirs,), daemon=True)
        self.process.start()
        theirs.close()

    def run(self, seed: str, files: Files | None = None) -> tuple[str, str]:
        try:
            self.pipe.send((seed, files))
            if self.pipe.poll(12 * MOST_SECONDS):
                return self.pipe.recv()
            said = "Hang: no answer"
        except (EOFError, OSError):
            said = "Died: the process ended"
        self.process.kill()
        self.process.join()
        self.start()
        return "failed", said

    def end(self) -> None:
        self.pipe.send(None)
        self.process.join(5)


def fuzz(
    runs: int, seed: int, keep: Path | None = None, first: int = 0
) -> tuple[dict[str, int], dict[str, str]]:
    """Does the runs; how many ended how, and of each kind of failure the first seed with its traceback."""
    worker, ended, failures = Worker(), dict[str, int](), dict[str, str]()
    for number in range(first, first + runs):
        name = f"{seed}:{number}"
        came, said = worker.run(name)
        ended[came] = ended.get(came, 0) + 1
        if came == "failed" and where(said) not in failures:
            failures[where(said)] = f"{name}\n{said}"
            print(f"{name}: {where(said)}", file=sys.stderr, flush=True)
            if keep:
                _keep(keep, worker, name, said)
        if number % 1000 == 999:
            print(number + 1, ended, file=sys.stderr, flush=True)
    worker.end()
    return ended, failures


def _keep(folder: Path, worker: Worker, seed: str, said: str) -> None:
    """Saves the smallest files that fail alike, and the traceback."""
    files, name = spoiled(seed)
    kind = where(said)
    if not kind.startswith(("Hang", "Died", "TimeoutError")):
        files = smaller(files, name, lambda fewer: where(worker.run(seed, fewer)[1] or "-") == kind)
    for each, raw in files.items():
        path = folder / seed.replace(":", "-") / each
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)
    (folder / seed.replace(":", "-") / "failure.txt").write_text(f"{seed} {name}\n{said}", encoding="utf-8")


def main() -> None:
    ask = argparse.ArgumentParser(prog="python -m tests.fuzz", description=__doc__.splitlines()[0])
    ask.add_argument("--runs", type=int, default=20_000)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--first", type=int, default=0, help="the number of the first run")
    ask.add_argument("--keep", type=Path, default=Path(tempfile.gettempdir()) / "scopegen-fuzz")
    asked = ask.parse_args()
    ended, failures = fuzz(asked.runs, asked.seed, asked.keep, asked.first)
    print(ended)
    for said in failures.values():
        print(f"\n{said}")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
