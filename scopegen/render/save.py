"""Writes a file whole or not at all: killed at any moment, the old file or the new one is there."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path


def save(path: Path, data: bytes) -> None:
    """Puts the bytes under the path in one step. Makes the folder where it is missing. Raises OSError."""
    path.parent.mkdir(parents=True, exist_ok=True)
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.chmod(name, 0o666 & ~_umask())
        os.replace(name, path)
    except BaseException:
        Path(name).unlink(missing_ok=True)
        raise


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask
