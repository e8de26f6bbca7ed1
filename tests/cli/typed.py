"""A command as a person types it, run in this process so that coverage sees it."""

from __future__ import annotations

import gc
import sys
from contextlib import redirect_stderr, redirect_stdout
from io import StringIO
from typing import NamedTuple
from unittest import mock

from ozonewright.cli import main


class Done(NamedTuple):
    """What the command left behind."""

    returncode: int
    stdout: str
    stderr: str


def run(*words: str) -> Done:
    """Run ``ozonewright WORDS`` and return its exit status and both streams."""
    out, err = StringIO(), StringIO()
    code: object = 0
    with (
        mock.patch.object(sys, "argv", ["ozonewright", *words]),
        redirect_stdout(out),
        redirect_stderr(err),
    ):
        try:
            main()
        except SystemExit as end:
            code = end.code or 0
        finally:
            gc.enable()
    return Done(int(str(code)), out.getvalue(), err.getvalue())
