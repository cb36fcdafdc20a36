"""Papers made by several processes at once. A process that dies takes one paper with it, and not the run."""

from __future__ import annotations

import multiprocessing
import os
import signal
from collections import deque
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from multiprocessing import resource_tracker
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess

from scopegen.cli.ending import Exit
from scopegen.cli.paper import Made, make_whatever_happens
from scopegen.cli.process import collect_rarely
from scopegen.cli.targets import Order
from scopegen.kept import Kept


def cores() -> int:
    """How many processor cores this process may use."""
    try:
        return len(os.sched_getaffinity(0))
    except AttributeError:  # not on every system
        return os.cpu_count() or 1


@dataclass(frozen=True, slots=True, eq=False)
class _Worker:
    process: BaseProcess
    pipe: Connection


def made_one_by_one(orders: tuple[Order, ...], kept: Kept) -> Iterator[Made]:
    """The papers in this process, in their order."""
    for order in orders:
        yield make_whatever_happens(order, kept)


def made_at_once(orders: tuple[Order, ...], count: int) -> Iterator[Made]:
    """The papers by `count` processes, as they get ready. The caller writes them: a process may be killed at
    any moment and leaves no half file."""
    waiting, idle = deque(orders), list[_Worker]()
    busy: dict[Connection, tuple[_Worker, Order]] = {}
    try:
        while waiting or busy:
            while waiting and len(busy) < count:
                worker = _given(waiting[0], idle.pop() if idle else _started())
                busy[worker.pipe] = worker, waiting.popleft()
            for pipe in wait(list(busy)):
                worker, order = busy.pop(pipe)  # type: ignore[index]
                try:
                    made = worker.pipe.recv()
                except (EOFError, OSError):
                    made = _lost(order, worker)
                else:
                    idle.append(worker)
                yield made
    finally:
        for worker in (*idle, *(worker for worker, _ in busy.values())):
            _end(worker)


def _given(order: Order, worker: _Worker) -> _Worker:
    """A worker that has the order: this one, or a new one where it has died meanwhile."""
    try:
        worker.pipe.send(order)
        return worker
    except OSError:
        _end(worker)
        return _given(order, _started())


def _started() -> _Worker:
    # a fresh interpreter: a fork would copy the threads' locks in whatever state they are
    context = multiprocessing.get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_work, args=(theirs,), daemon=True)
    with _deaf_to_interruption():
        process.start()
    theirs.close()
    return _Worker(process, ours)


@contextmanager
def _deaf_to_interruption() -> Iterator[None]:
    """A process started meanwhile does not hear Ctrl-C; the one that starts it hears it afterwards."""
    if not hasattr(signal, "pthread_sigmask"):  # on Windows
        yield
        return
    resource_tracker.ensure_running()  # else the first start starts it too, and that opens the ears again
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _work(pipe: Connection) -> None:
    """Makes papers until nobody asks for more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    collect_rarely()
    kept = Kept()
    while True:
        try:
            order = pipe.recv()
            pipe.send(make_whatever_happens(order, kept))
        except (EOFError, OSError):
            return


def _lost(order: Order, worker: _Worker) -> Made:
    worker.pipe.close()
    worker.process.join()
    code = worker.process.exitcode or 0
    how = signal.Signals(-code).name if code < 0 else f"exit code {code}"
    said = f"its process ended before the paper was ready ({how}). Where memory ran out, try --at-once 1."
    return Made(order, Exit.CANNOT_WRITE, said=said, reason=said)


def _end(worker: _Worker) -> None:
    worker.process.kill()
    worker.process.join()
    worker.pipe.close()
