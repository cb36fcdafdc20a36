"""Which commands the set-up would run on which machine."""

from dataclasses import replace
from pathlib import Path

import pytest

from scopegen.setup.steps import (
    Machine,
    SetupStopped,
    steps_for_environment,
    steps_for_system,
)

ALL_LIBRARIES = ("Pango", "PangoFT2", "HarfBuzz-Subset")
BARE_DEBIAN = Machine(
    system="debian",
    python=(3, 11),
    distribution_python=True,
    missing_modules=("ensurepip",),
    missing_libraries=ALL_LIBRARIES,
    root=True,
    sudo=False,
    homebrew=False,
)
BARE_MAC = replace(
    BARE_DEBIAN, system="macos", distribution_python=False, missing_modules=(), root=False, homebrew=True
)
BARE_FEDORA = replace(BARE_DEBIAN, system="other", missing_modules=())


def commands(machine):
    return [" ".join(step.command) for step in steps_for_system(machine)]


def stopped(machine):
    with pytest.raises(SetupStopped) as caught:
        steps_for_system(machine)
    sentence = str(caught.value)
    assert sentence.endswith(".") and "\n" not in sentence
    return sentence


@pytest.mark.parametrize("machine", [BARE_DEBIAN, BARE_MAC, BARE_FEDORA])
def test_a_complete_machine_needs_nothing(machine):
    assert steps_for_system(replace(machine, missing_modules=(), missing_libraries=(), root=False)) == ()


def test_bare_debian_gets_the_venv_package_and_three_libraries_at_once():
    """The libraries are those that WeasyPrint's manual names for Debian 11 and later (First Steps, Linux)."""
    update, install = commands(BARE_DEBIAN)
    assert update.startswith("env DEBIAN_FRONTEND=noninteractive apt-get ") and update.endswith(" update")
    assert install.startswith("env DEBIAN_FRONTEND=noninteractive apt-get ")
    assert install.endswith(
        " install --yes --no-install-recommends "
        "python3.11-venv libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"
    )


def test_the_venv_package_is_that_of_the_running_python():
    machine = replace(BARE_DEBIAN, python=(3, 13), missing_libraries=())
    assert commands(machine)[-1].endswith(" --no-install-recommends python3.13-venv")


def test_one_missing_library_is_enough_to_install():
    machine = replace(BARE_DEBIAN, missing_modules=(), missing_libraries=("HarfBuzz-Subset",))
    assert commands(machine)[-1].endswith(" libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0")


def test_a_user_who_is_not_root_goes_through_sudo():
    start = "sudo env DEBIAN_FRONTEND=noninteractive apt-get "
    machine = replace(BARE_DEBIAN, root=False, sudo=True)
    assert [command.startswith(start) for command in commands(machine)] == [True, True]


def test_without_root_and_sudo_the_sentence_names_everything_to_install():
    sentence = stopped(replace(BARE_DEBIAN, root=False))
    assert "sudo is not here" in sentence
    assert "python3.11-venv libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0" in sentence


def test_lists_that_cannot_be_fetched_do_not_stop_but_a_failed_install_does():
    update, install = steps_for_system(BARE_DEBIAN)
    assert update.may_fail and not install.may_fail
    assert "check the network" in install.if_it_fails


@pytest.mark.parametrize("machine", [BARE_DEBIAN, BARE_MAC])
def test_an_install_says_what_it_installs_before_it_does(machine):
    install = steps_for_system(machine)[-1]
    words = install.command[install.command.index("install") + 1 :]
    packages = [word for word in words if not word.startswith("--")]
    assert packages and all(package in install.says for package in packages)


@pytest.mark.parametrize("machine", [replace(BARE_DEBIAN, distribution_python=False), BARE_FEDORA])
def test_a_python_that_apt_did_not_bring_is_not_mended_with_apt(machine):
    sentence = stopped(replace(machine, missing_modules=("venv", "ensurepip")))
    assert sentence.startswith("This Python lacks its own venv and ensurepip: ")


def test_a_mac_gets_pango_from_homebrew():
    assert commands(BARE_MAC) == ["brew install pango"]


def test_a_mac_without_homebrew_is_told_so():
    assert "install Homebrew" in stopped(replace(BARE_MAC, homebrew=False))


def test_another_system_is_told_what_is_missing():
    sentence = stopped(replace(BARE_FEDORA, missing_libraries=("HarfBuzz-Subset",)))
    assert sentence.startswith("WeasyPrint needs HarfBuzz-Subset: install ")


def test_windows_is_told_what_to_do():
    complete = replace(BARE_DEBIAN, system="windows", missing_modules=(), missing_libraries=())
    assert "wsl --install -d Debian" in stopped(complete)


def test_an_environment_is_made_from_the_hashed_locks_then_the_checkout():
    checkout = Path("/home/a crew/scopegen")
    locks = (checkout / "requirements.lock", checkout / "tests" / "requirements.lock")
    folder = checkout / ".venv-test"
    make, packages, itself = steps_for_environment(folder, locks, checkout, "/usr/bin/python3")
    assert make.command == ("/usr/bin/python3", "-m", "venv", "--clear", "/home/a crew/scopegen/.venv-test")
    assert packages.command[-5:] == (
        "--require-hashes",
        "--requirement",
        "/home/a crew/scopegen/requirements.lock",
        "--requirement",
        "/home/a crew/scopegen/tests/requirements.lock",
    )
    assert "requirements.lock and tests/requirements.lock pin" in packages.says
    assert itself.command[-4:] == ("--no-deps", "--no-build-isolation", "--editable", "/home/a crew/scopegen")
    assert {packages.command[0], itself.command[0]} == {"/home/a crew/scopegen/.venv-test/bin/python"}
