"""What lays parts out is loaded by itself: no program is asked where its libraries are, no thread begun."""

import subprocess
import sys

import pytest

LOADED = """
import subprocess
def refused(*_words, **_how):
    raise AssertionError("another program is run")
subprocess.Popen = refused
from binder.rendering.parts.typesetter import load_typesetter
load_typesetter()
import ctypes.util, weasyprint
print(ctypes.util.find_library.__module__, weasyprint.HTML(string="one").render().pages != [])
"""
THREADS = """
import os
from binder.rendering.parts.typesetter import load_typesetter
load_typesetter()
import binder.rendering.pdf
print(len(os.listdir("/proc/self/task")))
"""
MANY_PRINTINGS = """
import psutil
from binder.rendering.pdf import load_styles
size = []
for number in range(80):
    load_styles(str(number))  # Each printing has a folder of its own.
    size.append(psutil.Process().memory_info().rss)
print((size[-1] - size[20]) // 1024)
"""
of_linux = pytest.mark.skipif(
    sys.platform != "linux", reason="other systems have libraries searched for, and no process parts there"
)


@of_linux
def test_no_program_is_run_where_the_typesetter_is_loaded() -> None:
    run = subprocess.run([sys.executable, "-c", LOADED], capture_output=True, text=True, check=False)

    assert (run.stdout, run.stderr) == ("ctypes.util True\n", "")


@of_linux
def test_one_thread_runs_where_a_process_parts_into_several() -> None:
    run = subprocess.run([sys.executable, "-c", THREADS], capture_output=True, text=True, check=True)

    assert run.stdout == "1\n"


def test_a_process_that_lays_out_many_printings_does_not_grow() -> None:
    """Pango 1.50 kept the list of the system's fonts of each: 15,000 kB of sixty."""
    run = subprocess.run([sys.executable, "-c", MANY_PRINTINGS], capture_output=True, text=True, check=True)

    assert int(run.stdout) < 5_000
