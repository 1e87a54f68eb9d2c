"""What the manager's page of people says and does is what was let stand."""

from __future__ import annotations

import pytest
from django.http import QueryDict
from django.urls import reverse
from django_otp.plugins.otp_static.models import StaticDevice, StaticToken
from django_otp.plugins.otp_totp.models import TOTPDevice

from jobs.models import AccountEvent, User
from jobs.pages.workshop.people import PersonForm
from jobs.pages.workshop.second_factor import CodeForm, PasswordForm, new_recovery_codes
from tests.approval import figures, hold
from tests.jobs.pages.forms.test_row_act_scenes import said
from tests.jobs.pages.forms_at import as_sent
from tests.told import row

pytestmark = pytest.mark.django_db

KIM = {"first_name": "Kim", "last_name": "Arden", "username": "kim", "language": "de",
       "roles": ["installer"]}  # fmt: skip


def test_people_are_let_in_and_go_as_was_let_stand(browse, cast):
    """Each act once, twice and on oneself; the last manager stays."""
    manager, told = browse("manager"), []
    kim, boss = cast.installer, cast.manager
    TOTPDevice.objects.create(user=kim, confirmed=True)
    for person, act in (
        (kim, "factor-off"), (kim, "factor-off"), (kim, "back"), (kim, "reset"), (kim, "leave"),
        (kim, "leave"), (kim, "reset"), (kim, "back"), (boss, "reset"), (boss, "leave"),
        (boss, "back"),
    ):  # fmt: skip
        answer = manager.post(reverse(f"person-{act}", args=[person.pk]))
        person.refresh_from_db()
        told.append(row(person.full_name, act, answer.status_code, person.is_active, *said(answer)))
    gone = manager.post(reverse("person-leave", args=[10**6]))
    told.append(row("nobody", gone.status_code))
    page = reverse("person", args=[kim.pk])
    changes = ({}, {"version": "0"}, {"roles": ["designer", "installer"]},
               {"username": boss.username.upper()}, {"roles": []})  # fmt: skip
    for number, more in enumerate(changes):
        kim.refresh_from_db()
        answer = manager.post(page, KIM | {"version": str(kim.version)} | more)
        wrong = answer.context["form"].errors if answer.status_code == 422 else {}
        told.append(row(number, answer.status_code, *said(answer),
                        {name: list(errors) for name, errors in wrong.items()}))  # fmt: skip
    own = PersonForm(as_sent(KIM | {"version": str(boss.version)}), instance=boss)
    told.append(row({name: list(errors) for name, errors in own.errors.items()}))
    events = AccountEvent.objects.order_by("pk").values_list("did", "roles", "by__username")
    kim = User.objects.get(pk=kim.pk)
    hold("people/acts", figures({"said": told, "events": [row(*event) for event in events],
                                 "kim": row(kim.full_name, kim.roles, kim.version)}))  # fmt: skip


def test_a_code_is_good_once_as_was_let_stand(cast):
    """A recovery code in any letters, once; digits are a phone's; a wrong one delays the next."""
    person, told = cast.designer, []

    def typed(code: str) -> None:
        form = CodeForm(QueryDict(f"code={code}"), user=person)
        told.append(row(len(code), {name: list(wrong) for name, wrong in form.errors.items()}))

    typed("abcdefgh")
    typed("123456")
    codes = new_recovery_codes(person)
    assert len({*codes}) == len(codes) == 10
    first, second = codes[:2]
    typed(f"{first[:4].upper()}-{first[4:]}")
    typed(first)
    StaticDevice.objects.filter(user=person).update(throttling_failure_count=0)
    typed(f"{second[:4]} {second[4:]}")
    typed("")
    typed("x" * 21)
    left = StaticToken.objects.filter(device__user=person).count()
    assert new_recovery_codes(person) != codes
    again = StaticToken.objects.filter(device__user=person).count()
    person.set_password("trim-panel-19")
    for password in ("trim-panel-19", " trim-panel-19", ""):
        form = PasswordForm({"password": password}, user=person)
        told.append(row(password, {name: list(wrong) for name, wrong in form.errors.items()}))
    hold("people/codes", figures({"said": told, "left": [left, again]}))
