"""What a certificate says: its names, whether it has to be renewed, what an authority can vouch for.

Sources: RFC 5280 (certificates, name constraints), RFC 9525 (names and addresses of a server).
"""

import ipaddress
from collections.abc import Iterable
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec

RENEWED_BEFORE = timedelta(days=60)
"""What is left of it when it is renewed; assumption."""


def general_name(name: str) -> x509.DNSName | x509.IPAddress:
    """Return a name or an address as a server's certificate states it.

    Parameters
    ----------
    name
        Name or address; plain ASCII.

    Returns
    -------
    Name or address.
    """
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def needs_renewal(
    certificate: x509.Certificate, authority: x509.Certificate, names: Iterable[str], now: datetime
) -> bool:
    """Tell whether a server's certificate has to be made anew.

    Parameters
    ----------
    certificate
        The certificate.
    authority
        Who must vouch for it.
    names
        Names and addresses that are served now.
    now
        The time, with its zone.

    Returns
    -------
    Whether it ends soon, has not begun, is of another authority, or lacks a name.
    """
    try:
        certificate.verify_directly_issued_by(authority)
    except Exception:  # noqa: BLE001 - whatever is wrong with it, a new one mends it
        return True
    begins, ends = certificate.not_valid_before_utc, certificate.not_valid_after_utc
    ends_soon = ends - now < RENEWED_BEFORE and ends < authority.not_valid_after_utc
    return ends_soon or ends <= now or now < begins or not set(names) <= set(served_names(certificate))


def served_names(certificate: x509.Certificate) -> tuple[str, ...]:
    """Return the names and addresses that a certificate is good for.

    Parameters
    ----------
    certificate
        Certificate of a server.

    Returns
    -------
    Names first, as they stand in it.
    """
    found = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    addresses = found.get_values_for_type(x509.IPAddress)
    return (*found.get_values_for_type(x509.DNSName), *(str(one) for one in addresses))


def may_vouch(authority: x509.Certificate, name: str) -> bool:
    """Tell whether an authority can vouch for a name or an address.

    Parameters
    ----------
    authority
        Certificate of the authority.
    name
        Name or address.

    Returns
    -------
    Whether it was made for it.
    """
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
    """Return what tells a certificate from any other.

    Parameters
    ----------
    certificate
        The certificate.

    Returns
    -------
    SHA-256 as pairs of hexadecimal digits, as systems show it.
    """
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def pem_of_key(key: ec.EllipticCurvePrivateKey) -> bytes:
    """Write a private key.

    Parameters
    ----------
    key
        The key.

    Returns
    -------
    PEM, not encrypted.
    """
    return key.private_bytes(
        serialization.Encoding.PEM, serialization.PrivateFormat.PKCS8, serialization.NoEncryption()
    )


def pem_of(certificate: x509.Certificate) -> bytes:
    """Write a certificate.

    Parameters
    ----------
    certificate
        The certificate.

    Returns
    -------
    PEM.
    """
    return certificate.public_bytes(serialization.Encoding.PEM)
