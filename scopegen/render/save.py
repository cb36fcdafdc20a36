"""Writes a file whole or not at all: killed at any moment, the old file or the new one is there."""

from __future__ import annotations

import errno
import os
import tempfile
from collections.abc import Iterator
from contextlib import suppress
from hashlib import sha256
from pathlib import Path

try:
    import fcntl
except ImportError:  # Windows, where a file that is open cannot be deleted, and needs no lock
    fcntl = None  # type: ignore[assignment]


MOST_LINKS = 40  # as Linux follows them (path_resolution(7))


def save(path: Path, data: bytes) -> None:
    """Puts the bytes under the path in one step. Makes the folder where it is missing. Raises OSError.

    A link is followed, so that it stays a link. What a killed save left behind is cleared away.
    """
    target = _behind_links(path)
    target.parent.mkdir(parents=True, exist_ok=True)
    _clear(target)
    handle, name = _draft(target)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
            os.chmod(name, 0o666 & ~_umask())
            if fcntl:  # the lock lasts until the file is closed
                os.replace(name, target)
        if not fcntl:
            os.replace(name, target)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _behind_links(path: Path) -> Path:
    """The file that is meant. A device or a pipe is not replaced by a file, nor what one leads to for now."""
    target = Path(os.path.realpath(path))
    if any(map(_is_of_the_system, _steps(path))):
        raise OSError(errno.EINVAL, "it is a device or a pipe", str(path))
    if target.is_symlink():
        raise OSError(errno.ELOOP, os.strerror(errno.ELOOP), str(path))
    if target.exists() and not (target.is_file() or target.is_dir()):
        raise OSError(errno.EINVAL, "it is a device or a pipe", str(path))
    if target.is_dir():
        raise OSError(errno.EISDIR, os.strerror(errno.EISDIR), str(path))
    return target


def _steps(path: Path) -> Iterator[Path]:
    """Each name that a path has on the way to its file, by links, in the folder where that truly lies."""
    for _ in range(MOST_LINKS):
        path = Path(os.path.realpath(path.parent)) / path.name
        yield path
        if not path.is_symlink():
            return
        path = path.parent / os.readlink(path)


def _is_of_the_system(path: Path) -> bool:
    """Whether it stands for what a process has open, such as /dev/stdout, or for a device."""
    return any(map(path.is_relative_to, ("/dev", "/proc"))) and not path.is_relative_to("/dev/shm")


def _prefix(target: Path) -> str:
    """How drafts of this file are called; short, since the file's own name may be as long as names can be."""
    return f".scopegen-{sha256(os.fsencode(target.name)).hexdigest()[:12]}-"


def _draft(target: Path) -> tuple[int, str]:
    """A new file beside the target, locked: what is not locked is nobody's any more.

    Whoever clears it away has locked it first, so the lock is waited for, and then tells whether it is gone.
    """
    while True:
        handle, name = tempfile.mkstemp(prefix=_prefix(target), dir=target.parent)
        if fcntl:
            with suppress(OSError):  # a network drive may have no locks
                fcntl.flock(handle, fcntl.LOCK_EX)
            if os.fstat(handle).st_nlink == 0:  # cleared away before it was locked
                os.close(handle)
                continue
        return handle, name


def _clear(target: Path) -> None:
    """Deletes the drafts that nobody writes any more."""
    prefix = _prefix(target)
    for entry in os.listdir(target.parent):
        if not entry.startswith(prefix):
            continue
        left = target.parent / entry
        with suppress(OSError):  # somebody writes it, or cleared it away first
            if fcntl:
                with left.open("rb") as file:
                    fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
                    left.unlink()
            else:
                left.unlink()


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
