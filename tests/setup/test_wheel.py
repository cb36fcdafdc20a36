"""What is shipped, and where the clause library is found in what is shipped."""

import shutil
import subprocess
import sys
import zipfile

import pytest

from scopegen.library_folder import library_folder
from scopegen.setup.environments import CHECKOUT


def build_wheel(source, into):
    command = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--no-index"]
    subprocess.run([*command, "--quiet", "--wheel-dir", into, source], check=True, timeout=120)
    (wheel,) = into.glob("scopegen-*.whl")
    return zipfile.ZipFile(wheel).namelist()


@pytest.fixture(scope="module")
def shipped(tmp_path_factory):
    """The names inside the wheel that the checkout gives."""
    return build_wheel(CHECKOUT, tmp_path_factory.mktemp("wheel"))


def library_files(folder):
    return {file.relative_to(folder).as_posix() for file in folder.rglob("*.yaml")}


def test_the_wheel_holds_the_whole_clause_library(shipped):
    wanted = {f"scopegen/clause_library/{name}" for name in library_files(CHECKOUT / "clause_library")}
    assert wanted and wanted <= set(shipped)


def test_the_wheel_holds_the_files_to_start_from(shipped):
    """What `scopegen start` and `scopegen schema` read lies in the package."""
    names = ("company.yaml", "prices.yaml", "first-job.yaml", "clauses.txt")
    assert {*(f"scopegen/starter/{name}" for name in names), "scopegen/schema/keys.yaml"} <= set(shipped)


def test_the_wheel_holds_the_program_and_nothing_else(shipped):
    first = {name.split("/")[0] for name in shipped}
    assert len(first) == 2 and "scopegen" in first
    (about,) = first - {"scopegen"}
    assert about.startswith("scopegen-") and about.endswith(".dist-info")
    assert not any("example_scopes" in name or "/tests/" in name for name in shipped)


def test_the_wheel_built_from_the_source_archive_is_the_same(shipped, tmp_path):
    command = [sys.executable, "-m", "hatchling", "build", "--target", "sdist", "--directory", str(tmp_path)]
    subprocess.run(command, cwd=CHECKOUT, check=True, capture_output=True, timeout=120)
    (archive,) = tmp_path.glob("scopegen-*.tar.gz")
    subprocess.run(["tar", "-xzf", archive, "-C", tmp_path], check=True)
    source = tmp_path / archive.name.removesuffix(".tar.gz")
    assert (source / "tests" / "requirements.lock").is_file() and (source / "example_scopes").is_dir()
    assert sorted(build_wheel(source, tmp_path)) == sorted(shipped)


def test_a_checkout_uses_its_own_clause_library():
    assert library_folder() == CHECKOUT / "clause_library"


def found_in(site, where):
    """What library_folder() says in a fresh process that has only `site` and stands in `where`."""
    (site / "scopegen").mkdir(parents=True, exist_ok=True)
    for name in ("__init__.py", "library_folder.py"):
        shutil.copy(CHECKOUT / "scopegen" / name, site / "scopegen" / name)
    code = (
        "import os, sys; sys.path.insert(0, sys.argv[1]); "
        "from scopegen.library_folder import library_folder; print(library_folder())"
    )
    return subprocess.run(
        [getattr(sys, "_base_executable", sys.executable), "-c", code, str(site)],
        cwd=where,
        capture_output=True,
        text=True,
        timeout=60,
    )


def test_an_installed_program_uses_the_library_inside_the_package(tmp_path):
    """A stranger's folder of the same name, beside the package or where one stands, does not win."""
    site, elsewhere = tmp_path / "site", tmp_path / "elsewhere"
    for folder in (site / "scopegen", site, elsewhere):
        (folder / "clause_library").mkdir(parents=True)
    assert found_in(site, elsewhere).stdout == f"{site / 'scopegen' / 'clause_library'}\n"


def test_a_lost_library_is_said_with_both_places(tmp_path):
    (tmp_path / "elsewhere" / "clause_library").mkdir(parents=True)
    ended = found_in(tmp_path / "site", tmp_path / "elsewhere")
    assert ended.returncode == 1
    for place in ("site/scopegen/clause_library", "site/clause_library"):
        assert str(tmp_path / place) in ended.stderr
