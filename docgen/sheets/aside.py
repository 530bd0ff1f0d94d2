"""Making some kinds of sheet in a process of its own, beside the others.

The part sheets take about as long as all the rest. Where the system can copy a process, they are made in a copy
while this one goes on; the pages are the same either way, since they are plain records.
"""

from __future__ import annotations

import multiprocessing
import sys
import warnings
from collections.abc import Callable
from multiprocessing.connection import Connection
from typing import TypeVar

Pages = TypeVar("Pages")


def aside(make: Callable[[], Pages]) -> Callable[[], Pages]:
    """Start `make` beside this process and return what waits for its pages.

    What `make` raises is raised where the pages are waited for. Without a copy (other systems, or a copy that
    died) the pages are made then and there.
    """
    if sys.platform != "linux":
        return make
    context = multiprocessing.get_context("fork")
    receiver, sender = context.Pipe(duplex=False)
    worker = context.Process(target=_work, args=(make, sender), daemon=True)
    with warnings.catch_warnings():
        # The array library's idle threads are told of here; the copy starts none and waits for none.
        warnings.simplefilter("ignore", DeprecationWarning)
        worker.start()
    sender.close()

    def wait() -> Pages:
        try:
            answer = receiver.recv()
        except EOFError:
            return make()
        finally:
            worker.join()
            receiver.close()
        if isinstance(answer, Exception):
            raise answer
        return answer  # type: ignore[no-any-return]

    return wait


def _work(make: Callable[[], Pages], sender: Connection) -> None:
    try:
        sender.send(make())
    except Exception as error:  # told where the pages are waited for
        sender.send(error)
    finally:
        sender.close()
