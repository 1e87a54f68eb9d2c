"""The second factor at sign-in, for whoever wants one: a phone that writes codes, or a slip."""

from __future__ import annotations

import math
import re
import time
from base64 import b32encode
from binascii import unhexlify
from typing import Any

import segno
from django import forms
from django.contrib import messages
from django.db import transaction
from django.http import HttpRequest, HttpResponse, QueryDict
from django.shortcuts import redirect, render
from django.urls import path
from django.utils import timezone
from django.utils.safestring import mark_safe
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext
from django.views.decorators.http import require_http_methods
from django_otp.oath import TOTP
from django_otp.plugins.otp_static.models import StaticDevice, StaticToken
from django_otp.plugins.otp_totp.models import TOTPDevice, default_key

from jobs import access
from jobs.locks import held
from jobs.models import AccountEvent, User

RECOVERY_CODES = 10
# How the phone's codes look; every other text is taken for a recovery code.
DIGITS = re.compile(r"[0-9]{6}")
KEY = re.compile(r"[0-9a-f]{40}")


def is_on(user: User) -> bool:
    """Whether this person is asked for a code as well."""
    return bool(TOTPDevice.objects.devices_for_user(user, confirmed=True).exists())


def take_off(user: User) -> None:
    """Ask for the password alone from now on."""
    for kind in (TOTPDevice, StaticDevice):
        kind.objects.filter(user=user).delete()


def code_field(**more: Any) -> forms.CharField:
    """Return the field a code is typed into."""
    hints = {"autocomplete": "one-time-code", "autocapitalize": "none", "spellcheck": "false"}
    return forms.CharField(
        label=gettext_lazy("code"), max_length=20, widget=forms.TextInput(attrs=hints), **more
    )


class CodeForm(forms.Form):
    """Asks for the phone's code of this moment, or for a recovery code."""

    code = code_field(
        help_text=gettext_lazy(
            "The six digits your phone shows now, or one of your recovery codes."
        )
    )

    def __init__(self, *args: Any, user: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.user = user

    def clean_code(self) -> str:
        """Take a code once; after wrong ones the next is looked at later and later."""
        code = re.sub(r"[\s-]", "", self.cleaned_data["code"]).lower()
        kind = TOTPDevice if DIGITS.fullmatch(code) else StaticDevice
        with transaction.atomic():
            devices = kind.objects.devices_for_user(self.user, confirmed=True)
            device = devices.select_for_update().first()
            allowed, why = device.verify_is_allowed() if device else (True, {})
            fits = bool(device) and device.verify_token(code)
        if not allowed:
            seconds = math.ceil((why["locked_until"] - timezone.now()).total_seconds())
            raise forms.ValidationError(
                ngettext(
                    "Too soon after a wrong code. Try again in a second.",
                    "Too soon after a wrong code. Try again in %(seconds)d seconds.",
                    seconds,
                )
                % {"seconds": seconds}
            )
        if not fits:
            raise forms.ValidationError(
                _("This is not the code. Each is good once, and the phone's clock must be right.")
            )
        return code


class SetUpForm(forms.Form):
    """Shows a phone the key, and asks for the first code it makes of it."""

    key = forms.RegexField(KEY, widget=forms.HiddenInput)
    code = code_field(help_text=gettext_lazy("The six digits the phone shows now."))

    def __init__(self, data: QueryDict | None, *, user: User) -> None:
        super().__init__(data, initial={"key": default_key()})
        # The key stands in the page until a code proves that the phone has it.
        key = self["key"].value() or ""
        self.device = TOTPDevice(user=user, key=key if KEY.fullmatch(key) else default_key())

    def clean_code(self) -> str:
        """See that the phone and this machine make the same of the key."""
        code = re.sub(r"\s", "", self.cleaned_data["code"])
        if not (DIGITS.fullmatch(code) and self._fits(code)):
            raise forms.ValidationError(
                _("The phone shows another code for this key; its clock must be right.")
            )
        return code

    def _fits(self, code: str) -> bool:
        key = self.device
        now = TOTP(key.bin_key, key.step, key.t0, key.digits, key.drift)
        now.time = time.time()
        fits: bool = now.verify(int(code), key.tolerance)
        if fits:  # the code is used up, and how far off the phone's clock is stays known
            key.last_t, key.drift = now.t(), now.drift
        return fits

    @property
    def picture(self) -> str:
        """The key as a picture for the phone's camera."""
        code = segno.make_qr(self.device.config_url)
        return mark_safe(code.svg_inline(scale=5, border=4, light="white"))  # noqa: S308 - drawn here

    @property
    def in_letters(self) -> str:
        """The key for a phone without a camera."""
        letters = b32encode(unhexlify(self.device.key)).decode()
        return " ".join(re.findall(".{1,4}", letters))


class PasswordForm(forms.Form):
    """Asks for one's own password before something that another at this screen must not do."""

    password = forms.CharField(
        label=gettext_lazy("your password"),
        strip=False,
        widget=forms.PasswordInput(attrs={"autocomplete": "current-password"}),
    )

    def __init__(self, *args: Any, user: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.user = user

    def clean_password(self) -> str:
        """Compare it."""
        password: str = self.cleaned_data["password"]
        if not self.user.check_password(password):
            raise forms.ValidationError(_("This is not your password."))
        return password


def new_recovery_codes(user: User) -> list[str]:
    """Return codes that are good once each; those of before are good no more."""
    StaticDevice.objects.filter(user=user).delete()
    slip = StaticDevice.objects.create(user=user, name="recovery")
    codes = [StaticToken.random_token() for _code in range(RECOVERY_CODES)]
    StaticToken.objects.bulk_create(StaticToken(device=slip, token=code) for code in codes)
    return codes


def _codes_shown(request: HttpRequest, user: User, did: AccountEvent.Did) -> HttpResponse:
    """Show new recovery codes: here, once, and nowhere else."""
    codes = new_recovery_codes(user)
    AccountEvent.objects.create(person=user, by=user, did=did)
    return render(request, "pages/workshop/recovery_codes.html", {"codes": codes})


@require_http_methods(["GET", "POST"])
def second_factor(request: HttpRequest) -> HttpResponse:
    """Set the second factor up; once it is on, renew its recovery codes or take it off."""
    user = access.signed_in(request)
    access.require_member(user)
    with held(user):
        return _change(request, user) if is_on(user) else _set_up(request, user)


def _set_up(request: HttpRequest, user: User) -> HttpResponse:
    form = SetUpForm(request.POST or None, user=user)
    if request.method == "POST" and form.is_valid():
        form.device.confirmed = True
        form.device.save()
        return _codes_shown(request, user, AccountEvent.Did.FACTOR_ON)
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop/second_factor.html", {"form": form}, status=status)


def _change(request: HttpRequest, user: User) -> HttpResponse:
    form = PasswordForm(request.POST or None, user=user)
    if request.method == "POST" and form.is_valid():
        if "codes" in request.POST:
            return _codes_shown(request, user, AccountEvent.Did.CODES)
        take_off(user)
        AccountEvent.objects.create(person=user, by=user, did=AccountEvent.Did.FACTOR_OFF)
        messages.success(request, _("The second factor is off: the password alone opens."))
        return redirect("account")
    left = StaticToken.objects.filter(device__user=user).count()
    status = 422 if request.method == "POST" else 200
    context = {"form": form, "on": True, "codes_left": left}
    return render(request, "pages/workshop/second_factor.html", context, status=status)


urlpatterns = [path("account/second-factor/", second_factor, name="account-factor")]
