"""The book in a file and on a real server; the same tests run on both."""

import os
import tempfile
from multiprocessing import get_context
from pathlib import Path

import pytest

from cases.book_samples import begin_session
from cases.book_server import Server
from laydown.store.opening import open_book


@pytest.fixture(scope="session")
def server():
    """A PostgreSQL server; where it is not installed these tests fail, they are never skipped."""
    running = Server()
    yield running
    running.remove()


@pytest.fixture(params=["sqlite", "postgresql"])
def place(request, tmp_path):
    """Where an empty book of either kind goes."""
    if request.param == "sqlite":
        return str(tmp_path / "shop.book")
    return request.getfixturevalue("server").fresh()


@pytest.fixture
def book(place):
    opened = open_book(place)
    yield opened
    opened.close()


@pytest.fixture
def log(book):
    """A book with a session that has begun."""
    begin_session(book)
    return book


@pytest.fixture(scope="session")
def processes():
    """Processes that begin with the libraries loaded, and without the threads of this one."""
    context = get_context("forkserver")
    context.set_forkserver_preload(
        ["laydown.store.opening", "sqlalchemy.dialects.postgresql.psycopg", "psycopg"]
    )
    return context


@pytest.fixture
def folder_of_another():
    """A folder that root owns and others may read, for tests of missing rights; tests run as root or as a user."""
    with tempfile.TemporaryDirectory(prefix="laydown-book-") as name:
        Path(name).chmod(0o755)
        yield Path(name)


@pytest.fixture
def without_rights():
    """A function after which the test has no more rights than anybody."""
    before = os.geteuid()

    def drop():
        if before == 0:
            os.seteuid(65534)

    yield drop
    os.seteuid(before)
