"""One's own account: password, devices, second factor."""

from __future__ import annotations

import datetime as dt
import re
import time
from collections.abc import Callable

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone
from django_otp.oath import TOTP
from django_otp.plugins.otp_totp.models import TOTPDevice

from jobs import sessions
from jobs.models import Session, User
from tests.jobs.pages.workshop.door import PASSWORD, enter

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("passwords")]
PHONE = "Mozilla/5.0 (Linux; Android 16) Mobile Mobi"
DESK = "Mozilla/5.0 (X11; Linux x86_64)"
FACTOR, SIGN_IN, CODE = reverse("account-factor"), reverse("login"), reverse("second-step")


def _enter(agent: str = DESK, address: str = "10.0.0.7", who: str = "dan") -> Client:
    return enter(who, PASSWORD, agent=agent, address=address)


def _is_in(client: Client) -> bool:
    return client.get(reverse("board")).status_code == 200


def test_where_one_is_signed_in(cast):
    """Each device is listed with what it is, when it was seen and from where, never its key."""
    desk, phone = _enter(), _enter(PHONE, "10.0.0.8")
    html = " ".join(desk.get(reverse("account")).content.decode().split())
    assert "A computer, this one" in html
    assert "A phone" in html
    assert "10.0.0.8" in html
    assert not any(key in html for key in Session.objects.values_list("pk", flat=True))
    other = _enter(who="cora")
    ends = re.findall(r'action="(/account/sessions/\w{16}/end/)"', html)
    assert len(ends) == 1
    assert other.post(ends[0]).status_code == 404
    assert desk.post(ends[0]).status_code == 302
    assert (_is_in(desk), _is_in(phone), _is_in(other)) == (True, False, True)


def test_every_other_device_is_signed_out(cast):
    """All others at once, and by a new password."""
    desk, phone, tablet = _enter(), _enter(PHONE), _enter("Android Tablet")
    desk.post(reverse("account-sessions-end"))
    assert (_is_in(desk), _is_in(phone), _is_in(tablet)) == (True, False, False)
    phone = _enter(PHONE)
    new = "kiln-yard-77"
    sent = {"old_password": PASSWORD, "new_password1": new, "new_password2": new}
    url = reverse("account-password")
    assert phone.post(url, sent | {"old_password": "not it"}).status_code == 422
    assert phone.post(url, sent | {"new_password2": "another"}).status_code == 422
    assert phone.post(url, sent | dict.fromkeys(("new_password1", "new_password2"), "password"))
    assert _is_in(desk)
    assert phone.post(url, sent).status_code == 302
    assert (_is_in(desk), _is_in(phone)) == (False, True)
    assert Session.objects.filter(user=cast.designer).count() == 1


def test_when_a_device_was_seen_is_written_now_and_then(cast, django_assert_num_queries):
    """Not by each page: a page read a moment later writes nothing."""
    desk = _enter()
    Session.objects.update(seen_at=timezone.now() - dt.timedelta(hours=1))
    desk.get(reverse("board"))
    assert Session.objects.get().seen_at < timezone.now() - dt.timedelta(minutes=59)
    session = desk.session
    session[sessions.SEEN] -= sessions.SEEN_EVERY.total_seconds() + 1
    session.save()
    Session.objects.update(seen_at=timezone.now() - dt.timedelta(hours=1))
    desk.get(reverse("board"))
    assert Session.objects.get().seen_at > timezone.now() - dt.timedelta(minutes=1)


def test_old_sessions_are_swept_away(cast):
    """A session that ran out is gone by the next sign-in."""
    _enter(PHONE)
    Session.objects.update(expire_date=timezone.now() - dt.timedelta(days=1))
    _enter()
    assert Session.objects.count() == 1


@pytest.fixture
def with_factor(cast) -> tuple[Client, Callable[[int], str], list[str]]:
    """A designer with a second factor: the desk it was set up at, its codes, its slip."""
    desk = _enter()
    key = desk.get(FACTOR).context["form"]["key"].value()
    wrong = desk.post(FACTOR, {"key": key, "code": "12"})
    assert wrong.status_code == 422
    assert key in wrong.content.decode()
    assert desk.post(FACTOR, {"key": "<b>", "code": "123456"}).status_code == 422
    assert not TOTPDevice.objects.exists()
    began = time.time()

    def code(ahead: int) -> str:
        """The phone's code so many steps ahead of when it was set up, however long a test takes."""
        phone = TOTP(bytes.fromhex(key), drift=ahead)
        phone.time = began
        return f"{phone.token():06}"

    answer = desk.post(FACTOR, {"key": key, "code": code(0)})
    slip = answer.context["codes"]
    assert len(set(slip)) == 10
    assert "no-store" in answer["Cache-Control"]
    return desk, code, slip


def test_a_second_factor_is_asked_for(with_factor):
    """The password alone opens nothing; the phone's code does, and each code once."""
    _desk, code, _slip = with_factor
    phone = _enter(PHONE)
    assert not _is_in(phone)
    assert phone.get(CODE).status_code == 200
    used = phone.post(CODE, {"code": code(0)})  # it was set up with this one
    assert used.status_code == 422
    TOTPDevice.objects.update(throttling_failure_count=0)
    assert phone.post(CODE, {"code": code(1)}).status_code == 302
    assert _is_in(phone)


def test_wrong_codes_make_one_wait(with_factor):
    """After a wrong code the right one is refused for a while, and the page says how long."""
    _desk, code, _slip = with_factor
    phone = _enter(PHONE)
    for text in ("000000", "zzz", "٣٣٣٣٣٣", "9" * 20):
        assert phone.post(CODE, {"code": text}).status_code == 422
    TOTPDevice.objects.update(
        throttling_failure_count=8, throttling_failure_timestamp=timezone.now()
    )
    late = phone.post(CODE, {"code": code(1)})
    assert late.status_code == 422
    assert re.search(r"Try again in 12\d seconds", late.content.decode())
    assert not _is_in(phone)


def test_a_recovery_code_opens_once(with_factor):
    """In place of the phone's code; new ones end the old; the password takes it all off."""
    desk, _code, slip = with_factor
    assert _enter().post(CODE, {"code": slip[0].upper() + " "}).status_code == 302
    assert _enter().post(CODE, {"code": slip[0]}).status_code == 422
    assert desk.post(FACTOR, {"password": "not it", "codes": "1"}).status_code == 422
    fresh = desk.post(FACTOR, {"password": PASSWORD, "codes": "1"}).context["codes"]
    assert not set(fresh) & set(slip)
    assert _enter().post(CODE, {"code": fresh[0]}).status_code == 302
    assert desk.post(FACTOR, {"password": PASSWORD, "off": "1"}).status_code == 302
    assert _is_in(_enter())
    did = User.objects.get(username="dan").events.values_list("did", flat=True)
    assert list(did) == ["factor-off", "codes", "factor-on"]


def test_the_second_step_has_a_first(with_factor, cast):
    """Without the password the page of the code is not there, nor ten minutes after it."""
    _desk, code, _slip = with_factor
    assert Client().get(CODE).url == SIGN_IN
    late = _enter()
    session = late.session
    session["second-step"] |= {"at": time.time() - 601}
    session.save()
    assert late.post(CODE, {"code": code(1)}).url == SIGN_IN
    changed = _enter()
    cast.designer.set_password("another-one-9")
    cast.designer.save()
    assert changed.post(CODE, {"code": code(1)}).url == SIGN_IN
    assert not _is_in(changed)
