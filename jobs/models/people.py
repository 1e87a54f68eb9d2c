"""Who works here and for whom: users with a role, customers, the workshop itself."""

from __future__ import annotations

import secrets

from django.conf import settings
from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.base import Record
from jobs.models.bounded import count, prose
from jobs.models.box_wood import Machines
from jobs.models.locks import hold_table

# Read out over the telephone or copied from a slip: no letter that looks like another.
READABLE = "abcdefghjkmnpqrstuvwxyz23456789"


class Role(models.TextChoices):
    """What a member of the workshop may do; see `jobs.access`."""

    CONSULTANT = "consultant", _("Consultant")
    DESIGNER = "designer", _("Designer")
    INSTALLER = "installer", _("Installer")
    MANAGER = "manager", _("Workshop manager")


class User(AbstractUser):
    """A person who signs in; without a role they see nothing. Nobody is deleted: names stay."""

    # The values of `Role` this person has; a workshop is small, so a person often has several.
    roles = models.JSONField(_("roles"), default=list, blank=True)
    language = models.CharField(_("language"), max_length=8, choices=settings.LANGUAGES, blank=True)
    # Set with a start password somebody else has seen: the first thing asked for is another.
    must_change_password = models.BooleanField(default=False, editable=False)
    # Compared on save, as of every record: the second of two managers is told.
    version = models.PositiveIntegerField(default=1, editable=False)

    @property
    def full_name(self) -> str:
        """The name printed where this person signs."""
        return self.get_full_name() or self.username

    @property
    def role_words(self) -> str:
        """Their roles as a person reads them."""
        return words_of_roles(self.roles)

    @classmethod
    def managers(cls) -> list[User]:
        """Everybody who works here as a manager, until whoever would take one away has done so."""
        hold_table(cls)
        working = cls.objects.filter(is_active=True)
        return [person for person in working if Role.MANAGER in person.roles]

    def is_last_manager(self) -> bool:
        """Whether nobody else could let people in."""
        return [person.pk for person in User.managers()] == [self.pk]

    def give_start_password(self) -> str:
        """Return a new password to be told to this person, good for getting in and changing it."""
        groups = ("".join(secrets.choice(READABLE) for _letter in range(4)) for _group in range(3))
        password = "-".join(groups)
        self.set_password(password)
        self.must_change_password = True
        self.save()
        return password


def words_of_roles(roles: list[str]) -> str:
    """Name roles in the reader's language, in the order the workshop lists them."""
    return ", ".join(str(role.label) for role in Role if role in roles)


class Customer(Record):
    """Whom the work is for."""

    name = models.CharField(_("name"), max_length=120)
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    email = models.EmailField(_("e-mail"), blank=True)
    address = prose(_("address"))
    notes = prose(_("notes"))

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        return self.name


class Workshop(Machines):
    """The workshop's own choices: its name on the sheets, units, paper, currency."""

    class Units(models.TextChoices):
        METRIC = "metric", _("metric (mm, L, mm²)")
        IMPERIAL = "imperial", _("imperial (in, cu ft, AWG)")

    class Paper(models.TextChoices):
        A4 = "a4", "A4"
        LETTER = "letter", "Letter"
        A3 = "a3", "A3"

    name = models.CharField(_("name"), max_length=80, default="Undertrim")
    # The invented workshop, whose passwords everybody knows: never to be run for real.
    is_demo = models.BooleanField(default=False, editable=False)
    address = prose(_("address"))
    phone = models.CharField(_("phone"), max_length=40, blank=True)
    units = models.CharField(_("units"), max_length=10, choices=Units, default=Units.METRIC)
    paper = models.CharField(_("paper"), max_length=10, choices=Paper, default=Paper.A4)
    currency = models.CharField(_("currency"), max_length=3, default="EUR")
    # Where a phone in the bay finds this app; codes on labels lead there.
    web_address = models.CharField(_("web address of this app"), max_length=120, blank=True)
    # What is cut and ordered beyond the length of the route.
    cable_slack = models.FloatField(_("added to every cable, as a share"), default=0.1)
    cable_per_end = models.FloatField(_("added at each end"), default=0.1)
    heat_shrink = models.FloatField(_("heat-shrink on each end"), default=0.04)
    # The sheet of adhesive labels in the printer.
    label_width = models.FloatField(_("width of a label"), default=0.094)
    label_height = models.FloatField(_("height of a label"), default=0.029)
    label_columns = count(_("labels across"), most=20, default=2)
    label_rows = count(_("labels down"), most=60, default=9)
    label_left = models.FloatField(_("paper edge to the first label, across"), default=0.009)
    label_top = models.FloatField(_("paper edge to the first label, down"), default=0.009)
    label_gap = models.FloatField(_("gap between labels, across"), default=0.004)
    label_row_gap = models.FloatField(_("gap between labels, down"), default=0.0)
    label_wrap = models.FloatField(_("left blank to go round the cable"), default=0.014)

    def __str__(self) -> str:
        return self.name

    @classmethod
    def current(cls) -> Workshop:
        """Return the one workshop; unsaved defaults before anyone has set it."""
        return cls.objects.first() or cls()
