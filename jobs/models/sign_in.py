"""Where people are signed in, and what was done to their accounts."""

from __future__ import annotations

from importlib import import_module
from typing import Any

from django.conf import settings
from django.contrib.sessions.base_session import AbstractBaseSession
from django.db import models
from django.utils.crypto import salted_hmac
from django.utils.translation import gettext_lazy as _

from jobs.models.people import words_of_roles


class Session(AbstractBaseSession):
    """One device on which somebody is signed in; `jobs.sessions` keeps it."""

    class Device(models.TextChoices):
        PHONE = "phone", _("a phone")
        TABLET = "tablet", _("a tablet")
        COMPUTER = "computer", _("a computer")

    user = models.ForeignKey(
        settings.AUTH_USER_MODEL, models.CASCADE, null=True, related_name="sessions"
    )
    device = models.CharField(max_length=8, choices=Device, blank=True)
    address = models.GenericIPAddressField(null=True)
    began_at = models.DateTimeField(null=True)
    seen_at = models.DateTimeField()

    @classmethod
    def get_session_store_class(cls) -> Any:
        """Return what reads and writes these rows."""
        return import_module(settings.SESSION_ENGINE).SessionStore

    @property
    def handle(self) -> str:
        """A name for this row that opens nothing, unlike its key."""
        return salted_hmac("session handle", self.session_key).hexdigest()[:16]


class AccountEvent(models.Model):
    """Something that was done to an account: by whom, and when."""

    class Did(models.TextChoices):
        ADDED = "added", _("added")
        ROLES = "roles", _("roles changed")
        PASSWORD = "password", _("password changed")
        RESET = "reset", _("new start password")
        LEFT = "left", _("left the workshop")
        BACK = "back", _("came back")
        FACTOR_ON = "factor-on", _("second factor set up")
        CODES = "codes", _("new recovery codes")
        FACTOR_OFF = "factor-off", _("second factor taken off")

    person = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="events")
    # Nobody: done with a command on the machine itself.
    by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, null=True, related_name="+")
    did = models.CharField(max_length=12, choices=Did)
    at = models.DateTimeField(auto_now_add=True)
    # What they were after it, where it is about their roles.
    roles = models.JSONField(default=list)

    class Meta:
        ordering = ["-pk"]

    def __str__(self) -> str:
        return f"{self.person}: {self.did}"

    @property
    def role_words(self) -> str:
        """The roles as a person reads them."""
        return words_of_roles(self.roles)
