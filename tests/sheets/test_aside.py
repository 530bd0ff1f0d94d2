"""Pages made in a process of their own are the pages made here."""

import errno
import multiprocessing
import os
import pickle
import signal
import struct
import subprocess
import sys
import time
from collections.abc import Callable
from multiprocessing.connection import Connection

import pytest

from docgen.drawing.records import Line, Sheet
from docgen.geometry.solids import SolidFault
from docgen.sheets.aside import aside

PAGES = (Sheet("a", "parts", "A", (210.0, 297.0), (Line((0.0, 0.0), (1.0, 2.0)),)),)
HERE = os.getpid()


def test_the_pages_come_back_equal_from_a_copy() -> None:
    pages, pid = aside(lambda: (PAGES, os.getpid()))()
    assert pages == PAGES
    assert (pid != os.getpid()) == (sys.platform == "linux")


class Unsendable(Exception):
    def __init__(self, one: str, two: str) -> None:
        super().__init__(one)
        self.two = lambda: two  # no function made here can be sent


@pytest.mark.parametrize(
    "fault", [ValueError("no room"), SolidFault("code", "no room"), Unsendable("no room", "two")], ids=repr
)
def test_a_fault_is_raised_as_it_is_where_the_pages_are_waited_for(fault: Exception) -> None:
    def fail() -> tuple[Sheet, ...]:
        raise fault

    wait = aside(fail)
    with pytest.raises(type(fault), match="no room") as caught:
        wait()
    assert caught.value is fault


def dies() -> tuple[Sheet, ...]:
    if os.getpid() != HERE:
        os._exit(3)
    return PAGES


def says_what_cannot_be_sent() -> object:
    return PAGES if os.getpid() == HERE else (lambda: PAGES)


@pytest.mark.parametrize("make", [dies, says_what_cannot_be_sent])
def test_pages_are_made_here_when_the_copy_fails(make: Callable[[], object]) -> None:
    assert aside(make)() == PAGES
    assert not multiprocessing.active_children()


def test_pages_are_made_here_when_the_copy_dies_in_mid_word(monkeypatch: pytest.MonkeyPatch) -> None:
    def half(make: Callable[[], object], sender: Connection) -> None:
        os.write(sender.fileno(), struct.pack("!i", 1000) + pickle.dumps(make())[:20])
        os._exit(3)

    monkeypatch.setattr("docgen.sheets.aside._work", half)
    assert aside(lambda: PAGES)() == PAGES


@pytest.mark.parametrize("refused", ["os.fork", "os.pipe"])
def test_pages_are_made_here_when_no_copy_is_granted(refused: str, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse() -> int:
        raise BlockingIOError(errno.EAGAIN, "Resource temporarily unavailable")

    monkeypatch.setattr(refused, refuse)
    pages, pid = aside(lambda: (PAGES, os.getpid()))()
    assert pages == PAGES and pid == os.getpid()


def test_an_interrupt_ends_the_copy_without_a_word() -> None:
    text = (
        "import signal, time\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"  # in the background it may begin ignored
        "from docgen.sheets.aside import aside\n"
        "wait = aside(lambda: time.sleep(60))\n"
        "print('begun', flush=True)\n"
        "try:\n"
        "    wait()\n"
        "except KeyboardInterrupt:\n"
        "    print('ended', flush=True)\n"
    )
    run = subprocess.Popen(
        [sys.executable, "-c", text], stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True, start_new_session=True
    )
    assert run.stdout is not None and run.stdout.readline() == "begun\n"
    time.sleep(0.2)
    os.killpg(run.pid, signal.SIGINT)
    try:
        out, told = run.communicate(timeout=30)  # both ends of its pipes are closed only when the copy is gone too
    finally:
        run.kill()
    assert (out, told, run.returncode) == ("ended\n", "", 0)
