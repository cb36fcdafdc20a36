"""Carries the set-up out: the steps for this machine, then the example or the tests."""

import os
import subprocess
import sys
from pathlib import Path

from scopegen.setup import environments, machine, steps
from scopegen.setup.environments import CHECKOUT, Environment
from scopegen.setup.steps import SetupStopped, Step

USAGE = """\
usage: python3 -m scopegen.setup example
       python3 -m scopegen.setup test [pytest's own arguments]

example  installs what scopegen needs into .venv/ and writes an agreement from example_scopes/
test     does so too, then runs the tests from an environment of their own, .venv-test/

System libraries that are missing are installed with apt-get on Debian and Ubuntu, with Homebrew on macOS."""

JOB = Path("example_scopes") / "heron-bend.yaml"
PAPER = Path("example_scopes") / "paper" / "heron-bend.pdf"
# tells the tests where the program is installed without their packages
PLAIN_ENVIRONMENT = "SCOPEGEN_PLAIN_ENV"


def main(words: list[str]) -> int:
    """Runs the command that `words` name and returns its exit code: 1 where set-up failed, 2 for usage."""
    try:
        if words == ["example"]:
            return write_example()
        if words[:1] == ["test"]:
            return run_tests(words[1:])
    except SetupStopped as stopped:
        print(stopped, file=sys.stderr)
        return 1
    except OSError as error:
        print(f"{error.filename or CHECKOUT}: {error.strerror}; the set-up cannot go on.", file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped; the same command takes it up again.", file=sys.stderr)
        return 130
    print(USAGE, file=sys.stderr)
    return 2


def write_example() -> int:
    program = environments.program_environment(CHECKOUT)
    prepare(program)
    (CHECKOUT / PAPER).parent.mkdir(exist_ok=True)
    scopegen = str(program.folder / "bin" / "scopegen")
    carry_out(
        Step(
            f"Writing the agreement of {JOB}.",
            (scopegen, "write", "agreement", str(JOB), "-o", str(PAPER)),
            f"scopegen wrote no agreement from {JOB}: see its message above.",
        )
    )
    say(f"The agreement is at {CHECKOUT / PAPER}")
    return 0


def run_tests(arguments: list[str]) -> int:
    program = environments.program_environment(CHECKOUT)
    tests = environments.testing_environment(CHECKOUT)
    prepare(program, tests)
    python = str(tests.folder / "bin" / "python")
    command = (python, "-m", "pytest", "-n", "auto", "--dist", "worksteal", *arguments)
    say("Running the tests.")
    # the tests start the program some hundred times: it is compiled once and kept, whatever the caller says
    return run(command, {PLAIN_ENVIRONMENT: str(program.folder), "PYTHONDONTWRITEBYTECODE": ""})


def prepare(*wanted: Environment) -> None:
    """Brings the machine's libraries and the environments, whatever of them is not there yet."""
    if not (CHECKOUT / "pyproject.toml").is_file():
        raise SetupStopped(f"{CHECKOUT} is no checkout of scopegen: run this in the folder of a clone.")
    if not os.access(CHECKOUT, os.W_OK):
        raise SetupStopped(f"{CHECKOUT} cannot be written to: clone scopegen into a folder of your own.")
    bring_what_the_system_lacks()
    for environment in wanted:
        bring_environment(environment)


def bring_what_the_system_lacks() -> None:
    for step in steps.steps_for_system(machine.look()):
        carry_out(step)
    now = machine.look()
    still_missing = now.missing_modules + now.missing_libraries
    if still_missing:
        raise SetupStopped(
            f"{sys.executable} cannot load {', '.join(still_missing)} though it was installed: "
            "run the same command with the Python that the system's package manager brings."
        )
    for name, value in machine.variables_for_libraries().items():
        if os.environ.get(name) is None:
            say(f"Set for this command, and to be set in your shell before running scopegen: {name}={value}")


def bring_environment(environment: Environment) -> None:
    # the Python behind an environment that the user may stand in, since that environment may be made anew
    python = getattr(sys, "_base_executable", sys.executable)
    wanted = environments.digest(environment, CHECKOUT, python)
    if environments.is_ready(environment, wanted):
        return
    for step in steps.steps_for_environment(environment.folder, environment.locks, CHECKOUT, python):
        carry_out(step)
    environments.mark_ready(environment, wanted)


def carry_out(step: Step) -> None:
    """Says what the step does, does it, and raises SetupStopped where it fails."""
    say(step.says)
    if run(step.command) and not step.may_fail:
        raise SetupStopped(step.if_it_fails)


def run(command: tuple[str, ...], variables: dict[str, str] | None = None) -> int:
    """The exit code of `command`, run in the checkout with nothing to read from."""
    environment = {**machine.variables_for_libraries(), **os.environ, **(variables or {})}
    try:
        return subprocess.run(command, cwd=CHECKOUT, env=environment, stdin=subprocess.DEVNULL).returncode
    except FileNotFoundError as error:
        raise SetupStopped(f"{command[0]} is not here, and the set-up needs it.") from error


def say(sentence: str) -> None:
    print(sentence, flush=True)
