"""What holds for the process whatever its command is: its streams, Ctrl-C, and an end without a traceback."""

from __future__ import annotations

import gc
import os
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from types import FrameType
from typing import Any, NoReturn

CANNOT_WRITE, INTERRUPTED = 3, 130  # ending.Exit, which takes time to import


def run(command: Callable[[], object]) -> None:
    """A command, from its imports to its last word. Ends the process where the command does not end well."""
    ear = _Ear()
    collect_rarely()
    try:
        ear.listen()
        _with_streams()
        command()
    except KeyboardInterrupt:
        _end("Interrupted.", INTERRUPTED)
    except Exception as error:
        if ear.heard:  # a library that was being imported told of it in its own way
            _end("Interrupted.", INTERRUPTED)
        if isinstance(error, OSError) and (said := _said_of(error)):
            _end(said, CANNOT_WRITE)
        raise
    finally:
        ear.no_longer()


def collect_rarely() -> None:
    """Looks for garbage less often than Python does by itself: a command lives for seconds, and what it makes
    it mostly keeps. Looking takes a twentieth of its time, and frees next to nothing."""
    gc.set_threshold(300_000, 20, 20)  # of new objects, of looks at these, and of looks at older ones


class _Ear:
    """Hears Ctrl-C, and keeps in mind that it did: not all that is interrupted says so."""

    heard = False
    is_busy = is_put_off = False

    def listen(self) -> None:
        # a shell that starts a program in the background may have made it deaf
        if signal.getsignal(signal.SIGINT) is signal.default_int_handler:
            signal.signal(signal.SIGINT, self)
            sys.excepthook, sys.unraisablehook = self.uncaught, self.unraisable

    def __call__(self, number: int, frame: FrameType | None) -> None:
        self.heard = True
        if not self.is_busy:
            raise KeyboardInterrupt
        self.is_put_off = True

    def uncaught(self, *told: Any) -> None:
        """A library in C prints what ended its import, and ends in its own way; of an interruption enough is
        said in the last line."""
        if not self.heard:
            sys.__excepthook__(*told)

    def unraisable(self, told: Any) -> None:
        """An interruption where nothing can be raised, as while something is cleared away, comes again."""
        if isinstance(told.exc_value, KeyboardInterrupt):
            os.kill(os.getpid(), signal.SIGINT)
        else:
            sys.__unraisablehook__(told)

    def no_longer(self) -> None:
        """What the interpreter does at its end has nothing to say about an interruption."""
        if signal.getsignal(signal.SIGINT) is self:
            signal.signal(signal.SIGINT, signal.SIG_DFL)


@contextmanager
def uninterrupted() -> Iterator[None]:
    """What is done in it is done whole; an interruption meanwhile comes at its end."""
    ear = signal.getsignal(signal.SIGINT)
    if not isinstance(ear, _Ear):
        yield
        return
    ear.is_busy = True
    try:
        yield
    finally:
        ear.is_busy = False
    if ear.is_put_off:
        raise KeyboardInterrupt


def was_interrupted() -> bool:
    """Whether Ctrl-C was heard, whatever became of it."""
    ear = signal.getsignal(signal.SIGINT)
    return isinstance(ear, _Ear) and ear.heard


def _with_streams() -> None:
    """Each standard stream leads somewhere, and takes every sign: one that it cannot write as its code."""
    for name, mode in (("stdin", "r"), ("stdout", "w"), ("stderr", "w")):
        if getattr(sys, name) is None:  # closed by who started it; else the next file would be in its place
            setattr(sys, name, open(os.devnull, mode, encoding="utf-8"))
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]


def _said_of(error: OSError) -> str:
    """What a fault of the machine means that no command foresaw; nothing where it is the program's own."""
    if _is_gone():
        return "The folder that you are in is gone. Change into one that is there, and try again."
    if error.filename is None:  # every file that a command writes or reads has a name
        return f"What there is to say cannot be written: {error.strerror or error}."
    return ""


def _is_gone() -> bool:
    try:
        os.getcwd()
    except OSError:
        return True
    return False


def _end(said: str, code: int) -> NoReturn:
    """The last line, as far as it can be said; what was not yet written is dropped."""
    with suppress(OSError, ValueError):
        print(said, file=sys.stderr, flush=True)
    nowhere = os.open(os.devnull, os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):
            os.dup2(nowhere, stream.fileno())
    raise SystemExit(code) from None
