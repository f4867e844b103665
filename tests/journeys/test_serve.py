"""laydown serve as a process: one line when it answers, a clean stop, and nobody let in without a password."""

import json
import os
import re
import signal
import subprocess
import sys
import urllib.request

from cases.serving import call, serving
from laydown.store.opening import open_book
from laydown.web.security.passwords import set_user


def test_it_says_one_line_answers_and_stops_cleanly(tmp_path):
    with serving("--database", str(tmp_path / "shop.book")) as (running, line):
        assert re.fullmatch(r"ready http://127\.0\.0\.1:\d+/\n", line)
        with urllib.request.urlopen(line.split()[1] + "healthz", timeout=10) as answer:
            assert json.load(answer)["status"] == "ok"
        running.send_signal(signal.SIGTERM)
        rest, said = running.communicate(timeout=15)
    assert running.returncode == 0
    assert rest == ""
    assert said == ""


def test_visits_outlive_a_restart(tmp_path):
    tokens = []
    for _ in range(2):
        with serving("--database", str(tmp_path / "shop.book")) as (running, line):
            cookie = {"Cookie": tokens[0][1].split(";")[0]} if tokens else {}
            with urllib.request.urlopen(
                urllib.request.Request(line.split()[1] + "login", headers=cookie), timeout=10
            ) as answer:
                page = answer.read().decode()
                tokens.append(
                    (re.search(r'data-token="([^"]+)"', page)[1], answer.headers["Set-Cookie"] or "")
                )
            running.terminate()
            running.wait(15)
    assert tokens[0][0] == tokens[1][0], "the token of an open form still fits"
    assert tokens[1][1] == "", "the cookie is still known"


def test_other_machines_are_not_answered_before_a_manager_has_a_password(tmp_path):
    book = str(tmp_path / "shop.book")
    answer = call("serve", "--host", "0.0.0.0", "--port", "0", "--database", book)
    assert answer.exit_code == 2
    assert "no manager has a password" in answer.stderr
    assert answer.stdout == ""


def test_a_password_is_asked_twice_and_kept(tmp_path):
    book = tmp_path / "shop.book"
    typed = "a long manager word\na long manager word\n"
    answer = call("serve", "--set-password", "Kim", "--database", str(book), input=typed)
    assert answer.exit_code == 0, answer.stderr
    assert "a long manager word" not in answer.output
    opened = open_book(book)
    assert opened.user("Kim").role == "manager"
    opened.close()


def test_with_a_password_other_machines_are_answered(tmp_path):
    book = open_book(tmp_path / "shop.book")
    set_user(book, "Kim", "manager", "a long manager word")
    book.close()
    with serving("--host", "0.0.0.0", "--database", str(tmp_path / "shop.book")) as (_, line):
        port = re.search(r":(\d+)/", line)[1]
        with urllib.request.urlopen(f"http://127.0.0.1:{port}/jobs", timeout=10) as answer:
            assert "/login" in answer.url


def test_a_port_that_is_taken_is_said(tmp_path):
    with serving("--database", str(tmp_path / "one.book")) as (_, line):
        port = re.search(r":(\d+)/", line)[1]
        answer = call("serve", "--port", port, "--database", str(tmp_path / "two.book"))
    assert answer.exit_code == 2
    assert "cannot be had" in answer.stderr


def test_planning_loads_nothing_of_the_pages():
    code = (
        "import sys; from laydown.cli.main import cli; from laydown.desk.plans import plan, outputs; "
        "print([name for name in sys.modules if name.split('.')[0] in "
        "{'starlette', 'uvicorn', 'jinja2', 'sqlalchemy', 'argon2', 'itsdangerous', 'cryptography'} or name.startswith('laydown.web')])"
    )
    found = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, env=dict(os.environ)
    )
    assert found.stdout.strip() == "[]"
