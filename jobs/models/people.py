"""Who works here and for whom: users with a role, customers, the workshop itself."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Record


class Role(models.TextChoices):
    """What a member of the workshop may do; see `jobs.access`."""

    CONSULTANT = "consultant", _("Consultant")
    DESIGNER = "designer", _("Designer")
    INSTALLER = "installer", _("Installer")
    MANAGER = "manager", _("Workshop manager")


class User(AbstractUser):
    """A person who signs in; without a role they see nothing."""

    role = models.CharField(_("role"), max_length=16, choices=Role.choices, blank=True)

    @property
    def full_name(self) -> str:
        """The name printed where this person signs."""
        return self.get_full_name() or self.username


class Customer(Record):
    """Whom the work is for."""

    name = models.CharField(_("name"), max_length=120)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("e-mail"), blank=True)
    address = models.TextField(_("address"), blank=True)
    notes = models.TextField(_("notes"), blank=True)

    class Meta:
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name


class Workshop(models.Model):
    """The workshop's own choices: its name on the sheets, units, paper, currency."""

    class Units(models.TextChoices):
        METRIC = "metric", _("metric (mm, L, mm²)")
        IMPERIAL = "imperial", _("imperial (in, cu ft, AWG)")

    class Paper(models.TextChoices):
        A4 = "a4", "A4"
        LETTER = "letter", "Letter"

    name = models.CharField(_("name"), max_length=80, default="Undertrim")
    address = models.TextField(_("address"), blank=True)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    units = models.CharField(_("units"), max_length=10, choices=Units, default=Units.METRIC)
    paper = models.CharField(_("paper"), max_length=10, choices=Paper, default=Paper.A4)
    currency = models.CharField(_("currency"), max_length=3, default="EUR")

    def __str__(self) -> str:
        return self.name

    @classmethod
    def current(cls) -> Workshop:
        """Return the one workshop; unsaved defaults before anyone has set it."""
        return cls.objects.first() or cls()
