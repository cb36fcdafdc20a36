"""The rooms stand in one order, and each imports only from those above it."""

from __future__ import annotations

import ast
from pathlib import Path

PACKAGE = Path(__file__).parents[1] / "scopegen"
# From top to bottom, as DEVELOPERS.md lists them.
ROOMS = (
    "findings", "plain_language", "quantities", "load", "plain_words", "amend", "printed", "photos", "shapes",
    "job", "chart", "company", "understand", "answers", "measure", "spoil", "hauling", "labor", "price",
    "words", "one_language", "clauses", "law", "case", "comparing", "rules", "check", "working", "drawing",
    "papers", "render", "library_folder", "workspace", "kept", "build", "proofs", "stock", "season", "manual",
    "schema", "starter", "report", "record", "reopen", "additions", "standing", "cli",
)  # fmt: skip
APART = ("setup", "__main__")  # run before the program is installed, and as the program


def room_of(path: Path) -> str:
    inside = path.relative_to(PACKAGE).parts
    return inside[0].removesuffix(".py")


def imported(path: Path) -> set[str]:
    """The rooms that a module imports from, inside functions too."""
    found = set()
    inside = ["scopegen", *path.relative_to(PACKAGE).with_suffix("").parts]
    package = inside[:-1]
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        names = []
        if isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom) and node.level:
            names = [".".join([*package[: len(package) - node.level + 1], node.module or ""])]
        elif isinstance(node, ast.ImportFrom):
            module = node.module or ""
            names = [f"{module}.{alias.name}" for alias in node.names] if module == "scopegen" else [module]
        for name in names:
            parts = name.split(".")
            if parts[0] == "scopegen" and len(parts) > 1:
                found.add(parts[1])
    return found - {"__version__"}


def modules() -> list[Path]:
    return [path for path in sorted(PACKAGE.rglob("*.py")) if path != PACKAGE / "__init__.py"]


def test_every_room_is_in_the_order() -> None:
    """No module stands outside the order, and no room of the order is empty."""
    seen = {room_of(path) for path in modules()}
    assert len(modules()) > 60
    assert seen == {*ROOMS, *APART}


def test_rooms_import_only_from_above() -> None:
    """A module imports from its own room and from rooms above it."""
    wrong = []
    for path in modules():
        room = room_of(path)
        if room in APART:
            continue
        above = set(ROOMS[: ROOMS.index(room) + 1])
        wrong += [f"{path.relative_to(PACKAGE)} imports {other}" for other in sorted(imported(path) - above)]
    assert wrong == []


def test_set_up_imports_nothing_of_the_program() -> None:
    """The set-up runs before any package is installed."""
    assert {other for path in modules() if room_of(path) == "setup" for other in imported(path)} <= {"setup"}


def test_package_imports_nothing() -> None:
    """`import scopegen` loads nothing else."""
    tree = ast.parse((PACKAGE / "__init__.py").read_text(encoding="utf-8"))
    assert not [node for node in ast.walk(tree) if isinstance(node, (ast.Import, ast.ImportFrom))]


def test_domain_asks_no_clock_and_opens_no_file() -> None:
    """Between reading and rendering nothing asks for the time, the environment or a file."""
    doors = {
        "load",
        "photos",
        "words",
        "law",
        "clauses",
        "render",
        "library_folder",
        "workspace",
        "build",
        "schema",
        "starter",
        "plain_words",
        "proofs",
        "stock",
        "report",
        "reopen",
        "cli",
    }
    forbidden = {"os", "time", "socket", "subprocess", "random"}
    seen = 0
    for path in modules():
        if room_of(path) in {*doors, *APART}:
            continue
        seen += 1
        text = path.read_text(encoding="utf-8")
        calls = [node.func for node in ast.walk(ast.parse(text)) if isinstance(node, ast.Call)]
        assert "open" not in {call.id for call in calls if isinstance(call, ast.Name)}, path
        assert not {"today", "now", "read_text", "write_text"} & {
            call.attr for call in calls if isinstance(call, ast.Attribute)
        }, path
        imports = {
            alias.name
            for node in ast.walk(ast.parse(text))
            if isinstance(node, ast.Import)
            for alias in node.names
        }
        assert not imports & forbidden, path
    assert seen > 30
