"""The program as a process that serves the pages, and as a call in this process."""

import subprocess
import sys
from contextlib import contextmanager

from click.testing import CliRunner

from laydown.cli.main import cli


@contextmanager
def serving(*options):
    command = [sys.executable, "-m", "laydown", "serve", "--port", "0", *options]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True) as running:
        try:
            yield running, running.stdout.readline()
        finally:
            running.kill()


def call(*words, **more):
    return CliRunner().invoke(cli, list(words), **more)
