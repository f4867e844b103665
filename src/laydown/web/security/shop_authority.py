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
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

RENEWED_BEFORE = timedelta(days=60)
"""What is left of it when it is renewed; assumption."""


def general_name(name: str) -> x509.DNSName | x509.IPAddress:
    """Return a name or an address as a server's certificate states it."""
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def needs_renewal(
    certificate: x509.Certificate, authority: x509.Certificate, names: Iterable[str], now: datetime
) -> bool:
    """Tell whether a server's certificate has to be made anew."""
    try:
        certificate.verify_directly_issued_by(authority)
    except Exception:  # noqa: BLE001 - whatever is wrong with it, a new one mends it
        return True
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    ends_soon = ends - now < RENEWED_BEFORE and ends < authority.not_valid_after_utc
    return ends_soon or ends <= now or now < begins or not set(names) <= set(served_names(certificate))


def served_names(certificate: x509.Certificate) -> tuple[str, ...]:
    """Return the names and addresses that a certificate is good for."""
    found = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    addresses = found.get_values_for_type(x509.IPAddress)
    return (*found.get_values_for_type(x509.DNSName), *(str(one) for one in addresses))


def may_vouch(authority: x509.Certificate, name: str) -> bool:
    """Tell whether an authority can vouch for a name or an address."""
    limits = authority.extensions.get_extension_for_class(x509.NameConstraints).value
    return any(_is_within(general_name(name), allowed) for allowed in limits.permitted_subtrees or [])


def _is_within(name: x509.GeneralName, allowed: x509.GeneralName) -> bool:
    """Whether a name lies within what is allowed; a name allows every name below it (RFC 5280, 4.2.1.10)."""
    if isinstance(name, x509.DNSName) and isinstance(allowed, x509.DNSName):
        return f".{name.value}".endswith(f".{allowed.value}")
    if isinstance(name, x509.IPAddress) and isinstance(allowed, x509.IPAddress):
        address, network = ipaddress.ip_address(str(name.value)), ipaddress.ip_network(str(allowed.value))
        return address in network
    return False


def fingerprint(certificate: x509.Certificate) -> str:
    """Return what tells a certificate from any other."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def pem_of_key(key: ec.EllipticCurvePrivateKey) -> bytes:
    """Write a private key."""
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def pem_of(certificate: x509.Certificate) -> bytes:
    """Write a certificate."""
    return certificate.public_bytes(serialization.Encoding.PEM)


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
    """A shop's authority."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


@dataclass(frozen=True, slots=True)
class Served:
    """A server's certificate."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


def make_authority(names: Iterable[str], now: datetime) -> Authority:
    """Make an authority that can vouch for a shop's own names and for private addresses, and for nothing else.

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
    """Make a certificate for the names and addresses that are served."""
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
