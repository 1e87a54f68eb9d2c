"""E-mails: at most once, an end to every try, and a server that hangs holds nobody up.

What a server answers and what a client may conclude from it: RFC 5321, 4.2 and 4.2.5.
"""

from __future__ import annotations

import datetime as dt
import email
import email.policy
import socketserver
import threading
import time
from contextlib import contextmanager

import pytest
from django.urls import reverse
from django.utils import timezone

from jobs.keeping.erase import erase
from jobs.mail import delivery, server
from jobs.models import Message, Workshop
from jobs.pages.agreement.messages import _begun
from tests.jobs.factories import make_job
from tests.jobs.offers import make_offer

pytestmark = pytest.mark.django_db
TEXT = "Good day,\n\n.a line that begins with a dot\nGrüße"


@contextmanager
def answering(settings, **says: bytes | None):
    """A mail server of a few lines: what it says to each command; None: it falls silent there."""
    taken: list[bytes] = []

    class Talk(socketserver.StreamRequestHandler):
        def say(self, word: str, usual: bytes) -> None:
            answer = says.get(word, usual)
            if answer is None:
                time.sleep(2)
                raise ConnectionError
            self.wfile.write(answer + b"\r\n")

        def handle(self) -> None:
            try:
                self.say("hello", b"220 here")
                for line in self.rfile:
                    word = line.split(b":")[0].split()[0].decode().lower()
                    if word != "data":
                        self.say(word, b"250 good")
                        continue
                    self.wfile.write(b"354 go on\r\n")
                    text = b""
                    while not text.endswith(b"\r\n.\r\n"):
                        text += self.rfile.readline()
                    taken.append(text)
                    self.say("end", b"250 taken")
            except (ConnectionError, ValueError):
                return

    listening = socketserver.ThreadingTCPServer(("127.0.0.1", 0), Talk)
    threading.Thread(target=listening.serve_forever, daemon=True).start()
    settings.MAIL_HOST, settings.MAIL_PORT = listening.server_address
    settings.MAIL_TLS, settings.MAIL_FROM = "none", "shop@example.invalid"
    try:
        yield taken
    finally:
        listening.shutdown()
        listening.server_close()


@pytest.fixture
def message(cast):
    """One that waits."""
    now = timezone.now()
    return Message.objects.create(
        job=make_job(), kind="collect", to="hanna@öst.invalid", subject="Ready: Ä", text=TEXT,
        asked_by=cast.consultant, asked_at=now, next_at=now,
    )  # fmt: skip


def _after(message):
    message.refresh_from_db()
    return message.state, message.trouble, message.tries


def test_it_is_sent_once_and_reads_as_it_was_written(message, settings):
    """Sent, it is not taken again; address, subject and text arrive as they are."""
    with answering(settings) as taken:
        assert delivery.deliver()
        assert not delivery.deliver()
    assert _after(message) == ("sent", "", 1)
    (raw,) = taken
    mail = email.message_from_bytes(
        raw.removesuffix(b".\r\n").replace(b"\r\n..", b"\r\n."), policy=email.policy.default
    )
    assert mail["To"] == "hanna@xn--st-eka.invalid"
    assert mail["Subject"] == "Ready: Ä"
    assert mail.get_content().strip().replace("\r\n", "\n") == TEXT


@pytest.mark.parametrize(
    ("says", "after"),
    [
        ({"rcpt": b"550 nobody of that name"}, ("failed", "refused")),
        ({"rcpt": b"451 later"}, ("waiting", "refused")),
        ({"hello": b"554 go away"}, ("waiting", "no_answer")),
        ({"end": b"554 no"}, ("failed", "refused")),
        ({"hello": None}, ("waiting", "no_answer")),
        ({"mail": None}, ("waiting", "no_answer")),
        ({"end": None}, ("unsure", "midway")),
    ],
)
def test_what_a_server_says_decides_whether_it_is_tried_again(
    message, settings, monkeypatch, says, after
):
    """Refused for good is the end, for now is tried later; silence after the text is not."""
    monkeypatch.setattr(server, "STEP", 0.3)
    monkeypatch.setattr(server, "LAST", 0.3)
    with answering(settings, **says):
        before = time.monotonic()
        assert delivery.deliver()
        assert time.monotonic() - before < 5
        assert not delivery.deliver()  # not now
    assert _after(message) == (*after, 1)


def test_a_server_that_goes_on_talking_is_cut_off(message, settings, monkeypatch):
    """Each line comes in time and none is the last: all of it has an end."""
    monkeypatch.setattr(server, "LONGEST", 0.5)
    with answering(settings, hello=b"220-and\r\n" * 200_000):
        before = time.monotonic()
        delivery.deliver()
        assert time.monotonic() - before < 10
    assert _after(message)[0] == "waiting"


def test_tries_have_an_end(message, settings):
    """Three of them; then it is told, and a person may send it once more."""
    settings.MAIL_HOST, settings.MAIL_PORT, settings.MAIL_TLS = "127.0.0.1", 1, "none"
    for tries in (1, 2, 3):
        Message.objects.update(next_at=timezone.now())
        assert delivery.deliver()
        assert _after(message)[2] == tries
    assert _after(message) == ("failed", "no_answer", 3)
    Message.objects.update(next_at=timezone.now())
    assert not delivery.deliver()


def test_what_was_left_lying_is_not_sent_twice(message, settings):
    """Begun by a process that is gone it may have left; what waited a day is not wanted now."""
    long_ago = timezone.now() - dt.timedelta(days=2)
    with answering(settings) as taken:
        Message.objects.update(state="sending", began_at=long_ago)
        assert not delivery.deliver()
        assert _after(message)[:2] == ("unsure", "midway")
        Message.objects.update(state="waiting", asked_at=long_ago)
        assert not delivery.deliver()
        assert _after(message)[:2] == ("failed", "old")
    assert taken == []


def test_nothing_leaves_before_somebody_read_and_sent_it(cast, browse, settings, tmp_path):
    """The page shows address and text; a form sent twice is one message; the demo writes a file."""
    settings.VAR_DIR = tmp_path
    Workshop.objects.update_or_create(pk=1, defaults={"is_demo": True, "web_address": "http://a"})
    job = make_job()
    job.vehicle.customer.email = "hanna@example.invalid"
    job.vehicle.customer.save()
    offer = make_offer(job, cast.manager)
    client = browse("consultant")
    url = f"{reverse('messages', args=[job.code])}?offer={offer.pk}"
    page = client.get(url)
    html = page.content.decode()
    assert "hanna@example.invalid" in html
    assert offer.token in html
    assert not Message.objects.exists()
    typed = {name: page.context["form"][name].value() for name in ("to", "subject", "text", "key")}
    assert client.post(url, typed | {"to": "nobody"}).status_code == 422
    assert client.post(url, typed | {"subject": "a\nBcc: x@y.invalid"}).status_code in (302, 422)
    Message.objects.all().delete()
    for _turn in range(2):
        assert client.post(url, typed).status_code == 302
    assert Message.objects.get().kind == "offer"
    assert delivery.deliver()
    (file,) = (tmp_path / "mail").iterdir()
    assert (
        offer.token in email.message_from_bytes(file.read_bytes()).get_payload(decode=True).decode()
    )
    assert client.post(reverse("message-again", args=[job.code, Message.objects.get().pk]))
    assert Message.objects.get().state == "sent"
    offer.revoked_at = timezone.now()
    offer.save()
    assert client.get(url).status_code == 404


def test_without_a_server_the_text_can_be_copied(browse):
    """Nothing is required: the words stand there, and there is no button."""
    job = make_job()
    url = f"{reverse('messages', args=[job.code])}?collect=1"
    html = browse("manager").get(url).content.decode()
    assert "can be fetched" in html
    assert "copy the text" in html
    typed = {"to": "a@b.invalid", "subject": "x", "text": "x", "key": "0" * 32}
    assert browse("manager").post(url, typed).status_code == 409
    assert not Message.objects.exists()


def test_an_erased_person_is_written_to_no_more(message, cast, settings, tmp_path):
    """What waits does not leave; that there was a message stays, to whom does not."""
    settings.VAR_DIR = tmp_path
    customer = message.job.vehicle.customer
    erase(customer, by=cast.manager, why="asked for it", plates=False)
    assert _after(message)[:2] == ("failed", "erased")
    assert (message.to, message.subject, message.text) == ("", "", "")
    assert not delivery.deliver()


def test_an_addition_is_called_one_in_what_is_written_of_it(cast):
    """By its number, in subject and text; the first offer by its own words."""
    job = make_job()
    first = make_offer(job, cast.manager)
    second = make_offer(job, cast.manager, basis=first, addition=1)
    for offer, subject, body in (
        (first, "Our offer", "behind this link is our offer"),
        (second, "Addition", "behind this link is an addition to what was agreed,"),
    ):
        words = _begun(job, offer)
        assert words["subject"] == f"{subject} {offer.number} for your {job.vehicle}"
        assert f"{body} {offer.number}" in words["text"]
