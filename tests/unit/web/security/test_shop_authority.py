"""The shop's own authority and its certificates, judged by OpenSSL: what it trusts, what it refuses, and when one is renewed.

Rules: RFC 5280 (certificates, name constraints), RFC 9525 (names of a server); lifetime: CA/Browser Forum Baseline
Requirements, section 6.3.2 (398 days at most). OpenSSL checks strictly (X509_V_FLAG_X509_STRICT) as Python does from 3.13 on.
"""

import ipaddress
import ssl
import stat
import subprocess
import threading
from datetime import UTC, datetime, timedelta

import pytest
from cryptography import x509

from cases.speech import english
from laydown.schema.problem import InputError
from laydown.web.security.shop_authority import (
    LIFE,
    LONGEST_LIFE,
    make_authority,
    make_served,
    may_vouch,
    pem_of,
    pem_of_key,
)
from laydown.web.security.tls import check_own_files, open_shop_tls

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)
FOUND = ("localhost", "127.0.0.1", "::1")


def told(error):
    return " | ".join(
        f"{one.where}: {english(one.what)} / {english(one.hint)}" for one in error.value.problems
    )


def opened(folder, *asked, now=NOW, found=FOUND):
    return open_shop_tls(folder, asked, found, now)


def served(tls):
    return x509.load_pem_x509_certificates(tls.served_file.read_bytes())


def shakes_hands(ca_file, served_file, name):
    """Whether a strict OpenSSL client that trusts the authority accepts the server under a name; both in memory."""
    ours = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    ours.load_cert_chain(served_file)
    theirs = ssl.create_default_context(cafile=ca_file)
    theirs.verify_flags |= ssl.VERIFY_X509_STRICT
    to_server, to_client = ssl.MemoryBIO(), ssl.MemoryBIO()
    server = ours.wrap_bio(to_server, to_client, server_side=True)
    client = theirs.wrap_bio(to_client, to_server, server_hostname=name)
    for _ in range(6):
        for side in (client, server):
            try:
                side.do_handshake()
            except ssl.SSLWantReadError:
                continue
            except ssl.SSLCertVerificationError:
                return False
    return client.version() == "TLSv1.3"


@pytest.fixture
def today():
    """OpenSSL looks at the real clock."""
    return datetime.now(UTC)


@pytest.mark.parametrize("name", ["localhost", "booth-desk", "127.0.0.1", "::1", "169.254.1.20"])
def test_openssl_trusts_every_name_and_address_that_is_served(tmp_path, today, name):
    tls = opened(tmp_path, "booth-desk", "169.254.1.20", now=today)
    assert shakes_hands(tls.ca_file, tls.served_file, name)


@pytest.mark.parametrize("name", ["other-desk", "bank.example", "169.254.1.21"])
def test_openssl_refuses_every_other_name(tmp_path, today, name):
    tls = opened(tmp_path, "booth-desk", "169.254.1.20", now=today)
    assert not shakes_hands(tls.ca_file, tls.served_file, name)


@pytest.mark.parametrize(
    ("name", "trusted"),
    [
        ("booth-desk", True),
        ("bank.example", False),
        ("8.8.8.8", False),
        (str(ipaddress.ip_address(0x0A010203)), True),
        (str(ipaddress.ip_address(0xC0A80101)), True),
        ("fd00::7", True),
    ],
)
def test_who_steals_the_authority_can_be_the_shop_but_no_place_in_the_world(tmp_path, today, name, trusted):
    """OpenSSL itself checks the name constraints, on a certificate that the authority should never have signed."""
    authority = make_authority(["booth-desk"], today)
    forged = make_served(authority, [name], today)
    (tmp_path / "ca").write_bytes(pem_of(authority.certificate))
    (tmp_path / "served").write_bytes(pem_of_key(forged.key) + pem_of(forged.certificate))
    assert shakes_hands(tmp_path / "ca", tmp_path / "served", name) is trusted
    assert may_vouch(authority.certificate, name) is trusted


def test_the_openssl_program_says_what_the_certificates_are_for(tmp_path, today):
    tls = opened(tmp_path, "booth-desk", now=today)
    (tmp_path / "one.pem").write_bytes(pem_of(served(tls)[0]))

    def said(*words):
        return subprocess.run(["openssl", *words], check=True, capture_output=True, text=True).stdout

    checked = said(
        "verify",
        "-x509_strict",
        "-purpose",
        "sslserver",
        "-CAfile",
        str(tls.ca_file),
        str(tmp_path / "one.pem"),
    )
    assert checked.strip().endswith("OK")
    authority = said("x509", "-in", str(tls.ca_file), "-noout", "-text")
    assert "CA:TRUE, pathlen:0" in authority
    assert "Certificate Sign, CRL Sign" in authority
    assert "X509v3 Name Constraints: critical" in authority
    shown = said("x509", "-in", str(tls.ca_file), "-noout", "-fingerprint", "-sha256")
    assert shown.strip().endswith(tls.ca_fingerprint)
    own = said("x509", "-in", str(tmp_path / "one.pem"), "-noout", "-text")
    assert "CA:FALSE" in own
    assert "TLS Web Server Authentication" in own


def test_a_servers_certificate_lives_no_longer_than_systems_put_up_with(tmp_path):
    certificate = served(opened(tmp_path))[0]
    life = certificate.not_valid_after_utc - certificate.not_valid_before_utc
    assert LIFE <= life <= LONGEST_LIFE <= timedelta(days=397)


def test_the_authority_is_made_once_and_the_certificate_stays_until_it_is_due(tmp_path):
    first = opened(tmp_path)
    ca, one = first.ca_file.read_bytes(), first.served_file.read_bytes()
    again = opened(tmp_path, now=NOW + timedelta(days=100))
    assert (again.ca_file.read_bytes(), again.served_file.read_bytes()) == (ca, one)
    assert not again.renew(NOW + timedelta(days=119))
    assert again.renew(NOW + timedelta(days=121))
    assert served(again)[0].not_valid_after_utc == NOW + timedelta(days=121) + LIFE
    assert again.ca_file.read_bytes() == ca, "tablets have nothing to do"
    assert not again.renew(NOW + timedelta(days=122))


@pytest.mark.parametrize(
    "spoil",
    [
        lambda file: file.unlink(),
        lambda file: file.write_bytes(b"nothing"),
        lambda file: file.write_bytes(file.read_bytes()[:400]),
    ],
    ids=["gone", "not one", "cut off"],
)
def test_a_servers_certificate_that_is_lost_is_made_anew(tmp_path, spoil):
    first = opened(tmp_path)
    number = served(first)[0].serial_number
    spoil(first.served_file)
    first.served_file.touch(mode=0o600)
    first.served_file.chmod(0o600)
    assert served(opened(tmp_path))[0].serial_number != number


def test_a_new_name_gets_a_new_certificate_and_an_older_name_stays_good_for_nothing_less(tmp_path):
    first = opened(tmp_path, "booth-desk", "office")
    number = served(first)[0].serial_number
    assert served(opened(tmp_path, "booth-desk"))[0].serial_number == number, "fewer names need no new one"
    more = opened(tmp_path, "booth-desk", "169.254.0.7")
    assert "169.254.0.7" in more.good_for()[0]


def test_a_clock_that_was_put_back_gets_a_certificate_that_has_begun(tmp_path):
    opened(tmp_path)
    earlier = NOW - timedelta(days=30)
    tls = open_shop_tls(tmp_path, (), FOUND, earlier)
    assert served(tls)[0].not_valid_before_utc < earlier


def test_files_are_their_owners_only_and_the_certificate_may_be_read(tmp_path):
    tls = opened(tmp_path / "shop" / "tls")
    modes = {one.name: stat.S_IMODE(one.stat().st_mode) for one in sorted(tls.folder.rglob("*"))}
    assert modes == {
        "ca": 0o700,
        "laydown-shop-ca.crt": 0o644,
        "laydown-shop-ca.key": 0o600,
        "served.pem": 0o600,
    }
    assert stat.S_IMODE(tls.folder.stat().st_mode) == 0o700
    assert "PRIVATE" not in tls.ca_file.read_text()


@pytest.mark.parametrize("mode", [0o640, 0o604, 0o660, 0o644])
@pytest.mark.parametrize("name", ["ca/laydown-shop-ca.key", "served.pem"])
def test_a_key_that_others_may_read_is_refused_with_what_to_do(tmp_path, name, mode):
    opened(tmp_path)
    (tmp_path / name).chmod(mode)
    with pytest.raises(InputError) as refused:
        opened(tmp_path)
    assert "others may read it" in told(refused)
    assert f"chmod 600 {tmp_path / name}" in told(refused)
    (tmp_path / name).chmod(0o600)
    opened(tmp_path)


def other_key(folder):
    other = make_authority(["x"], NOW)
    (folder / "laydown-shop-ca.key").write_bytes(pem_of_key(other.key))


@pytest.mark.parametrize(
    ("spoil", "said"),
    [
        (lambda ca: (ca / "laydown-shop-ca.key").unlink(), "lacks laydown-shop-ca.key"),
        (lambda ca: (ca / "laydown-shop-ca.crt").unlink(), "lacks laydown-shop-ca.crt"),
        (lambda ca: (ca / "laydown-shop-ca.crt").write_text("no"), "no certificate or key"),
        (lambda ca: (ca / "laydown-shop-ca.key").write_text("no"), "no certificate or key"),
        (other_key, "does not belong to its certificate"),
    ],
)
def test_an_authority_that_is_damaged_is_said_and_not_replaced_unasked(tmp_path, spoil, said):
    opened(tmp_path)
    spoil(tmp_path / "ca")
    with pytest.raises(InputError) as refused:
        opened(tmp_path)
    assert said in told(refused)
    assert "put back a copy" in told(refused)


def test_an_authority_that_ends_says_so_in_time(tmp_path):
    opened(tmp_path)
    last_good = NOW + timedelta(days=3650 - 61)
    tls = opened(tmp_path, now=last_good)
    assert served(tls)[0].not_valid_after_utc <= NOW + timedelta(days=3650)
    assert not tls.renew(last_good), "a certificate cannot outlive its authority"
    with pytest.raises(InputError) as refused:
        opened(tmp_path, now=NOW + timedelta(days=3650 - 59))
    assert "ends on 2036-11-22" in told(refused)
    assert "install the new one on every tablet" in told(refused)


def test_a_name_that_the_authority_was_not_made_for_is_refused_and_one_that_was_only_found_is_left_out(
    tmp_path,
):
    opened(tmp_path, "booth-desk")
    for name in ("office", "203.0.113.9"):
        with pytest.raises(InputError) as refused:
            opened(tmp_path, "booth-desk", name)
        assert f"'{name}' is a name that the shop's authority was not made for" in told(refused)
    tls = opened(tmp_path, "booth-desk", found=(*FOUND, "another-name", "203.0.113.9"))
    assert set(tls.good_for()[0]) == {"booth-desk", *FOUND}


@pytest.mark.parametrize("name", ["a b", "", "x/y", "-", "*.example", "a" * 300, "\ud800", "http://desk"])
def test_what_is_no_name_of_a_machine_is_said(tmp_path, name):
    with pytest.raises(InputError) as refused:
        opened(tmp_path, name)
    assert "is no name of a machine" in told(refused)
    assert not (tmp_path / "ca").exists()


def test_names_are_written_as_certificates_hold_them(tmp_path):
    names = opened(tmp_path, "Booth-Desk", "bücher", "::0001").good_for()[0]
    assert "booth-desk" in names
    assert "xn--bcher-kva" in names, "the usual example of an A-label (RFC 5890), from memory"
    assert {str(ipaddress.ip_address("::1"))} <= set(names)


def test_a_folder_that_cannot_be_made_is_said(tmp_path):
    (tmp_path / "file").write_text("")
    with pytest.raises(InputError) as refused:
        opened(tmp_path / "file" / "tls")
    assert "--tls-folder" in told(refused)


def test_of_many_first_starts_at_once_one_authority_stays(tmp_path):
    start, seen = threading.Barrier(6), []

    def begin():
        start.wait()
        seen.append(opened(tmp_path).ca_fingerprint)

    threads = [threading.Thread(target=begin) for _ in range(6)]
    for one in threads:
        one.start()
    for one in threads:
        one.join(60)
    assert len(seen) == 6
    assert len(set(seen)) == 1
    assert sorted(one.name for one in tmp_path.iterdir()) == ["ca", "served.pem"]


# files of somebody else


@pytest.fixture
def own(tmp_path):
    """Certificate and key as another program makes them."""
    certificate, key = tmp_path / "desk.pem", tmp_path / "desk.key"
    words = ["req", "-x509", "-newkey", "rsa:2048", "-nodes", "-subj", "/CN=desk", "-days", "2"]
    command = ["openssl", *words, "-out", str(certificate), "-keyout", str(key)]
    subprocess.run(command, check=True, capture_output=True)
    key.chmod(0o600)
    return certificate, key


def test_files_of_somebody_else_are_taken(own):
    check_own_files(*own)
    own[1].chmod(0o640)
    check_own_files(*own)


def test_what_is_wrong_with_files_of_somebody_else_is_said(own, tmp_path):
    certificate, key = own
    key.chmod(0o644)
    with pytest.raises(InputError) as refused:
        check_own_files(certificate, key)
    assert "everybody may read it" in told(refused)
    assert f"chmod 600 {key}" in told(refused)
    key.chmod(0o600)
    other = tmp_path / "other.key"
    other.write_bytes(pem_of_key(make_authority(["x"], NOW).key))
    other.chmod(0o600)
    same_kind = tmp_path / "same.key"
    subprocess.run(["openssl", "genrsa", "-out", str(same_kind), "2048"], check=True, capture_output=True)
    for one in (other, same_kind):
        with pytest.raises(InputError) as refused:
            check_own_files(certificate, one)
        assert "do not belong together" in told(refused)
    locked = tmp_path / "locked.key"
    words = ["rsa", "-aes256", "-passout", "pass:word", "-in", str(key), "-out", str(locked)]
    subprocess.run(["openssl", *words], check=True, capture_output=True)
    locked.chmod(0o600)
    with pytest.raises(InputError) as refused:
        check_own_files(certificate, locked)
    assert "is encrypted" in told(refused)
    certificate.write_text("nothing")
    with pytest.raises(InputError) as refused:
        check_own_files(certificate, key)
    assert "cannot be used" in told(refused)
