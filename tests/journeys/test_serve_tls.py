"""laydown serve --tls as a process: trusted by whoever trusts the shop's authority, and renewed while it answers."""

import json
import re
import socket
import ssl
import subprocess
import threading
import time
import urllib.request
from datetime import UTC, datetime, timedelta
from pathlib import Path

import pytest
import uvicorn
from cryptography import x509

from cases.serving import call, serving
from laydown.store.opening import open_book
from laydown.web.app import make_app
from laydown.web.request.visitor import Settings
from laydown.web.security.passwords import set_user
from laydown.web.security.shop_authority import LIFE
from laydown.web.security.tls import open_shop_tls
from laydown.web.server import Secured, Server


def trusting(ca_file):
    context = ssl.create_default_context(cafile=ca_file)
    context.verify_flags |= ssl.VERIFY_X509_STRICT
    return context


def shown(port, ca_file):
    """The certificate that a server shows to a strict client."""
    with (
        socket.create_connection(("127.0.0.1", port), 10) as plain,
        trusting(ca_file).wrap_socket(plain, server_hostname="127.0.0.1") as secure,
    ):
        return x509.load_der_x509_certificate(secure.getpeercert(binary_form=True))


def test_it_makes_an_authority_says_where_and_is_trusted_by_who_trusts_that(tmp_path):
    book = tmp_path / "shop.book"
    with serving("--database", str(book), "--tls") as (running, line):
        assert re.fullmatch(r"ready https://127\.0\.0\.1:\d+/\n", line)
        address = line.split()[1]
        ca_file = tmp_path / "shop.book.tls" / "ca" / "laydown-shop-ca.crt"
        with urllib.request.urlopen(f"{address}healthz", timeout=10, context=trusting(ca_file)) as answer:
            assert json.load(answer)["status"] == "ok"
        by_name = address.replace("127.0.0.1", "localhost")
        with urllib.request.urlopen(f"{by_name}shop-ca.crt", timeout=10, context=trusting(ca_file)) as answer:
            assert answer.headers["content-type"] == "application/x-x509-ca-cert"
            assert answer.read() == ca_file.read_bytes()
        with pytest.raises(OSError, match="CERTIFICATE_VERIFY_FAILED"):
            urllib.request.urlopen(f"{address}healthz", timeout=10)
        running.terminate()
        _, said = running.communicate(timeout=15)
    assert running.returncode == 0
    assert f"shop authority, new: {ca_file}" in said
    assert re.search(r"SHA-256 ([0-9A-F]{2}:){31}[0-9A-F]{2}\n", said)
    assert "install it once on every tablet" in said
    page = Path(__file__).parents[2] / re.search(r"docs/howto/\S+\.md", said)[0]
    assert page.exists()
    assert "PRIVATE" not in said


def test_a_second_start_goes_by_the_same_authority_in_a_folder_of_ones_choice(tmp_path):
    prints = []
    for _ in range(2):
        folder = tmp_path / "here"
        with serving("--database", str(tmp_path / "b"), "--tls", "--tls-folder", str(folder)) as (
            running,
            line,
        ):
            assert line.startswith("ready https://")
            running.terminate()
            prints.append(re.findall(r"SHA-256 (\S+)", running.communicate(timeout=15)[1])[0])
    assert prints[0] == prints[1]
    assert not (tmp_path / "b.tls").exists()


def test_names_and_addresses_that_are_served_stand_in_the_certificate(tmp_path):
    book = open_book(tmp_path / "shop.book")
    set_user(book, "Kim", "manager", "a long manager word")
    book.close()
    options = ("--host", "0.0.0.0", "--name", "booth-desk", "--name", "169.254.7.7", "--tls")
    with serving("--database", str(tmp_path / "shop.book"), *options) as (running, line):
        assert line.startswith("ready https://")
        running.terminate()
        said = running.communicate(timeout=15)[1]
    for name in ("booth-desk", "169.254.7.7", "127.0.0.1", "localhost"):
        assert re.search(rf"good for .*\b{re.escape(name)}\b", said)


def test_files_of_somebody_else_still_serve(tmp_path):
    certificate, key = tmp_path / "desk.pem", tmp_path / "desk.key"
    words = ["req", "-x509", "-newkey", "ec", "-pkeyopt", "ec_paramgen_curve:P-256", "-nodes", "-days", "2"]
    names = ["-subj", "/CN=desk", "-addext", "subjectAltName=IP:127.0.0.1"]
    command = ["openssl", *words, *names, "-out", str(certificate), "-keyout", str(key)]
    subprocess.run(command, check=True, capture_output=True)
    key.chmod(0o600)
    options = ("--tls", "--certificate", str(certificate), "--key", str(key))
    with serving("--database", str(tmp_path / "shop.book"), *options) as (running, line):
        context = ssl.create_default_context(cafile=certificate)
        with urllib.request.urlopen(f"{line.split()[1]}login", timeout=10, context=context) as answer:
            assert "secure" in answer.headers["set-cookie"].lower()
        with pytest.raises(OSError, match="404"):
            urllib.request.urlopen(f"{line.split()[1]}shop-ca.crt", timeout=10, context=context)
        running.terminate()
        assert running.communicate(timeout=15)[1] == ""
    assert not (tmp_path / "shop.book.tls").exists()


@pytest.mark.parametrize(
    ("options", "said"),
    [
        (
            ["--tls", "--certificate", "none.pem", "--key", "none.pem"],
            ("--certificate", "--key", "is no file"),
        ),
        (["--tls", "--certificate", "none.pem"], ("--certificate", "--key", "is missing")),
        (["--certificate", "none.pem", "--key", "none.pem"], ("--tls", "with --tls only")),
        (["--tls-folder", "somewhere"], ("--tls", "with --tls only")),
        (["--tls", "--name", "a b"], ("--name", "is no name of a machine")),
    ],
)
def test_options_that_do_not_go_together_are_refused_all_at_once(tmp_path, options, said):
    answer = call("serve", *options, "--port", "0", "--database", str(tmp_path / "shop.book"))
    assert answer.exit_code == 2
    assert all(one in answer.stderr for one in said)


def test_a_key_that_others_may_read_stops_the_start(tmp_path):
    with serving("--database", str(tmp_path / "shop.book"), "--tls") as (running, _):
        running.terminate()
        running.communicate(timeout=15)
    key = tmp_path / "shop.book.tls" / "ca" / "laydown-shop-ca.key"
    key.chmod(0o644)
    answer = call("serve", "--tls", "--port", "0", "--database", str(tmp_path / "shop.book"))
    assert answer.exit_code == 3, "a faulty file"
    assert "others may read it" in answer.stderr
    assert "chmod 600" in answer.stderr


def test_a_certificate_is_renewed_while_the_server_answers_and_an_open_visit_goes_on(tmp_path):
    # Made so long ago that it is due today; what is new must be good by the real clock of the client.
    clock = [datetime.now(UTC) - LIFE + timedelta(days=50)]
    shop = open_shop_tls(tmp_path / "tls", (), ("127.0.0.1",), clock[0])
    book = open_book(tmp_path / "shop.book")
    file, ready = str(shop.served_file), threading.Event()
    secured = Secured(file, file, shop.renew, lambda: clock[0], 0.02)
    app = make_app(book, Settings("s" * 64, secure=True))
    config = uvicorn.Config(app, log_level="warning", **secured.files())
    server = Server(config, app.state.watchers, ready.set, secured)
    with socket.create_server(("127.0.0.1", 0)) as listening:
        port = listening.getsockname()[1]
        thread = threading.Thread(target=server.run, args=([listening],), daemon=True)
        thread.start()
        assert ready.wait(20)
        first = shown(port, shop.ca_file)
        with (
            socket.create_connection(("127.0.0.1", port), 10) as plain,
            trusting(shop.ca_file).wrap_socket(plain, server_hostname="127.0.0.1") as visit,
        ):
            clock[0] = datetime.now(UTC)
            deadline = time.monotonic() + 20
            while shown(port, shop.ca_file).serial_number == first.serial_number:
                assert time.monotonic() < deadline, "the old certificate is still shown"
            second = shown(port, shop.ca_file)
            visit.sendall(b"GET /healthz HTTP/1.1\r\nHost: 127.0.0.1\r\nConnection: close\r\n\r\n")
            assert b"200 OK" in visit.recv(4096)
        assert second.not_valid_after_utc > first.not_valid_after_utc
        server.should_exit = True
        thread.join(20)
    book.close()
