"""The set-up command as it is typed: what it prints and how it ends."""

import ast
import os
import shutil
import subprocess
import sys
import tomllib

import pytest

from scopegen.setup import machine
from scopegen.setup.__main__ import too_old
from scopegen.setup.environments import CHECKOUT

# what a fresh clone's set-up reads before anything is installed
FILES = ("requirements.lock", "tests/requirements.lock", "pyproject.toml", "scopegen/__init__.py")
OFFLINE = {"PIP_NO_INDEX": "1", "PIP_FIND_LINKS": "", "PIP_CONFIG_FILE": os.devnull}


@pytest.fixture
def clone(tmp_path):
    """The set-up and what it reads, in a folder whose name has a space."""
    folder = tmp_path / "a clone"
    shutil.copytree(CHECKOUT / "scopegen" / "setup", folder / "scopegen" / "setup")
    for name in FILES:
        (folder / name).parent.mkdir(exist_ok=True)
        shutil.copy(CHECKOUT / name, folder / name)
    return folder


def set_up(folder, *words, **variables):
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    python = getattr(sys, "_base_executable", sys.executable)
    return subprocess.run(
        [python, "-m", "scopegen.setup", *words],
        cwd=folder,
        env=environment | variables,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        timeout=120,
    )


@pytest.mark.parametrize("words", [(), ("tests",), ("example", "again"), ("--help",)])
def test_no_word_or_an_unknown_one_prints_the_usage(clone, words):
    ended = set_up(clone, *words)
    assert ended.returncode == 2
    assert ended.stderr.startswith("usage: python3 -m scopegen.setup example\n")
    assert not (clone / ".venv").exists()


def test_packages_that_cannot_be_fetched_end_in_one_sentence_and_are_tried_again(clone):
    for _ in range(2):
        ended = set_up(clone, "example", **OFFLINE)
        assert ended.returncode == 1
        assert ended.stderr.splitlines()[-1] == (
            "The packages of requirements.lock could not be installed: "
            "check the network, then run the same command again."
        )
        assert "Traceback" not in ended.stderr
        assert "Installing into .venv/ the packages that requirements.lock pins." in ended.stdout


def test_an_environment_that_cannot_be_made_ends_in_one_sentence(clone):
    (clone / ".venv").write_text("in the way")
    ended = set_up(clone, "example")
    assert ended.returncode == 1
    assert ended.stderr.splitlines()[-1].startswith(f"The environment {clone / '.venv'} could not be made")
    assert "Traceback" not in ended.stderr


def test_a_checkout_with_a_file_missing_ends_in_one_sentence(clone):
    (clone / "requirements.lock").unlink()
    ended = set_up(clone, "example")
    assert ended.returncode == 1
    assert ended.stderr == (
        f"{clone / 'requirements.lock'}: No such file or directory; the set-up cannot go on.\n"
    )


def test_a_cut_down_python_ends_in_one_sentence(clone):
    (clone / "platform.py").write_text("raise ModuleNotFoundError(name=__name__)")
    ended = set_up(clone, "example")
    assert (ended.returncode, ended.stderr) == (
        1,
        "This Python lacks a part of its own standard library (platform): install the whole Python, "
        "for example with `apt-get install python3`, then run the same command again.\n",
    )


def test_without_packaging_files_it_is_no_checkout(clone):
    (clone / "pyproject.toml").unlink()
    ended = set_up(clone, "test")
    assert (ended.returncode, ended.stderr) == (
        1,
        f"{clone} is no checkout of scopegen: run this in the folder of a clone.\n",
    )


def test_the_oldest_python_that_is_let_in_is_the_one_the_package_states():
    """`requires-python` of pyproject.toml against the set-up's own check."""
    stated = tomllib.loads((CHECKOUT / "pyproject.toml").read_text())["project"]["requires-python"]
    oldest = tuple(int(part) for part in stated.removeprefix(">=").split("."))
    assert too_old(oldest) is None
    assert too_old((oldest[0], oldest[1] - 1, 18)) == (
        "scopegen needs Python 3.11 or later and this is 3.10: "
        "run the same command with a newer one, for example python3.11."
    )


@pytest.mark.parametrize("name", ["__init__.py", "setup/__init__.py", "setup/__main__.py"])
def test_an_old_python_can_read_the_files_that_turn_it_away(name):
    tree = ast.parse((CHECKOUT / "scopegen" / name).read_text(), feature_version=(3, 4))
    assert not any(isinstance(node, ast.JoinedStr) for node in ast.walk(tree))
    plain = (ast.Import, ast.FunctionDef, ast.Assign, ast.Expr, ast.If)
    assert all(isinstance(node, plain) for node in tree.body)
    imported = {alias.name for node in tree.body if isinstance(node, ast.Import) for alias in node.names}
    assert imported <= {"sys"}


def test_the_setup_imports_the_standard_library_only():
    files = sorted((CHECKOUT / "scopegen" / "setup").glob("*.py"))
    assert len(files) >= 5
    for file in files:
        for node in ast.walk(ast.parse(file.read_text())):
            names = [alias.name for alias in node.names] if isinstance(node, ast.Import) else []
            names += [node.module] if isinstance(node, ast.ImportFrom) else []
            for name in names:
                ours = name == "scopegen.setup" or name.startswith("scopegen.setup.")
                assert ours or name.split(".")[0] in sys.stdlib_module_names, (file.name, name)


def test_this_machine_is_seen_as_it_is():
    """These tests run after the set-up, so nothing can be missing any more; a made-up library is."""
    seen = machine.look()
    assert seen.python == sys.version_info[:2]
    assert (seen.missing_modules, seen.missing_libraries) == ((), ())
    assert not machine.loads("libno-such-library.so.0")
