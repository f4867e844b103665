"""Who is let in: roles on every door, tokens, origins, hosts, policy, sizes, tries.

Rules: W3C Content Security Policy Level 3; RFC 6265bis on cookies; OWASP cheat sheet on cross-site request forgery, from memory.
"""

import re
import stat

import pytest

from cases.desk import ORIGIN, Desk
from laydown.schema.problem import InputError, Problem
from laydown.store.faults import BookError
from laydown.web.app import PAGES
from laydown.web.request.visitor import may
from laydown.web.security.keys import open_secret
from laydown.web.security.passwords import MOST_TRIES, Tries, fits, set_user
from laydown.web.security.refused import LARGEST_BODY

DOORS = [door for doors in PAGES for door in doors]
PASSWORDS = {
    "Kim": ("manager", "a long manager word"),
    "Robin": ("painter", "a long painter word"),
    "Lee": ("reader", "a long reader word"),
}


@pytest.fixture
def desk(tmp_path):
    with Desk(tmp_path) as made:
        yield made


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """A shop where everybody has a password and has signed in once."""
    with Desk(tmp_path_factory.mktemp("shop")) as made:
        made.cookies = {}
        for name, (role, word) in PASSWORDS.items():
            set_user(made.book, name, role, word)
            browser = made.visitor()
            assert made.sign_in(name, word, browser).status_code == 303
            made.cookies[role] = browser.cookies["laydown"]
        yield made


def with_cookie(shop, cookie):
    browser = shop.visitor()
    if cookie is not None:
        browser.headers["cookie"] = f"laydown={cookie}"
    return browser


def path_of(door):
    return re.sub(r"\{[^}]*\}", "some", door.path)


@pytest.mark.parametrize("door", DOORS, ids=lambda door: f"{door.method} {door.path}")
@pytest.mark.parametrize("role", ["stranger", "reader", "painter", "manager"])
def test_every_door_asks_for_its_role(shop, door, role):
    browser = with_cookie(shop, shop.cookies.get(role))
    sent = browser.get(path_of(door)) if door.method == "GET" else shop.post(path_of(door), {}, browser)
    refused = sent.status_code in {401, 403} or sent.headers.get("location", "").startswith("/login?then=")
    if door.path == "/login" and door.method == "POST":
        assert sent.status_code in {403, 429}
        return
    assert refused is not may(None if role == "stranger" else role, door.needs)


def test_every_route_but_files_is_a_door(desk):
    names = {route.name for route in desk.app.routes}
    assert names == {f"{door.method} {door.path}" for door in DOORS} | {"static", "font"}


@pytest.mark.parametrize("door", [d for d in DOORS if d.method == "POST"], ids=lambda door: door.path)
def test_no_change_without_the_visitors_own_token(desk, door):
    for token in ("", "guessed", desk.token(desk.visitor())):
        answer = desk.client.post(path_of(door), data={"token": token}, headers={"origin": ORIGIN})
        assert answer.status_code == 403


def test_nothing_is_changed_by_looking(desk):
    changing = {door.path for door in DOORS if door.method == "POST"}
    for path in changing - {door.path for door in DOORS if door.method == "GET"}:
        assert desk.get(re.sub(r"\{[^}]*\}", "some", path)).status_code in {404, 405}


@pytest.mark.parametrize(
    "headers",
    [
        {"origin": "http://evil.example"},
        {"origin": "null"},
        {"origin": "https://localhost.evil.example"},
        {"origin": ORIGIN, "sec-fetch-site": "cross-site"},
        {"sec-fetch-site": "same-site"},
    ],
)
def test_a_form_from_another_site_is_refused(desk, headers):
    answer = desk.client.post("/settings/units", data={"units": "us", "token": desk.token()}, headers=headers)
    assert answer.status_code == 403
    assert desk.book.settings() == {}


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("evil.example", 400),
        ("localhost.evil.example", 400),
        ("", 400),
        ("a b", 400),
        ("localhost:8470", 200),
        ("127.0.0.1:8470", 200),
        ("[::1]:8470", 200),
        ("192.0.2.20", 200),
    ],
)
def test_only_own_names_and_plain_addresses_are_answered(desk, host, status):
    assert desk.get("/healthz", headers={"host": host}).status_code == status


def test_a_given_name_is_answered(tmp_path):
    with Desk(tmp_path, names=frozenset({"booth-desk"})) as desk:
        assert desk.get("/healthz", headers={"host": "booth-desk:8470"}).status_code == 200


@pytest.mark.parametrize(
    "path", ["/jobs", "/login", "/static/desk.css", "/nothing", "/font/SourceSansPro-Bold.otf"]
)
def test_every_answer_carries_the_policy(desk, path):
    headers = desk.get(path).headers
    policy = dict(part.split(" ", 1) for part in headers["content-security-policy"].split("; "))
    assert policy["default-src"] == "'self'"
    assert policy["frame-ancestors"] == "'none'"
    assert "unsafe" not in headers["content-security-policy"]
    assert headers["x-content-type-options"] == "nosniff"


@pytest.mark.parametrize("path", ["/jobs", "/new", "/shelf", "/shelf/new", "/sides", "/settings", "/login"])
def test_no_page_holds_a_script_a_style_or_anything_from_outside(desk, path):
    text = desk.get(path).text
    assert not re.search(r"<script(?![^>]*\ssrc=)", text)
    assert not re.search(r"<style|\sstyle=|\son\w+=", text)
    assert not re.search(r'(?:src|href|action)="(?:https?:)?//', text)


@pytest.mark.parametrize(
    "path",
    [
        "/static/../app.py",
        "/static/%2e%2e/app.py",
        "/static/..%2fapp.py",
        "/static//etc/passwd",
        "/font/../../../../../etc/passwd",
        "/static/%00",
        "/shelf/..%2f..%2fetc%2fpasswd",
        "/sides/..%2f..%2fx/side.json",
    ],
)
def test_no_path_leads_out_of_its_folder(desk, path):
    answer = desk.get(path)
    assert answer.status_code in {400, 404}
    assert "root:" not in answer.text
    assert "make_app" not in answer.text


def test_a_job_reads_no_file_of_the_machine(desk):
    job = b'format = "laydown-job/1"\n[job]\nname = "x"\nside = "left"\n[body]\nfile = "/etc/passwd"\n[[panel]]\nname = "sill"\nstate = "new"\n[air]\ntemperature_c = 20\nrh = 0.5\n[products]\nground = "/etc/passwd"\neffect = "../effect-a.toml"\nclear = "clear-a"\n'
    answer = desk.send("/jobs/in", "file", "job.toml", job)
    assert answer.status_code == 422
    assert "no side" in answer.text
    assert "root:" not in answer.text


def chunks(count):
    for _ in range(count):
        yield b"x" * 100_000


def test_a_body_that_tells_its_size_is_refused_at_once(desk):
    headers = {"origin": ORIGIN, "content-length": str(LARGEST_BODY + 1)}
    assert desk.client.post("/new", content=b"", headers=headers).status_code == 413


def test_a_body_in_chunks_is_stopped_at_the_same_size(desk):
    kinds = ("application/x-www-form-urlencoded", "application/json", "multipart/form-data; boundary=x")
    for kind in kinds:
        headers = {"origin": ORIGIN, "content-type": kind}
        answer = desk.client.post("/new", content=chunks(LARGEST_BODY // 100_000 + 2), headers=headers)
        assert answer.status_code in {400, 413}, kind


def test_the_cookie_is_kept_from_scripts_and_other_sites(tmp_path):
    with Desk(tmp_path, secure=True) as desk:
        cookie = desk.get("/login").headers["set-cookie"].lower()
    for part in ("httponly", "samesite=strict", "secure", "path=/"):
        assert part in cookie


def test_a_forged_cookie_opens_nothing(shop):
    real = shop.cookies["reader"]
    assert with_cookie(shop, real).get("/jobs").status_code == 200
    body, rest = real.split(".", 1)
    for forged in ("manager", body, f"{body[:-2]}xx.{rest}", real[:-3] + "abc", "e30.e30.e30"):
        assert with_cookie(shop, forged).get("/jobs").status_code == 303


def test_a_new_password_puts_everybody_out_who_knew_the_old_one(tmp_path):
    with Desk(tmp_path) as desk:
        set_user(desk.book, "Kim", "manager", "the first long word")
        desk.sign_in("Kim", "the first long word", desk.client)
        assert desk.get("/jobs").status_code == 200
        set_user(desk.book, "Kim", "manager", "the second long word")
        assert desk.get("/jobs").status_code == 303


def test_leaving_forgets_the_visitor(tmp_path):
    with Desk(tmp_path) as desk:
        set_user(desk.book, "Kim", "manager", "the first long word")
        desk.sign_in("Kim", "the first long word", desk.client)
        desk.post("/logout", {})
        assert desk.get("/jobs").headers["location"].startswith("/login")


def test_the_first_manager_stays_in_and_all_others_need_a_password(desk):
    other = desk.visitor()
    assert desk.get("/jobs", other).status_code == 200
    desk.post("/settings/user", {"name": "Kim", "role": "manager", "password": "the first long word"})
    assert desk.get("/settings").status_code == 200
    assert desk.get("/jobs", other).status_code == 303


@pytest.mark.parametrize(
    ("fields", "place"),
    [
        ({"name": "Kim", "role": "manager", "password": "short"}, "password"),
        ({"name": "", "role": "manager", "password": "long enough now"}, "name"),
        ({"name": "Lee", "role": "reader", "password": "long enough now"}, "role"),
    ],
)
def test_each_problem_of_a_user_stands_at_its_field(desk, fields, place):
    answer = desk.post("/settings/user", fields)
    assert answer.status_code == 422
    assert f'id="f-{place}-problem"' in answer.text
    assert desk.book.users() == ()


def test_guessing_is_slowed_for_the_guesser_only(tmp_path):
    with Desk(tmp_path) as desk:
        set_user(desk.book, "Kim", "manager", "the first long word")
        guesser = desk.visitor("192.0.2.9")
        codes = [desk.sign_in("Kim", f"guess number {n}", guesser).status_code for n in range(MOST_TRIES + 1)]
        assert codes == [403] * MOST_TRIES + [429]
        assert desk.sign_in("Kim", "the first long word", guesser).status_code == 429
        assert desk.sign_in("Kim", "the first long word", desk.visitor("192.0.2.8")).status_code == 303


def test_tries_come_back_one_by_one():
    tries = Tries()
    assert [tries.take_s("a", 0.0) for _ in range(MOST_TRIES)] == [0.0] * MOST_TRIES
    assert tries.take_s("a", 0.0) == pytest.approx(60.0)
    assert tries.take_s("b", 0.0) == 0.0
    assert tries.take_s("a", 61.0) == 0.0
    assert tries.take_s("a", 61.0) > 0.0


@pytest.mark.parametrize(
    "then",
    ["//evil.example", "https://evil.example", "/\\evil.example", "javascript:alert(1)", "/jobs\r\nx: y"],
)
def test_signing_in_leads_only_to_own_pages(tmp_path, then):
    with Desk(tmp_path) as desk:
        set_user(desk.book, "Kim", "manager", "the first long word")
        answer = desk.post("/login", {"name": "Kim", "password": "the first long word", "then": then})
        assert answer.headers["location"] == "/"


def test_passwords_are_kept_as_slow_hashes(tmp_path):
    with Desk(tmp_path) as desk:
        set_user(desk.book, "Kim", "manager", "the first long word")
        user = desk.book.user("Kim")
        # Argon2id with 64 MiB or more: RFC 9106, second recommended option.
        assert user.password_hash.startswith("$argon2id$")
        assert int(re.search(r"m=(\d+)", user.password_hash)[1]) >= 65_536
        assert fits(user, "the first long word")
        assert not fits(user, "the first long wort")
        assert not fits(None, "nobody has this password")


def test_the_secret_is_made_once_and_read_by_its_owner_only(tmp_path):
    file = tmp_path / "shop" / "secret"
    first = open_secret(file)
    assert open_secret(file) == first
    assert len(first) >= 64
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    file.chmod(0o644)
    with pytest.raises(InputError, match="1 problem"):
        open_secret(file)
    assert [one.name for one in file.parent.iterdir()] == ["secret"]


def test_health_is_told_without_a_password(shop):
    answer = shop.visitor().get("/healthz").json()
    assert answer["status"] == "ok"
    assert answer["book"] == "sqlite"
    assert re.fullmatch(r"\d+\.\d+\.\d+.*", answer["version"])


def test_a_fault_of_the_program_tells_no_insides(desk, monkeypatch):
    monkeypatch.setattr(type(desk.book), "jobs", lambda _self: 1 / 0)
    answer = desk.get("/jobs")
    assert answer.status_code == 500
    assert "Fault in laydown" in answer.text
    assert "ZeroDivision" not in answer.text


@pytest.mark.parametrize("method", ["users", "jobs"])
def test_a_book_that_fails_is_said_in_plain_words(desk, monkeypatch, method):
    def fail(_self):
        raise BookError("shop.book", (Problem("book", "cannot grow: the disk is full", "make room"),))

    monkeypatch.setattr(type(desk.book), method, fail)
    answer = desk.get("/jobs")
    assert answer.status_code == 503
    assert "the disk is full" in answer.text
    assert "make room" in answer.text
