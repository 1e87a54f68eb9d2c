"""The workshop's own certificate: an authority that vouches for this machine's names alone."""

from __future__ import annotations

import datetime as dt
import ipaddress
import os
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID

# Telephones trust a certificate of at most 825 days.
# Source: Apple, Requirements for trusted certificates (HT210176), 2019
DAYS = 800
RENEWED_BEFORE = 60
AUTHORITY_YEARS = 10
# A clock that is slow by a day still finds it valid.
SLOW_CLOCK = dt.timedelta(days=1)


@dataclass(frozen=True, kw_only=True)
class Place:
    """Where the authority and the certificate it signs are kept."""

    folder: Path

    @property
    def authority(self) -> Path:
        """What phones are told to trust."""
        return self.folder / "authority.crt"

    @property
    def authority_key(self) -> Path:
        """What signs; best kept elsewhere."""
        return self.folder / "authority.key"

    @property
    def certificate(self) -> Path:
        """What the server shows."""
        return self.folder / "server.crt"

    @property
    def key(self) -> Path:
        """What proves that it is the server's."""
        return self.folder / "server.key"


def make_authority(place: Place, workshop: str, names: Iterable[str]) -> None:
    """Make the authority; whoever trusts it trusts it for these names and for nothing else."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, f"{workshop}: own authority"[:64])])
    now = dt.datetime.now(dt.UTC)
    certificate = (
        _begun(name, name, key, now, now + dt.timedelta(days=365 * AUTHORITY_YEARS))
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(_usage(signs_certificates=True), critical=True)
        .add_extension(x509.NameConstraints([*map(_permitted, names)], None), critical=True)
        .sign(key, hashes.SHA256())
    )
    _keep_key(place.authority_key, key)
    _keep(place.authority, certificate)


def make_certificate(place: Place, names: Iterable[str]) -> None:
    """Make the server's certificate anew, signed by the authority."""
    authority = read(place.authority)
    signer = serialization.load_pem_private_key(place.authority_key.read_bytes(), password=None)
    assert isinstance(signer, ec.EllipticCurvePrivateKey)
    key = ec.generate_private_key(ec.SECP256R1())
    names = list(names)
    now = dt.datetime.now(dt.UTC)
    ends = min(now + dt.timedelta(days=DAYS), authority.not_valid_after_utc)
    subject = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, names[0][:64])])
    certificate = (
        _begun(subject, authority.subject, key, now, ends)
        .add_extension(x509.SubjectAlternativeName([_name(name) for name in names]), critical=False)
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(_usage(signs_certificates=False), critical=True)
        .add_extension(x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH]), critical=False)
        .add_extension(
            x509.AuthorityKeyIdentifier.from_issuer_public_key(signer.public_key()), critical=False
        )
        .sign(signer, hashes.SHA256())
    )
    _keep_key(place.key, key)
    _keep(place.certificate, certificate)


def read(file: Path) -> x509.Certificate:
    """Return a certificate from its file."""
    return x509.load_pem_x509_certificate(file.read_bytes())


def names_of(certificate: x509.Certificate) -> set[str]:
    """Return the names and addresses a server's certificate is for."""
    names = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    return {str(name.value) for name in names}


def fingerprint(certificate: x509.Certificate) -> str:
    """Return the SHA-256 a person compares, as pairs of digits."""
    return certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def days_left(certificate: x509.Certificate, now: dt.datetime) -> int:
    """Return how many whole days it still holds; below zero it has run out."""
    return (certificate.not_valid_after_utc - now).days


def _begun(
    name: x509.Name,
    issuer: x509.Name,
    key: ec.EllipticCurvePrivateKey,
    now: dt.datetime,
    ends: dt.datetime,
) -> x509.CertificateBuilder:
    return (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(issuer)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - SLOW_CLOCK)
        .not_valid_after(ends)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
    )


def _usage(*, signs_certificates: bool) -> x509.KeyUsage:
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        encipher_only=False,
        decipher_only=False,
    )


def _name(name: str) -> x509.GeneralName:
    try:
        return x509.IPAddress(ipaddress.ip_address(name))
    except ValueError:
        return x509.DNSName(name)


def _permitted(name: str) -> x509.GeneralName:
    """Return a name as a constraint writes it: an address is a network of one."""
    try:
        return x509.IPAddress(ipaddress.ip_network(name))
    except ValueError:
        return x509.DNSName(name)


def _keep(file: Path, certificate: x509.Certificate) -> None:
    file.write_bytes(certificate.public_bytes(serialization.Encoding.PEM))
    file.chmod(0o644)


def _keep_key(file: Path, key: ec.EllipticCurvePrivateKey) -> None:
    """Write a key so that at no moment anybody but its owner could read it."""
    file.unlink(missing_ok=True)
    with open(os.open(file, os.O_CREAT | os.O_EXCL | os.O_WRONLY, 0o600), "wb") as kept:
        kept.write(
            key.private_bytes(
                serialization.Encoding.PEM,
                serialization.PrivateFormat.PKCS8,
                serialization.NoEncryption(),
            )
        )
