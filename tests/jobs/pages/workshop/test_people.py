"""The manager's page of people: let in, given roles, helped in again, let go."""

from __future__ import annotations

import pytest
from django.http import HttpRequest
from django.test import Client
from django.urls import reverse
from django_otp.plugins.otp_totp.models import TOTPDevice

from jobs.models import AccountEvent, Role, User
from jobs.pages.workshop.people import _leave
from tests.jobs.pages.kinds import says_beside, typed
from tests.jobs.pages.workshop.door import enter

pytestmark = pytest.mark.django_db
KIM = {"first_name": "Kim", "last_name": "Arden", "username": "kim", "language": "de"}


def _page(client: Client, person: User):
    return client.get(reverse("person", args=[person.pk]))


def _done(person: User) -> list[str]:
    return list(person.events.values_list("did", flat=True))


def test_a_new_person_comes_in_with_a_start_password(browse, cast):
    """The manager adds a person of two roles; the password is shown once and changed at once."""
    manager, url = browse("manager"), reverse("person-add")
    wrong = manager.post(url, KIM | {"username": "no spaces"})
    assert wrong.status_code == 422
    assert says_beside(wrong.content.decode(), "username", "no spaces")
    assert 'id="id_roles_error"' in wrong.content.decode()
    answer = manager.post(url, KIM | {"roles": ["designer", "installer"]})
    password = answer.context["password"]
    assert password in answer.content.decode()
    assert "no-store" in answer["Cache-Control"]
    kim = User.objects.get(username="kim")
    assert (kim.roles, kim.full_name) == (["designer", "installer"], "Kim Arden")
    assert password not in _page(manager, kim).content.decode()

    client = enter("kim", password)
    change = reverse("account-password")
    for name in ("board", "catalogue", "account"):
        assert client.get(reverse(name)).url == change
    assert client.get(change).status_code == 200
    kept = {"old_password": password, "new_password1": password, "new_password2": password}
    assert client.post(change, kept).status_code == 422
    new = "kiln-yard-77"
    sent = {"old_password": password, "new_password1": new, "new_password2": new}
    assert client.post(change, sent).status_code == 302
    assert client.get(reverse("board")).status_code == 200
    assert _done(kim) == ["password", "added"]
    assert kim.events.last().by == cast.manager


def test_a_language_is_that_of_the_first_sign_in(browse):
    """Whoever has a language is answered in it, until they choose another on that device."""
    answer = browse("manager").post(reverse("person-add"), KIM | {"roles": ["installer"]})
    client = enter("kim", answer.context["password"])
    assert client.cookies["django_language"].value == "de"
    assert 'lang="de"' in client.get(reverse("account-password")).content.decode()
    chosen = Client()
    chosen.cookies["django_language"] = "en"
    sent = {"username": "kim", "password": answer.context["password"]}
    assert "django_language" not in chosen.post(reverse("login"), sent).cookies


def test_two_people_of_one_sign_in_name(browse):
    """A name that differs in capitals only is refused: nobody tells the two apart."""
    answer = browse("manager").post(
        reverse("person-add"), KIM | {"username": "Dan", "roles": ["installer"]}
    )
    assert answer.status_code == 422
    assert says_beside(answer.content.decode(), "username", "Dan")


def test_roles_add_up(browse, cast):
    """An installer who is made a designer as well may decide at once, and it is noted."""
    manager, url = browse("manager"), reverse("person", args=[cast.installer.pk])
    installer = browse("installer")
    assert installer.get(reverse("new-job")).status_code == 403
    sent = typed(manager.get(url).context["form"]) | {"roles": ["designer", "installer"]}
    assert manager.post(url, sent).status_code == 302
    assert installer.get(reverse("new-job")).status_code == 200
    event = cast.installer.events.get()
    assert (event.did, event.by, event.roles) == ("roles", cast.manager, ["designer", "installer"])
    assert "Designer, Installer" in _page(manager, cast.installer).content.decode()
    assert manager.post(url, sent | {"roles": ["owner"]}).status_code == 422
    assert manager.post(url, sent | {"roles": []}).status_code == 422


def test_the_second_of_two_managers_is_told(browse, cast):
    """Two managers edit one person: the second sees what the first saved, and keeps the text."""
    url, client = reverse("person", args=[cast.installer.pk]), browse("manager")
    stale = typed(client.get(url).context["form"])
    assert client.post(url, stale | {"last_name": "Firstsaid"}).status_code == 302
    late = client.post(url, stale | {"last_name": "Secondsaid"})
    assert late.status_code == 422
    html = late.content.decode()
    assert "Secondsaid" in html
    assert "Saved meanwhile: Ina Firstsaid" in html
    again = typed(late.context["form"])
    assert client.post(url, again).status_code == 302
    assert User.objects.get(pk=cast.installer.pk).last_name == "Secondsaid"


def test_whoever_leaves_is_out_at_once_and_stays_on_what_they_did(hatchback, browse, cast):
    """Signed out everywhere, sign-in off, name kept; and they can come back as they were."""
    installer, manager = browse("installer"), browse("manager")
    step = hatchback.job.panelsteps.filter(done_at=None).first()
    installer.post(reverse("tick", args=[hatchback.code, step.pk]), {"done": "1"})
    manager.post(reverse("person-leave", args=[cast.installer.pk]))
    assert installer.get(reverse("board")).url.startswith("/sign-in/")
    assert not cast.installer.sessions.exists()
    assert "Ina Fit" in manager.get(reverse("bay", args=[hatchback.code])).content.decode()
    assert "has left" in manager.get(reverse("people")).content.decode()
    brief = manager.get(reverse("brief", args=[hatchback.code])).context["form"]
    assert cast.installer not in brief.fields["consultant"].queryset
    assert manager.post(reverse("person-reset", args=[cast.installer.pk])).status_code == 404
    for _again in range(2):
        manager.post(reverse("person-back", args=[cast.installer.pk]))
    assert User.objects.get(pk=cast.installer.pk).is_active
    assert _done(cast.installer) == ["back", "left"]


def test_the_last_manager_stays(browse, cast):
    """The last manager neither leaves nor loses the role; with a second one both go."""
    manager, url = browse("manager"), reverse("person", args=[cast.manager.pk])
    leave = reverse("person-leave", args=[cast.manager.pk])
    sent = typed(manager.get(url).context["form"])
    answer = manager.post(url, sent | {"roles": ["designer"]})
    assert answer.status_code == 422
    assert "Nobody else is a manager" in answer.content.decode()
    assert "Nobody else is a manager" in manager.post(leave, follow=True).content.decode()
    cast.designer.roles = [Role.DESIGNER, Role.MANAGER]
    cast.designer.save()
    assert manager.post(leave).status_code == 302
    assert manager.get(reverse("board")).url.startswith("/sign-in/")
    answer = browse("designer").post(url, sent | {"roles": ["designer"]})
    assert answer.status_code == 302


def test_a_forgotten_password_is_reset(browse, cast):
    """A new start password is shown once, the old sessions end; one's own is changed, not reset."""
    manager, designer = browse("manager"), browse("designer")
    answer = manager.post(reverse("person-reset", args=[cast.designer.pk]))
    password = answer.context["password"]
    assert designer.get(reverse("board")).url.startswith("/sign-in/")
    assert enter("dan", password).get(reverse("board")).url == reverse("account-password")
    assert _done(cast.designer) == ["reset"]
    own = manager.post(reverse("person-reset", args=[cast.manager.pk]))
    assert own.url == reverse("account-password")


def test_a_lost_second_factor_is_taken_off(browse, cast):
    """The manager takes it off, and it is noted by whom; where there is none nothing is noted."""
    manager, url = browse("manager"), reverse("person-factor-off", args=[cast.designer.pk])
    TOTPDevice.objects.create(user=cast.designer, name="phone")
    for _twice in range(2):
        assert manager.post(url).status_code == 302
    assert not TOTPDevice.objects.exists()
    event = AccountEvent.objects.get(person=cast.designer)
    assert (event.did, event.by) == ("factor-off", cast.manager)
    assert "second factor taken off" in _page(manager, cast.designer).content.decode()


def test_whoever_has_left_leaves_no_second_time():
    """Nothing is written down of it once more."""
    assert _leave(HttpRequest(), User(is_active=False)) is False
