"""What has to be done on which machine, worked out without touching it."""

from dataclasses import dataclass
from pathlib import Path

DEBIAN_LIBRARIES = ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0")
HOMEBREW_LIBRARIES = ("pango",)


class SetupStopped(Exception):
    """The set-up cannot go on; the text is the one sentence that says why and what to do."""


@dataclass(frozen=True)
class Step:
    """One command, what is said before it runs, and what is said if it fails."""

    says: str
    command: tuple[str, ...]
    if_it_fails: str
    may_fail: bool = False


@dataclass(frozen=True)
class Machine:
    """What the set-up needs to know of a machine."""

    system: str  # debian (Ubuntu and the like too), macos, windows, other
    python: tuple[int, int]
    distribution_python: bool  # a Python that the system's package manager brought
    missing_modules: tuple[str, ...]  # of those that making an environment takes
    missing_libraries: tuple[str, ...]  # of those that WeasyPrint loads
    root: bool
    sudo: bool
    homebrew: bool


def steps_for_system(machine: Machine) -> tuple[Step, ...]:
    """Brings what the system lacks: Python's own venv, and the libraries that WeasyPrint loads.

    Raises SetupStopped where that is for the user to do.
    """
    if machine.system == "windows":
        raise SetupStopped(
            "This set-up runs on Linux and macOS; on Windows run `wsl --install -d Debian` once, "
            "then the same command in a checkout inside Debian."
        )
    if machine.missing_modules and not (machine.system == "debian" and machine.distribution_python):
        raise SetupStopped(
            f"This Python lacks its own {' and '.join(machine.missing_modules)}: install the rest of its "
            "standard library the way this Python came here, or run the same command with another Python."
        )
    if machine.system == "debian":
        venv = (f"python{machine.python[0]}.{machine.python[1]}-venv",) if machine.missing_modules else ()
        return apt_get(machine, *venv, *(DEBIAN_LIBRARIES if machine.missing_libraries else ()))
    if not machine.missing_libraries:
        return ()
    if machine.system == "macos" and machine.homebrew:
        return homebrew(*HOMEBREW_LIBRARIES)
    raise SetupStopped(how_to_bring_libraries(machine))


def how_to_bring_libraries(machine: Machine) -> str:
    missing = ", ".join(machine.missing_libraries)
    if machine.system == "macos":
        return (
            f"WeasyPrint needs {missing} and Homebrew is not here to bring it: "
            "install Homebrew, then run the same command again."
        )
    return (
        f"WeasyPrint needs {missing}: install Pango (1.44 or later, with PangoFT2) and HarfBuzz (with its "
        "subset library) with this system's package manager, for example `dnf install pango harfbuzz`, "
        "`pacman -S pango harfbuzz` or `apk add pango harfbuzz-subset`, then run the same command again."
    )


def apt_get(machine: Machine, *packages: str) -> tuple[Step, ...]:
    """Fetches the package lists and installs `packages`, if any, asking nothing."""
    if not packages:
        return ()
    names = " ".join(packages)
    if not (machine.root or machine.sudo):
        raise SetupStopped(
            f"Debian packages are missing and sudo is not here: have an administrator run "
            f"`apt-get install --no-install-recommends {names}`, then run the same command again."
        )
    # through env, since sudo drops the variables of its caller
    start = () if machine.root else ("sudo",)
    start += ("env", "DEBIAN_FRONTEND=noninteractive", "apt-get", "--quiet", "-o", "DPkg::Lock::Timeout=120")
    failed = (
        f"apt-get could not install {names}: check the network and that you may install packages, "
        "then run the same command again."
    )
    return (
        # a list that cannot be fetched need not stop the install, which has the last word
        Step("Fetching Debian's package lists.", (*start, "update"), failed, may_fail=True),
        Step(
            f"Installing with apt-get: {names}.",
            (*start, "install", "--yes", "--no-install-recommends", *packages),
            failed,
        ),
    )


def homebrew(*packages: str) -> tuple[Step, ...]:
    names = " ".join(packages)
    failed = f"Homebrew could not install {names}: see its message above, then run the same command again."
    return (Step(f"Installing with Homebrew: {names}.", ("brew", "install", *packages), failed),)


def steps_for_environment(
    folder: Path, locks: tuple[Path, ...], checkout: Path, python: str
) -> tuple[Step, ...]:
    """Makes the environment `folder` anew with what `locks` pin and the checkout itself."""
    python_there = str(folder / "bin" / "python")
    pip = (python_there, "-m", "pip", "--disable-pip-version-check", "-qq", "install")
    named = " and ".join(str(lock.relative_to(checkout)) for lock in locks)
    required = tuple(word for lock in locks for word in ("--requirement", str(lock)))
    return (
        Step(
            f"Making {folder.name}/ in the checkout.",
            (python, "-m", "venv", "--clear", str(folder)),
            f"The environment {folder} could not be made: see the message above.",
        ),
        Step(
            f"Installing into {folder.name}/ the packages that {named} pin{'s' if len(locks) == 1 else ''}.",
            (*pip, "--require-hashes", *required),
            f"The packages of {named} could not be installed: "
            "check the network, then run the same command again.",
        ),
        Step(
            f"Installing scopegen itself into {folder.name}/, as it stands in the checkout.",
            (*pip, "--no-deps", "--no-build-isolation", "--editable", str(checkout)),
            f"scopegen could not be installed into {folder.name}/: see the message above.",
        ),
    )
