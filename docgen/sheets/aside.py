"""Making some kinds of sheet in a process of its own, beside the others.

The part sheets take about as long as all the rest. Where the system can copy a process, they are made in a copy
while this one goes on; the pages are the same either way, since they are plain records.
"""

from __future__ import annotations

import contextlib
import multiprocessing
import signal
import sys
import warnings
from collections.abc import Callable, Iterator
from multiprocessing.connection import Connection
from multiprocessing.context import ForkProcess
from pickle import UnpicklingError
from typing import TypeVar

Pages = TypeVar("Pages")


def aside(make: Callable[[], Pages]) -> Callable[[], Pages]:
    """Start `make` beside this process and return what waits for its pages.

    Without a copy (other systems, no leave to start one, a copy that died or failed) the pages are made where they are
    waited for: what `make` raises is then raised there, as if there had been no copy.
    """
    if sys.platform != "linux":
        return make
    try:
        worker, receiver = _started(make)
    except OSError:  # as many processes or open files as the system grants
        return make

    def wait() -> Pages:
        try:
            return receiver.recv()  # type: ignore[no-any-return]
        except (EOFError, OSError, UnpicklingError):
            return make()
        finally:
            worker.terminate()
            worker.join()
            receiver.close()

    return wait


def _started(make: Callable[[], object]) -> tuple[ForkProcess, Connection]:
    """Return the copy and the end of the pipe on which its pages come; OSError when there can be none."""
    context = multiprocessing.get_context("fork")
    receiver, sender = context.Pipe(duplex=False)
    worker = context.Process(target=_work, args=(make, sender), daemon=True)
    try:
        with _uninterrupted(), warnings.catch_warnings():
            # The array library's idle threads are told of here; the copy starts none and waits for none.
            warnings.simplefilter("ignore", DeprecationWarning)
            worker.start()
    except OSError:
        receiver.close()
        raise
    finally:
        sender.close()
    return worker, receiver


@contextlib.contextmanager
def _uninterrupted() -> Iterator[None]:
    """Let a process that is copied here never hear an interrupt from the keyboard: it ends with the one it came from."""
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


def _work(make: Callable[[], object], sender: Connection) -> None:
    # A fault is not sent: the pages are made again where they are waited for, and it is raised there with its way.
    with contextlib.suppress(Exception), sender:
        sender.send(make())
