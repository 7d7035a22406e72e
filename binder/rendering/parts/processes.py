"""Where parts are laid out: in a process for each processor, or on the machines of a cluster.

Our processes end with the one that began them. Why not those of the library: theirs live on when their
parent is killed, and leave semaphores behind. One is started, loads what lays parts out, and parts into the
others: what is loaded is loaded once.
"""

import gc
import os
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from concurrent.futures import CancelledError, Executor, Future
from contextlib import contextmanager, suppress
from errno import ECHILD, ENOEXEC
from functools import partial
from importlib import import_module
from multiprocessing import get_context, parent_process, resource_tracker
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from pathlib import Path
from queue import SimpleQueue
from threading import Lock, Thread
from traceback import format_exc
from typing import Any, NoReturn, ParamSpec, TypeAlias, TypeVar

from binder.publishing.held_folder import clear_after
from binder.rendering.parts.cache import makers
from binder.rendering.parts.part import PartHtml, RenderedPdf, Submit
from binder.rendering.parts.typesetter import load_typesetter

LayOut: TypeAlias = Callable[[Path], Submit]
"""Where parts are laid out, for a printing by its work folder."""

_P = ParamSpec("_P")
_T = TypeVar("_T")

_SPAWN = get_context("spawn")
_TRIES = 2
"""How often a part is begun whose process is ended from outside, as by a system short of memory."""


def laid_out(work: Path, part: PartHtml) -> RenderedPdf:
    """Lay a part out, with all that is temporary in a work folder."""
    with _temporary_in(work):
        from binder.rendering.pdf import render  # noqa: PLC0415 - long; a process can be ended already.

        return render(part.html, part.pages, str(work))


def made_ready(work: Path) -> None:
    """Load what lays parts out, before there is one: what is to be printed is made meanwhile."""
    with _temporary_in(work):
        from binder.rendering.pdf import load_styles  # noqa: PLC0415 - as above.

        load_styles(str(work))


@contextmanager
def _temporary_in(work: Path) -> Iterator[None]:
    """Have what is temporary written into a work folder, which goes with all that is left in it.

    WeasyPrint leaves its fonts to a collection, which a process that is ended never comes to; and while it
    looks for its libraries other programs leave files where the environment says.
    """
    _works.add(work)
    before, tempfile.tempdir = tempfile.tempdir, str(work)
    said = os.environ.get("TMPDIR")
    os.environ["TMPDIR"] = str(work)
    try:
        load_typesetter()
        yield
    finally:
        tempfile.tempdir = before
        os.environ.pop("TMPDIR")
        os.environ |= {"TMPDIR": said} if said is not None else {}


@contextmanager
def on_cluster(scheduler: str) -> Iterator[LayOut]:
    """Have parts laid out by the workers of a Dask cluster; work of one that is ended goes to another."""
    from distributed import Client  # noqa: PLC0415 - an extra that few install.

    connected: Any = Client
    with connected(scheduler, timeout=10) as client:
        submit = partial(client.get_executor(pure=False).submit, laid_out_elsewhere, makers())
        yield lambda _work: submit


def laid_out_elsewhere(made_with: str, part: PartHtml) -> RenderedPdf:
    """Lay a part out on another machine, where that gives the same bytes."""
    if made_with != makers():
        text = "a worker of the cluster has another version of binder or of its libraries"
        raise OSError(ENOEXEC, text)
    with _ONE_AT_A_TIME, tempfile.TemporaryDirectory() as folder:
        return laid_out(Path(folder), part)


_ONE_AT_A_TIME = Lock()
"""The typesetter is for one thread of a process."""


class Processes(Executor):
    """Begun when there is work; each is started for this command: none holds what another left behind."""

    def __init__(self) -> None:
        """Wait for the first work."""
        self._count = (
            len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
        )
        self._tasks: SimpleQueue[tuple[Future[Any], Callable[[], Any]] | None] = SimpleQueue()
        self._threads: list[Thread] = []
        self._children: list[_Child] = []
        self._spare: list[_Child] = []
        self._lock = Lock()
        self._is_stopped = False

    def submit(self, fn: Callable[_P, _T], /, *args: _P.args, **kwargs: _P.kwargs) -> Future[_T]:
        """Have a function called by one of the processes."""
        future: Future[_T] = Future()
        with self._lock:
            if self._is_stopped:
                raise CancelledError
            self._tasks.put((future, partial(fn, *args, **kwargs)))
        if len(self._threads) < self._count:
            # A thread begins each process: an interrupt, which the main one hears, leaves none half begun.
            _begin_tracker()
            self._threads.append(Thread(target=self._serve, daemon=True))
            self._threads[-1].start()
        return future

    def shutdown(self, wait: bool = True, *, cancel_futures: bool = False) -> None:  # noqa: FBT001, FBT002 - as the class has it.
        """End the processes; at once where nobody waits for their work any more."""
        if cancel_futures:
            with self._lock:
                self._is_stopped = True
                for child in self._children:
                    child.process.kill()
        for _ in self._threads:
            self._tasks.put(None)
        if wait:
            for thread in self._threads:
                thread.join()
            for child in self._children:
                child.end()
            for child in self._children:
                child.process.join()

    def __exit__(self, kind: type[BaseException] | None, *_fault: object) -> None:
        """End the processes with the work, or with the fault."""
        self.shutdown(cancel_futures=kind is not None)

    @contextmanager
    def ended_at_a_fault(self) -> Iterator[None]:
        """End the processes before a fault is passed on: none works on in a folder that is about to go."""
        try:
            yield
        except BaseException:
            self.shutdown(cancel_futures=True)
            raise

    def lay_out(self, work: Path) -> Submit:
        """Have parts of a printing laid out by the processes, which make ready at once."""
        for _ in range(self._count - len(self._threads)):
            self.submit(made_ready, work)
        return partial(self.submit, partial(laid_out, work))

    def _serve(self) -> None:
        # What ends a command is for the process a person started: it ends the others.
        _hear_nothing()
        child: _Child | None = None
        while (task := self._tasks.get()) is not None:
            future, call = task
            if self._is_stopped:
                future.cancel()
            if not future.set_running_or_notify_cancel():
                continue
            for _ in range(_TRIES):
                child = child or self._begun()
                try:
                    is_done, value = child.asked(call)
                except (EOFError, ConnectionError):
                    child, is_done, value = None, False, _ended_from_outside()
                    if not self._is_stopped:
                        continue
                    value = CancelledError()
                except Exception as fault:  # noqa: BLE001 - what cannot be sent, or read, is told as well.
                    is_done, value = False, fault
                break
            (future.set_result if is_done else future.set_exception)(value)

    def _begun(self) -> "_Child":
        with self._lock:
            if not self._spare:
                # What is begun again for one that was ended is begun alone.
                self._spare = _begun_together(1 if self._children else self._count)
                self._children += self._spare
            child = self._spare.pop()
            if self._is_stopped:
                child.process.kill()
            return child


def _hear_nothing() -> set[int]:
    """Block what ends a command, for this thread and what it begins; gives what was blocked before."""
    if not hasattr(signal, "pthread_sigmask"):
        return set()
    return set(signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT, signal.SIGTERM, signal.SIGHUP}))


def _begin_tracker() -> None:
    """Begin the process of the library that all others need, here: beginning it unblocks signals."""
    before = _hear_nothing()
    resource_tracker.ensure_running()
    if hasattr(signal, "pthread_sigmask"):
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


class _Child:
    """A process, by the pipe to it; those that parted from one that was started end with that."""

    def __init__(self, connection: Connection, process: BaseProcess) -> None:
        self.connection, self.process = connection, process

    def end(self) -> None:
        """Have it end after its work; one that was ended meanwhile hears nothing."""
        with suppress(OSError):
            self.connection.send(None)
        self.connection.close()

    def asked(self, call: Callable[[], Any]) -> tuple[bool, Any]:
        """Send a call and wait: whether it was done, and its result or its fault."""
        self.connection.send(call)
        answer: tuple[bool, Any] = self.connection.recv()
        return answer


def _begun_together(count: int) -> list[_Child]:
    """Begin processes: one is started, and parts into as many where the system has that."""
    if count > 1 and not _IS_PARTED:
        return [child for _ in range(count) for child in _begun_together(1)]
    pipes = [_SPAWN.Pipe() for _ in range(count)]
    process = _SPAWN.Process(target=_answer, args=([other for _, other in pipes],), daemon=True)
    process.start()
    for _, other in pipes:
        other.close()
    return [_Child(own, process) for own, _ in pipes]


_IS_PARTED = sys.platform == "linux"
"""Whether a process parts safely; libraries of other systems begin threads of their own."""


def _ended_from_outside() -> OSError:
    text = "the processes that lay out parts were ended from outside; there may be too little memory"
    return ChildProcessError(ECHILD, text)


_works: set[Path] = set()
"""Work folders this process was told of."""


def _answer(connections: list[Connection]) -> None:
    """Do what is asked for through each pipe, one call after the other, until nobody asks any more."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Where it cannot be blocked.
    connection, ends_with, parted = _parted(connections)
    Thread(target=_end_with_parent, args=ends_with, daemon=True).start()
    while True:
        try:
            call = connection.recv()
        except (EOFError, ConnectionError):  # Reset where an answer was not read any more.
            _end_with_parent(*ends_with)
        if call is None:
            break
        try:
            answer = (True, call())
        except Exception as fault:  # noqa: BLE001 - whatever it is, it is told where it was asked for.
            fault.add_note(format_exc())
            answer = (False, fault)
        try:
            connection.send(answer)
        except OSError:
            _end_with_parent(*ends_with)  # Nobody waits for it any more.
    for process in parted:
        os.waitpid(process, 0)
    os._exit(0)  # Nothing is left to be written, and taking all apart that was loaded takes a while.


def _parted(connections: list[Connection]) -> tuple[Connection, list[int], list[int]]:
    """Part into a process for each pipe, once what all need is loaded.

    Gives the pipe of this one; what can be read, if it parted from another, as soon as that has ended; and
    those that parted from it.
    """
    if len(connections) == 1:
        return connections[0], [], []
    with suppress(Exception):  # It is told where it is asked for.
        load_typesetter()
        import_module("binder.rendering.pdf")
    gc.freeze()  # What is shared stays shared: looking through it would copy it.
    ended, held = os.pipe()
    parted: list[int] = []
    own, ends_with = connections[0], list[int]()
    for connection in connections[1:]:
        process = os.fork()
        if process == 0:
            own, ends_with, parted = connection, [ended], []
            os.close(held)
            break
        parted.append(process)
    for connection in connections:
        if connection is not own:
            connection.close()
    return own, ends_with, parted


def _end_with_parent(*others: int) -> NoReturn:
    """End as soon as the process is gone that waits for the work, and take away what it could not."""
    parent = parent_process()
    if parent and parent.sentinel not in wait([parent.sentinel, *others]):
        os._exit(1)  # What this one parted from was ended; who waits for the work goes on.
    if not _works:
        time.sleep(1)  # What it had asked for before is on its way, and names the folder.
    with _ENDING:
        for work in _works:
            clear_after(work)
        os._exit(1)


_ENDING = Lock()
"""Only one thread ends a process, or the other would be cut off."""
