"""Who works here, for the manager: let in, given roles, helped in again, let go."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any, ClassVar, cast

from django import forms
from django.conf import settings
from django.contrib import messages
from django.db import transaction
from django.http import Http404, HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe
from django_otp.plugins.otp_totp.models import TOTPDevice

from jobs import access
from jobs.locks import hold_table
from jobs.models import AccountEvent, Role, User
from jobs.pages.workshop import second_factor

Did = AccountEvent.Did
LAST_MANAGER = gettext_lazy(
    "Nobody else is a manager here. Give another person that role first, or nobody can let "
    "people in."
)


class PersonForm(forms.ModelForm[User]):
    """Name, sign-in name, language and roles of one person."""

    roles = forms.MultipleChoiceField(
        label=gettext_lazy("roles"),
        choices=Role.choices,
        widget=forms.CheckboxSelectMultiple,
        help_text=gettext_lazy("One or several; what each may do adds up."),
    )
    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    fieldsets: ClassVar = [
        (gettext_lazy("Who it is"), ["first_name", "last_name", "username", "language"]),
        (gettext_lazy("What they do here"), ["roles"]),
    ]

    class Meta:
        model = User
        fields = ("first_name", "last_name", "username", "language", "roles")
        labels: ClassVar = {
            "first_name": gettext_lazy("first name"),
            "last_name": gettext_lazy("last name"),
            "username": gettext_lazy("sign-in name"),
        }
        help_texts: ClassVar = {
            "username": gettext_lazy("letters, digits and @ . + - _"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["first_name"].required = True
        self.fields["version"].initial = self.instance.version
        language = self.fields["language"]
        assert isinstance(language, forms.TypedChoiceField)
        language.choices = [("", _("as their browser asks")), *settings.LANGUAGES]
        for name in ("first_name", "last_name", "username"):  # another person's, not the reader's
            self.fields[name].widget.attrs["autocomplete"] = "off"
        self.fields["username"].widget.attrs |= {"autocapitalize": "none", "spellcheck": "false"}

    @property
    def groups(self) -> list[tuple[Any, list[forms.BoundField], str]]:
        """(heading, fields under it, "") in the order a manager fills them in."""
        return [(title, [self[name] for name in names], "") for title, names in self.fieldsets]

    def clean_username(self) -> str:
        """Refuse a name that differs from another in capitals only."""
        name: str = self.cleaned_data["username"]
        hold_table(User)  # nobody else takes the name before it is stored
        if User.objects.filter(username__iexact=name).exclude(pk=self.instance.pk).exists():
            raise forms.ValidationError(_("Somebody has this sign-in name."))
        return name

    def clean_roles(self) -> list[str]:
        """Keep a manager."""
        roles: list[str] = self.cleaned_data["roles"]
        if Role.MANAGER not in roles and self.instance.pk and self.instance.is_last_manager():
            raise forms.ValidationError(LAST_MANAGER)
        return roles

    def clean(self) -> dict[str, Any]:
        """Refuse to overwrite what another manager saved since this form was opened."""
        cleaned = super().clean() or {}
        if self.instance.pk and cleaned.get("version") != self.instance.version:
            typed = cast(QueryDict, self.data).copy()
            typed["version"] = str(self.instance.version)
            self.data = typed
            self.add_error(
                None,
                _(
                    "Somebody else saved this while you were typing. Your text is still here. "
                    "Saved meanwhile: %(name)s, %(sign_in)s, %(roles)s."
                )
                % self._saved,
            )
        return cleaned

    @property
    def _saved(self) -> dict[str, str]:
        saved = User.objects.get(pk=self.instance.pk)
        return {
            "name": saved.full_name,
            "sign_in": saved.username,
            "roles": saved.role_words,
        }


def _manager(request: HttpRequest) -> User:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    return user


def _person(pk: int) -> User:
    """Return a person as they are now; the row is held until what follows is saved."""
    person = User.objects.select_for_update().filter(pk=pk).first()
    if person is None:
        raise Http404
    return person


@require_safe
def people(request: HttpRequest) -> HttpResponse:
    """List everybody who works or worked here."""
    _manager(request)
    with_factor = set(TOTPDevice.objects.filter(confirmed=True).values_list("user_id", flat=True))
    everybody = User.objects.order_by("-is_active", "first_name", "last_name", "pk")
    rows = [(person, person.pk in with_factor) for person in everybody]
    return render(request, "pages/workshop/people.html", {"rows": rows})


def _start_password(request: HttpRequest, person: User, by: User, did: Did) -> HttpResponse:
    """Show a start password: here, once, and nowhere else."""
    password = person.give_start_password()
    person.sessions.all().delete()
    AccountEvent.objects.create(person=person, by=by, did=did, roles=person.roles)
    context = {"person": person, "password": password}
    return render(request, "pages/workshop/start_password.html", context)


@require_http_methods(["GET", "POST"])
def add(request: HttpRequest) -> HttpResponse:
    """Let a new person in."""
    manager = _manager(request)
    form = PersonForm(request.POST or None)
    with transaction.atomic():
        if request.method == "POST" and form.is_valid():
            return _start_password(request, form.save(commit=False), manager, Did.ADDED)
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop/person.html", {"form": form}, status=status)


@require_http_methods(["GET", "POST"])
def edit(request: HttpRequest, pk: int) -> HttpResponse:
    """Change a person's name, sign-in name, language or roles."""
    manager = _manager(request)
    with transaction.atomic():
        person = _person(pk)
        roles = person.roles
        form = PersonForm(request.POST or None, instance=person)
        if request.method == "POST" and form.is_valid():
            person.version += 1
            form.save()
            if set(person.roles) != set(roles):
                AccountEvent.objects.create(
                    person=person, by=manager, did=Did.ROLES, roles=person.roles
                )
            messages.success(request, _("Saved."))
            return redirect("people")
    context = {
        "form": form,
        "person": User.objects.get(pk=pk),
        "factor_on": second_factor.is_on(person),
        "events": person.events.select_related("by"),
    }
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop/person.html", context, status=status)


@require_POST
def reset(request: HttpRequest, pk: int) -> HttpResponse:
    """Give somebody who works here a new start password."""
    manager = _manager(request)
    with transaction.atomic():
        person = _person(pk)
        if person == manager:  # who knows the old one needs no start password
            return redirect("account-password")
        if not person.is_active:
            raise Http404
        return _start_password(request, person, manager, Did.RESET)


def _leave(request: HttpRequest, person: User) -> bool:
    if not person.is_active:
        return False
    if person.is_last_manager():
        messages.error(request, LAST_MANAGER)
        return False
    person.is_active = False
    person.save()
    # The session of this very request opens nothing any more, and still carries the message.
    person.sessions.exclude(pk=request.session.session_key).delete()
    messages.warning(
        request,
        _("%(name)s can no longer sign in; the name stays on what was done.")
        % {"name": person.full_name},
    )
    return True


def _come_back(request: HttpRequest, person: User) -> bool:
    if person.is_active:
        return False
    person.is_active = True
    person.save()
    messages.success(
        request, _("%(name)s can sign in again, as before.") % {"name": person.full_name}
    )
    return True


def _take_factor_off(request: HttpRequest, person: User) -> bool:
    if not second_factor.is_on(person):
        return False
    second_factor.take_off(person)
    messages.success(
        request,
        _("%(name)s signs in with the password alone now.") % {"name": person.full_name},
    )
    return True


@require_POST
def act(
    request: HttpRequest, pk: int, *, do: Callable[[HttpRequest, User], bool], did: Did
) -> HttpResponse:
    """Do one thing to an account, and note who did it."""
    manager = _manager(request)
    with transaction.atomic():
        person = _person(pk)
        if do(request, person):
            AccountEvent.objects.create(person=person, by=manager, did=did, roles=person.roles)
    return redirect("person", pk)


urlpatterns = [
    path("people/", people, name="people"),
    path("people/add/", add, name="person-add"),
    path("people/<int:pk>/", edit, name="person"),
    path("people/<int:pk>/reset/", reset, name="person-reset"),
    path("people/<int:pk>/leave/", partial(act, do=_leave, did=Did.LEFT), name="person-leave"),
    path("people/<int:pk>/back/", partial(act, do=_come_back, did=Did.BACK), name="person-back"),
    path(
        "people/<int:pk>/factor-off/",
        partial(act, do=_take_factor_off, did=Did.FACTOR_OFF),
        name="person-factor-off",
    ),
]
