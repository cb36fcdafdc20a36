"""What the jobs of one run share, such as a chart: read once, and anew when it changes."""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterable
from pathlib import Path
from typing import Any, TypeVar

T = TypeVar("T")
Stamp = tuple[int, int, int] | None
MOST = 16  # readings: the folders that a run is in at once have few


def stamp(path: Path) -> Stamp:
    """What changes with a file's content: its time, size and number; None where there is none."""
    try:
        status = path.stat()
    except (OSError, ValueError):
        return None
    return status.st_mtime_ns, status.st_size, status.st_ino


class Kept:
    """Readings by their key, each with the stamps of its files; the oldest go first."""

    def __init__(self) -> None:
        self._readings: dict[Hashable, tuple[dict[Path, Stamp], Any]] = {}

    def once(self, key: Hashable, files: Iterable[Path], read: Callable[[], T]) -> T:
        """What `read` gives, or gave before where no file was changed, added or taken away since."""
        stamps = {path: stamp(path) for path in files}
        known = self._readings.pop(key, None)
        value = known[1] if known and known[0] == stamps else read()
        self._readings[key] = stamps, value
        while len(self._readings) > MOST:
            del self._readings[next(iter(self._readings))]
        return value
