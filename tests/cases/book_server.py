"""A real PostgreSQL server for the tests: own cluster, reached by a socket in its own folder, gone afterwards."""

import os
import pwd
import shutil
import subprocess
import tempfile
from itertools import count
from pathlib import Path

import psycopg

NEEDED = "these tests run a real PostgreSQL server: install the package postgresql (./run test does it where it may)"
PEOPLE = "local all postgres trust\nlocal all all scram-sha-256\n"


def programs():
    """Folder of the server's programs: the newest of Debian's places, or that of initdb on the path."""
    places = sorted(Path("/usr/lib/postgresql").glob("*/bin"), key=lambda place: int(place.parent.name))
    named = shutil.which("initdb")
    found = [place for place in places if (place / "initdb").exists()] or (
        [Path(named).parent] if named else []
    )
    if not found:
        raise RuntimeError(NEEDED)
    return found[-1]


class Server:
    """A cluster in a folder that only its owner reads; started by whoever uses it."""

    def __init__(self):
        self.bin = programs()
        self.folder = Path(tempfile.mkdtemp(prefix="laydown-pg-"))  # a socket's path must be short
        self.account = {}
        if os.geteuid() == 0:  # the server refuses to run as root
            owner = pwd.getpwnam("postgres")
            os.chown(self.folder, owner.pw_uid, owner.pw_gid)
            self.account = {"user": owner.pw_uid, "group": owner.pw_gid, "extra_groups": []}
        self.data = self.folder / "data"
        self.numbers = count(1)
        self._run("initdb", "-U", "postgres", "-A", "trust", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync")
        (self.data / "pg_hba.conf").write_text(PEOPLE)
        self.start()

    def start(self):
        # fsync=off: a new database for each test is quick; a killed server loses nothing by it, only a lost computer would
        options = f"-k {self.folder} -c listen_addresses='' -c fsync=off"
        self._run("pg_ctl", "-w", "-l", str(self.folder / "log"), "-o", options, "start")

    def crash(self):
        """Stop without a checkpoint: what was committed must come back from the log."""
        self._run("pg_ctl", "-w", "-m", "immediate", "stop")

    def remove(self):
        self._run("pg_ctl", "-w", "-m", "fast", "stop")
        shutil.rmtree(self.folder)

    def _run(self, program, *arguments):
        command = [str(self.bin / program), "-D", str(self.data), *arguments]
        with (self.folder / f"{program}.out").open("wb") as out:
            subprocess.run(
                command,
                check=True,
                cwd=self.folder,
                stdin=subprocess.DEVNULL,
                stdout=out,
                stderr=out,
                **self.account,
            )

    def execute(self, statement, database="postgres"):
        with psycopg.connect(self.address(database), autocommit=True) as connection:
            connection.execute(statement)

    def address(self, database, user="postgres"):
        return f"postgresql://{user}@/{database}?host={self.folder}"

    def fresh(self, encoding="UTF8"):
        """Address of a new, empty database."""
        name = f"shop_{next(self.numbers)}"
        self.execute(f"CREATE DATABASE {name} TEMPLATE template0 ENCODING '{encoding}' LOCALE 'C'")
        return self.address(name)
