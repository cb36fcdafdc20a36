"""Looks at the machine that the set-up runs on."""

import importlib
import importlib.util
import os
import platform
import shutil
import sys
from pathlib import Path

from scopegen.setup.steps import Machine

MODULES = ("venv", "ensurepip", "ctypes")
# the names that WeasyPrint 70.0 loads its libraries by (weasyprint/text/ffi.py)
LIBRARIES = {
    "Pango": ("libpango-1.0.so.0", "libpango-1.0.dylib"),
    "PangoFT2": ("libpangoft2-1.0.so.0", "libpangoft2-1.0.dylib"),
    "HarfBuzz-Subset": ("libharfbuzz-subset.so.0", "libharfbuzz-subset.0.dylib"),
}
HOMEBREW_FOLDERS = (Path("/opt/homebrew/lib"), Path("/usr/local/lib"))


def look() -> Machine:
    """The machine as it is now; to be asked again after something was installed."""
    importlib.invalidate_caches()
    missing_modules = tuple(name for name in MODULES if importlib.util.find_spec(name) is None)
    return Machine(
        system=system(),
        python=sys.version_info[:2],
        distribution_python=sys.base_prefix == "/usr",
        missing_modules=missing_modules,
        missing_libraries=tuple(LIBRARIES) if "ctypes" in missing_modules else missing_libraries(),
        root=hasattr(os, "geteuid") and os.geteuid() == 0,
        sudo=shutil.which("sudo") is not None,
        homebrew=shutil.which("brew") is not None,
    )


def system() -> str:
    """debian, macos, windows or other."""
    named = {"Darwin": "macos", "Windows": "windows"}.get(platform.system())
    if named:
        return named
    try:
        release = platform.freedesktop_os_release()
    except OSError:
        return "other"
    family = {release["ID"], *release.get("ID_LIKE", "").split()}
    return "debian" if family & {"debian", "ubuntu"} and shutil.which("apt-get") else "other"


def missing_libraries() -> tuple[str, ...]:
    """Those of LIBRARIES that do not load."""
    folder = homebrew_folder()
    return tuple(
        library
        for library, names in LIBRARIES.items()
        if not any(loads(name) or (folder and loads(str(folder / name))) for name in names)
    )


def homebrew_folder() -> Path | None:
    """Where Homebrew's Pango lies, on macOS, if it is there."""
    if platform.system() != "Darwin":
        return None
    pango = LIBRARIES["Pango"][1]
    return next((folder for folder in HOMEBREW_FOLDERS if (folder / pango).exists()), None)


def loads(name: str) -> bool:
    import ctypes  # here, since a cut-down Python may lack it until the set-up has brought it

    try:
        ctypes.CDLL(name)
    except OSError:
        return False
    return True


def variables_for_libraries() -> dict[str, str]:
    """What the program's environment needs for it to find the libraries: nothing but on macOS."""
    folder = homebrew_folder()
    return {"DYLD_FALLBACK_LIBRARY_PATH": str(folder)} if folder else {}
