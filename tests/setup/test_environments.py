"""When an environment counts as ready, and when it is made anew."""

import shutil
import sys

import pytest

from scopegen.setup import environments
from scopegen.setup.environments import CHECKOUT

FILES = ("requirements.lock", "tests/requirements.lock", "pyproject.toml", "scopegen/__init__.py")


@pytest.fixture
def checkout(tmp_path):
    for name in FILES:
        (tmp_path / name).parent.mkdir(exist_ok=True)
        shutil.copy(CHECKOUT / name, tmp_path / name)
    return tmp_path


def finished(environment, wanted):
    """The folder as a finished set-up leaves it, with this Python standing in for the one there."""
    (environment.folder / "bin").mkdir(parents=True)
    (environment.folder / "bin" / "python").symlink_to(sys.executable)
    environments.mark_ready(environment, wanted)


def test_a_finished_environment_is_ready_and_an_unfinished_one_is_not(checkout):
    program = environments.program_environment(checkout)
    wanted = environments.digest(program, checkout, "python3")
    assert not environments.is_ready(program, wanted)
    finished(program, wanted)
    assert environments.is_ready(program, environments.digest(program, checkout, "python3"))


@pytest.mark.parametrize("name", FILES)
def test_a_changed_file_makes_it_anew(checkout, name):
    tests = environments.testing_environment(checkout)
    finished(tests, environments.digest(tests, checkout, "python3"))
    with (checkout / name).open("a") as file:
        file.write("# one line more\n")
    assert not environments.is_ready(tests, environments.digest(tests, checkout, "python3"))


def test_the_tests_lock_leaves_the_programs_environment_alone(checkout):
    program = environments.program_environment(checkout)
    before = environments.digest(program, checkout, "python3")
    (checkout / "tests" / "requirements.lock").write_text("")
    assert environments.digest(program, checkout, "python3") == before


def test_another_python_makes_it_anew(checkout):
    program = environments.program_environment(checkout)
    finished(program, environments.digest(program, checkout, "python3.11"))
    assert not environments.is_ready(program, environments.digest(program, checkout, "python3.12"))


def test_an_environment_whose_python_is_gone_is_made_anew(checkout):
    program = environments.program_environment(checkout)
    wanted = environments.digest(program, checkout, "python3")
    finished(program, wanted)
    (program.folder / "bin" / "python").unlink()
    (program.folder / "bin" / "python").symlink_to(checkout / "gone")
    assert not environments.is_ready(program, wanted)


def test_a_checkout_that_was_moved_makes_it_anew(checkout, tmp_path_factory):
    program = environments.program_environment(checkout)
    wanted = environments.digest(program, checkout, "python3")
    finished(program, wanted)
    moved = tmp_path_factory.mktemp("moved") / "checkout"
    checkout.rename(moved)
    program = environments.program_environment(moved)
    assert not environments.is_ready(program, environments.digest(program, moved, "python3"))
