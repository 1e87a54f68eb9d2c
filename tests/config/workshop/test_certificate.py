"""The workshop's own certificate, held to what TLS itself makes of it."""

from __future__ import annotations

import datetime as dt
import ipaddress
import socket
import ssl
import subprocess
import threading

import pytest

from config.workshop.certificate import (
    Place,
    days_left,
    fingerprint,
    make_authority,
    make_certificate,
    names_of,
    read,
)
from config.workshop.renew import renew

NAMES = ("bench.workshop.test", "127.0.0.1")


@pytest.fixture
def place(tmp_path):
    """An authority and a certificate of it."""
    place = Place(folder=tmp_path)
    make_authority(place, "Invented workshop", NAMES)
    make_certificate(place, NAMES)
    return place


def _shakes_hands(place, name: str) -> bool:
    """Whether a client that trusts the authority alone accepts the server under this name."""
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(place.certificate, place.key)
    client = ssl.create_default_context(cafile=place.authority)
    here, there = socket.socketpair()

    def answer() -> None:
        try:
            server.wrap_socket(there, server_side=True).close()
        except OSError:
            there.close()

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        client.wrap_socket(here, server_hostname=name).close()
    except ssl.SSLCertVerificationError:
        return False
    finally:
        here.close()
        thread.join()
    return True


def test_a_client_that_trusts_the_authority_accepts_these_names_alone(place):
    """TLS of the standard library accepts each name the workshop gave, and no other."""
    assert [_shakes_hands(place, name) for name in NAMES] == [True, True]
    assert not _shakes_hands(place, "elsewhere.test")


@pytest.mark.parametrize("stranger", ["elsewhere.test", "192.0.2.7"])
def test_the_authority_vouches_for_nobody_else(place, stranger):
    """Whoever takes its key can pass for no other machine."""
    make_certificate(place, [stranger])
    assert not _shakes_hands(place, stranger)


def test_openssl_reads_what_was_written(place):
    """A second reader verifies the chain, a telephone's limit of 825 days, and the digits."""
    verified = subprocess.run(
        ["openssl", "verify", "-x509_strict", "-CAfile", place.authority, place.certificate],
        capture_output=True,
        text=True,
    )
    assert verified.returncode == 0, verified.stdout + verified.stderr
    digits = subprocess.run(
        ["openssl", "x509", "-in", place.authority, "-noout", "-fingerprint", "-sha256"],
        capture_output=True,
        text=True,
        check=True,
    )
    assert fingerprint(read(place.authority)) in digits.stdout
    certificate = read(place.certificate)
    lasts = certificate.not_valid_after_utc - certificate.not_valid_before_utc
    assert lasts <= dt.timedelta(days=825)


def test_nobody_else_reads_the_keys(place):
    """Keys belong to their owner alone; what phones load is for everybody."""
    modes = {file.name: file.stat().st_mode & 0o777 for file in place.folder.iterdir()}
    assert modes == {
        "authority.key": 0o600,
        "server.key": 0o600,
        "authority.crt": 0o644,
        "server.crt": 0o644,
    }


def test_it_is_made_anew_two_months_before_it_ends(place):
    """The next certificate is there before the old one ends, and phones trust it unasked."""
    before = read(place.certificate)
    now = dt.datetime.now(dt.UTC)
    assert not renew(place, list(NAMES), now=now)
    late = before.not_valid_after_utc - dt.timedelta(days=59)
    assert renew(place, list(NAMES), now=late)
    after = read(place.certificate)
    assert after.serial_number != before.serial_number
    assert _shakes_hands(place, NAMES[0])
    assert days_left(before, before.not_valid_after_utc + dt.timedelta(days=1)) < 0


def test_an_address_is_a_name_of_its_own_kind(place):
    """Browsers look for an address among addresses, not among names."""
    from cryptography import x509

    names = read(place.certificate).extensions.get_extension_for_class(x509.SubjectAlternativeName)
    assert names.value.get_values_for_type(x509.DNSName) == ["bench.workshop.test"]
    assert names_of(read(place.certificate)) == set(NAMES)
    assert names.value.get_values_for_type(x509.IPAddress) == [ipaddress.ip_address("127.0.0.1")]
