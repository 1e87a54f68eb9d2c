"""Carry out what was answered: packages, the app's own user, files, tables, and the services."""

from __future__ import annotations

import os
import pwd
import shutil
import socket
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from urllib.parse import urlsplit

from config.workshop.answers import COMMAND, KEPT, SETTINGS, TLS, Answers
from config.workshop.certificate import (
    Place,
    fingerprint,
    make_authority,
    make_certificate,
    names_of,
    read,
)

USER = "undertrim"
PACKAGES = (*("nginx", "openssl", "libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0"),)
Say = Callable[[str], None]


class InstallError(Exception):
    """Why an installation stopped, in words; nothing was overwritten."""


def own_names() -> list[str]:
    """Return what this machine is called and its address on the local network."""
    names = [socket.gethostname(), f"{socket.gethostname().partition('.')[0]}.local"]
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asked:
        try:
            # An address for documentation: nothing is sent, the machine only picks a way out.
            asked.connect(("192.0.2.1", 9))
            names.append(asked.getsockname()[0])
        except OSError:
            pass
    return list(dict.fromkeys(names))


def install(answers: Answers, workshop: str, first_manager: list[str], say: Say) -> None:
    """Bring this machine to where the first manager can sign in; run again, it mends itself."""
    _refuse(answers)
    say("Installing the web front and the PDF engine's libraries …")
    more = ("postgresql",) if answers.database else ()
    _run("apt-get", "update", "-qq", quietly=True)
    _run(
        "apt-get", "install", "-y", "-qq", "--no-install-recommends", *PACKAGES, *more, quietly=True
    )
    _make_user(answers)
    _make_certificates(answers, workshop, say)
    for file, text in answers.files().items():
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(text)
    COMMAND.chmod(0o755)
    KEPT.chmod(0o600)
    shutil.chown(SETTINGS, "root", USER)
    SETTINGS.chmod(0o640)
    if answers.database:
        _make_database(answers.database)
    say("Bringing the tables up to date …")
    app(["migrate", "--verbosity", "0"])
    app(["first_manager", "--once", "--workshop", workshop, *first_manager])
    _start(say)
    _tell(answers, say)


def app(command: list[str]) -> None:
    """Run a command of the app as the app's user, with its settings."""
    _run(str(COMMAND), *command)


def _refuse(answers: Answers) -> None:
    if os.geteuid() != 0:
        message = "This sets up services: type sudo make workshop."
        raise InstallError(message)
    if not answers.python.exists():
        message = f"There are no packages at {answers.python}: type make workshop."
        raise InstallError(message)
    given = [answers.certificate, answers.public_certificate]
    for file in [part for pair in given if pair for part in (pair.file, pair.key)]:
        if not file.is_file():
            message = f"There is no file {file}."
            raise InstallError(message)
    closed = next((p for p in [answers.code, *answers.code.parents] if not _may_enter(p)), None)
    if closed is not None:
        message = (
            f"The service may not look into {closed}: move the code to a folder such as "
            "/opt/undertrim and type sudo make workshop there."
        )
        raise InstallError(message)


def _may_enter(folder: Path) -> bool:
    return bool(folder.stat().st_mode & 0o001)


def _make_user(answers: Answers) -> None:
    try:
        pwd.getpwnam(USER)
    except KeyError:
        _run("useradd", "--system", "--user-group", "--home-dir", str(answers.data),
             "--shell", "/usr/sbin/nologin", USER)  # fmt: skip
    for folder in (answers.data, answers.backups):
        folder.mkdir(parents=True, exist_ok=True)
        folder.chmod(0o700)
        shutil.chown(folder, USER, USER)


def _make_certificates(answers: Answers, workshop: str, say: Say) -> None:
    """Make the authority once for these names: phones that trust it need not be told again."""
    if answers.certificate is not None:
        return
    TLS.mkdir(parents=True, exist_ok=True)
    place = Place(folder=TLS)
    if place.certificate.exists() and names_of(read(place.certificate)) == set(answers.names):
        return
    if place.certificate.exists():
        say("Other names need another certificate: every phone has to be told of it once more.")
    make_authority(place, workshop or answers.names[0], answers.names)
    make_certificate(place, answers.names)


def _make_database(url: str) -> None:
    """Make role and database where they are to be on this machine and are not there yet."""
    password = urlsplit(url).password
    _run("service", "postgresql", "start", quietly=True)
    for test, order in (
        (
            "select 1 from pg_roles where rolname = 'undertrim'",
            f"create role undertrim login createdb password '{password}'",
        ),
        (
            "select 1 from pg_database where datname = 'undertrim'",
            "create database undertrim owner undertrim encoding 'UTF8' template template0",
        ),
    ):
        there = subprocess.run(
            ["runuser", "-u", "postgres", "--", "psql", "-tAc", test],
            capture_output=True, text=True, check=True, cwd="/",
        )  # fmt: skip
        if not there.stdout.strip():
            _run("runuser", "-u", "postgres", "--", "psql", "-qc", order)


def _start(say: Say) -> None:
    default = Path("/etc/nginx/sites-enabled/default")
    default.unlink(missing_ok=True)
    enabled = Path("/etc/nginx/sites-enabled/undertrim")
    if not enabled.is_symlink():
        enabled.symlink_to("/etc/nginx/sites-available/undertrim")
    _try_front()
    if not Path("/run/systemd/system").exists():
        say("No systemd runs here: start `undertrim serve --port …` and nginx by your own means.")
        return
    _run("systemctl", "daemon-reload")
    _run("systemctl", "enable", "--quiet", "--now", "undertrim.service", "undertrim-nightly.timer")
    _run("systemctl", "restart", "undertrim.service")
    _run("systemctl", "reload-or-restart", "nginx.service")


def _try_front() -> None:
    """Show what the front says of its files only where it refuses them.

    To a newer one our way to ask for HTTP/2 is an old one; it is the one that Debian 12 knows.
    """
    tried = subprocess.run(["nginx", "-t", "-q"], capture_output=True, text=True, check=False)
    if tried.returncode:
        message = f"The web front does not take its files: {tried.stderr.strip()}"
        raise InstallError(message)


def _tell(answers: Answers, say: Say) -> None:
    """Say where everything is."""
    first = answers.names[0]
    say(f"\nThe app:        https://{first}/  ({', '.join(answers.names[1:])})")
    if answers.certificate is None:
        say(f"On a phone:     http://{first}/ first: how to trust this workshop's certificate")
        say(f"Its digits:     {fingerprint(read(TLS / 'authority.crt'))}")
        say(f"Certificate:    {TLS}; keep {TLS / 'authority.key'} elsewhere if you can")
    say(f"Data, photos:   {answers.data}")
    say(f"Database:       {'PostgreSQL' if answers.database else 'SQLite, among the data'}")
    say(f"Back-ups:       {answers.backups}, every night; copy them out of the house")
    say(f"Settings:       {SETTINGS}")
    say("Commands:       sudo undertrim backup FILE · restore FILE · upgrade · check")
    say("Next:           sign in, enter the workshop, and let the others in on the page People.")


def _run(*command: str, quietly: bool = False) -> None:
    try:
        subprocess.run(
            command, check=True, cwd="/", stdout=subprocess.DEVNULL if quietly else None,
            env={**os.environ, "DEBIAN_FRONTEND": "noninteractive"},
        )  # fmt: skip
    except (OSError, subprocess.CalledProcessError) as error:
        message = (
            f"`{' '.join(command[:3])} …` did not work; set right what it says and type it again."
        )
        raise InstallError(message) from error
    sys.stdout.flush()
