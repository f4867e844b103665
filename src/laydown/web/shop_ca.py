"""A certificate authority for one shop, and the certificates it signs: made here, never seen by anybody outside.

Sources: RFC 5280 (certificates, name constraints), RFC 6125 and RFC 9525 (names and addresses of a server), CA/Browser Forum
Baseline Requirements, section 6.3.2 (lifetime of a server's certificate).
"""

import ipaddress
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from ipaddress import IPv4Network, IPv6Network

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

from laydown.web.certificate import general_name

CA_LIFE = timedelta(days=3650)
"""Life of a shop's authority; assumption, longer than a tablet lasts: a new one must be installed on each again."""

LONGEST_LIFE = timedelta(days=397)
"""Longest life of a server's certificate that systems put up with. Source: Baseline Requirements 6.3.2, less a day."""

LIFE = timedelta(days=180)
"""Life of a server's certificate; assumption, a half year that the desk may stand switched off."""

SLACK = timedelta(hours=24)
"""How far back a certificate begins, for tablets whose clock is behind; assumption."""

_PRIVATE = (
    IPv4Network((0x7F000000, 8)),  # this machine
    IPv4Network((0x0A000000, 8)),  # 10/8
    IPv4Network((0xAC100000, 12)),  # 172.16/12
    IPv4Network((0xC0A80000, 16)),  # 192.168/16
    IPv4Network((0xA9FE0000, 16)),  # 169.254/16, without anybody who gives addresses out
    IPv6Network("::1/128"),
    IPv6Network("fc00::/7"),
    IPv6Network("fe80::/10"),
)
"""Addresses that lead to no other place in the world. Sources: RFC 1918, RFC 3927, RFC 4193, RFC 4291."""


@dataclass(frozen=True, slots=True)
class Authority:
    """A shop's authority.

    Attributes
    ----------
    certificate, key
        What tablets are told to trust, and what signs.
    """

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


@dataclass(frozen=True, slots=True)
class Served:
    """A server's certificate.

    Attributes
    ----------
    certificate, key
        What the server shows, and what only it has.
    """

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


def make_authority(names: Iterable[str], now: datetime) -> Authority:
    """Make an authority that can vouch for a shop's own names and for private addresses, and for nothing else.

    Parameters
    ----------
    names
        Names and addresses the desk is reached by; all plain ASCII.
    now
        The time, with its zone.

    Returns
    -------
    Authority with a new key on the curve P-256.

    Notes
    -----
    A tablet that trusts it would otherwise believe whoever steals its key to be any place in the world.
    """
    key = ec.generate_private_key(ec.SECP256R1())
    name = _name("laydown: this shop's own authority")
    private = [x509.IPAddress(one) for one in _PRIVATE]
    own = [_allowed(one) for one in names]
    builder = (
        _begun(name, name, key.public_key(), (now - SLACK, now + CA_LIFE))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints([*own, *private], None), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )
    return Authority(builder.sign(key, hashes.SHA256()), key)


def make_served(authority: Authority, names: Sequence[str], now: datetime) -> Served:
    """Make a certificate for the names and addresses that are served.

    Parameters
    ----------
    authority
        Who vouches for it.
    names
        Names and addresses; all plain ASCII.
    now
        The time, with its zone.

    Returns
    -------
    Certificate with a new key; it ends with its authority at the latest.
    """
    key = ec.generate_private_key(ec.SECP256R1())
    ends = min(now + LIFE, authority.certificate.not_valid_after_utc)
    builder = (
        _begun(_name("laydown"), authority.certificate.subject, key.public_key(), (now - SLACK, ends))
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(x509.SubjectAlternativeName([general_name(one) for one in names]), critical=False)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key()), critical=False
        )
    )
    return Served(builder.sign(authority.key, hashes.SHA256()), key)


def _begun(
    subject: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePublicKey,
    life: tuple[datetime, datetime],
) -> x509.CertificateBuilder:
    """Begin a certificate."""
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .public_key(key)
        .serial_number(x509.random_serial_number())
        .not_valid_before(life[0])
        .not_valid_after(life[1])
    )


def _name(words: str) -> x509.Name:
    """Name of somebody in a certificate."""
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, words)])


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    """What a key is for."""
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        encipher_only=False,
        decipher_only=False,
    )


def _allowed(name: str) -> x509.DNSName | x509.IPAddress:
    """A name or an address, as an authority states what it may vouch for."""
    try:
        return x509.IPAddress(ipaddress.ip_network(name))
    except ValueError:
        return x509.DNSName(name)
