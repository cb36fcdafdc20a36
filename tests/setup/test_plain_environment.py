"""The program in its own environment, where no package of the tests is installed."""

import os
import subprocess
from pathlib import Path

import pytest

import scopegen
from scopegen.setup.command import JOB, PLAIN_ENVIRONMENT
from scopegen.setup.environments import CHECKOUT


@pytest.fixture
def plain():
    """The `bin` folder of the program's own environment."""
    named = os.environ.get(PLAIN_ENVIRONMENT)
    if not named:
        pytest.fail(
            f"{PLAIN_ENVIRONMENT} names no environment: run `python3 -m scopegen.setup test`, "
            "or set it to the .venv that `python3 -m scopegen.setup example` makes"
        )
    return Path(named) / "bin"


def run(command, folder):
    environment = {name: value for name, value in os.environ.items() if not name.startswith("PYTHON")}
    return subprocess.run(command, cwd=folder, env=environment, capture_output=True, text=True, timeout=120)


@pytest.mark.parametrize("package", ["pytest", "hypothesis", "pint", "pikepdf", "outloud"])
def test_no_package_of_the_tests_is_there(plain, package, tmp_path):
    ended = run([plain / "python", "-c", f"import {package}"], tmp_path)
    assert ended.returncode == 1
    assert f"No module named '{package}'" in ended.stderr


def test_the_program_says_its_version(plain, tmp_path):
    ended = run([plain / "scopegen", "--version"], tmp_path)
    assert (ended.returncode, ended.stderr) == (0, "")
    assert scopegen.__version__ in ended.stdout


def test_the_program_checks_the_example_job(plain, tmp_path):
    ended = run([plain / "scopegen", "check", str(CHECKOUT / JOB)], tmp_path)
    assert ended.returncode == 0, ended.stdout + ended.stderr


def test_the_program_reads_the_clause_library_of_the_checkout(plain, tmp_path):
    """An editable install leaves a copy of it among the installed packages, which must not be read."""
    code = "from scopegen.library_folder import library_folder; print(library_folder())"
    ended = run([plain / "python", "-c", code], tmp_path)
    assert (ended.stdout, ended.stderr) == (f"{CHECKOUT / 'clause_library'}\n", "")
