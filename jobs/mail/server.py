"""One e-mail to the mail server of the settings, or into a file of the demo.

Until the text is handed over (DATA, RFC 5321) a failure means that nothing was sent. After that
nobody can know, and it is not tried again.
"""

from __future__ import annotations

import smtplib
import socket
import ssl
from contextlib import suppress
from email import policy
from email.headerregistry import Address
from email.message import EmailMessage
from email.utils import format_datetime, localtime
from pathlib import Path
from threading import Timer

from django.conf import settings

from jobs.models import Message, Workshop

STEP = 15.0  # seconds the server may take for one answer
LAST = 60.0  # and for taking the text, which it may look through first
LONGEST = 120.0  # for all of it, however often it says a little
OK, GO_ON, LATER = 250, 354, 400
Trouble = Message.Trouble


class NotSentError(Exception):
    """It was not sent; `again`: another time it may be."""

    def __init__(self, trouble: Message.Trouble, *, again: bool, reply: int | None = None) -> None:
        super().__init__(trouble)
        # Where the line broke there is no reply, and smtplib says -1.
        self.trouble, self.again, self.reply = trouble, again, reply if (reply or 0) > 0 else None


class PerhapsSentError(Exception):
    """The server had all of it, and did not say what it made of it."""


def way() -> str:
    """How e-mails leave: "server", "file" in the demo, or "" where they cannot."""
    if settings.MAIL_HOST:
        return "server"
    return "file" if Workshop.current().is_demo else ""


def send(message: Message) -> None:
    """Send it; raise where it was not, or nobody knows."""
    written = as_bytes(message)
    match way():
        case "server":
            _hand_over(message.to, written)
        case "file":
            folder().mkdir(mode=0o700, exist_ok=True)
            (folder() / f"{message.job}-{message.key}.eml").write_bytes(written)
        case _:
            raise NotSentError(Trouble.NO_SERVER, again=False)


def folder() -> Path:
    """Where the demo puts what it would send."""
    return Path(settings.VAR_DIR) / "mail"


def sender() -> str:
    """The address e-mails come from."""
    return settings.MAIL_FROM or "workshop@undertrim.invalid"


def as_bytes(message: Message) -> bytes:
    """Return it as it goes over the wire: plain text (RFC 5322), the same name at every try."""
    mail = EmailMessage(policy=policy.SMTP.clone(cte_type="7bit"))
    mail["From"] = Address(Workshop.current().name, addr_spec=sender())
    mail["To"] = _ascii(message.to)
    mail["Subject"] = message.subject
    mail["Date"] = format_datetime(localtime(message.asked_at))
    mail["Message-ID"] = f"<{message.key}@{sender().rpartition('@')[2]}>"
    mail.set_content(message.text)
    return mail.as_bytes()


def _ascii(address: str) -> str:
    """An address whose domain may be written in any letters (RFC 5890)."""
    local, _at, domain = address.rpartition("@")
    try:
        return f"{local}@{domain.encode('idna').decode()}"
    except UnicodeError as error:
        raise NotSentError(Trouble.REFUSED, again=False) from error


def _hand_over(to: str, written: bytes) -> None:
    smtp = _unconnected()
    watch = Timer(LONGEST, _cut, [smtp])
    watch.daemon = True
    watch.start()
    try:
        _introduce(smtp)
        _expect(smtp.mail(sender()))
        _expect(smtp.rcpt(_ascii(to)))
        _give(smtp, written)
    except NotSentError:
        raise
    except smtplib.SMTPAuthenticationError as error:
        raise NotSentError(Trouble.LOGIN, again=False, reply=error.smtp_code) from error
    except (ssl.SSLError, smtplib.SMTPNotSupportedError) as error:
        raise NotSentError(Trouble.SECURITY, again=False) from error
    except smtplib.SMTPResponseException as error:
        again = LATER <= error.smtp_code < LATER + 100
        raise NotSentError(Trouble.REFUSED, again=again, reply=error.smtp_code) from error
    except (OSError, smtplib.SMTPException) as error:
        raise NotSentError(Trouble.NO_ANSWER, again=True) from error
    finally:
        watch.cancel()
        smtp.close()


def _unconnected() -> smtplib.SMTP:
    """A connection that is not made yet, so that it can be cut off from its first word on."""
    context = ssl.create_default_context()
    if settings.MAIL_TLS == "tls":
        smtp: smtplib.SMTP = smtplib.SMTP_SSL(timeout=STEP, context=context)
    else:
        smtp = smtplib.SMTP(timeout=STEP)
    # The name its certificate is held to; given with the name, it would connect at once.
    smtp._host = settings.MAIL_HOST  # type: ignore[attr-defined]
    return smtp


def _introduce(smtp: smtplib.SMTP) -> None:
    code, _words = smtp.connect(settings.MAIL_HOST, settings.MAIL_PORT)
    if code != 220:
        raise NotSentError(Trouble.NO_ANSWER, again=True, reply=code)
    smtp.ehlo_or_helo_if_needed()
    if settings.MAIL_TLS == "starttls":
        smtp.starttls(context=ssl.create_default_context())
        smtp.ehlo()
    if settings.MAIL_USER:
        smtp.login(settings.MAIL_USER, settings.MAIL_PASSWORD)


def _expect(reply: tuple[int, bytes]) -> None:
    code, _words = reply
    if not OK <= code < GO_ON:
        again = LATER <= code < LATER + 100
        raise NotSentError(Trouble.REFUSED, again=again, reply=code)


def _give(smtp: smtplib.SMTP, written: bytes) -> None:
    """Hand the text over: from here on a silence says nothing about whether it was taken."""
    if smtp.sock is not None:
        smtp.sock.settimeout(LAST)
    try:
        reply = smtp.data(written)
    except smtplib.SMTPDataError:
        raise
    except (OSError, smtplib.SMTPException) as error:
        raise PerhapsSentError from error
    _expect(reply)
    with suppress(OSError, smtplib.SMTPException):
        smtp.quit()


def _cut(smtp: smtplib.SMTP) -> None:
    """Let go of a server that goes on talking and never comes to an end."""
    with suppress(OSError, AttributeError):
        smtp.sock.shutdown(socket.SHUT_RDWR)  # type: ignore[union-attr]
