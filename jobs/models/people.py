"""Who works here and for whom: users with a role, and customers."""

from __future__ import annotations

import secrets
from typing import Any

from django.conf import settings
from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils.formats import date_format
from django.utils.timezone import localtime
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _
from simple_history.models import HistoricalRecords

from jobs.locks import hold_table
from jobs.models.base import Record
from jobs.models.bounded import prose

# Read out over the telephone or copied from a slip: no letter that looks like another.
READABLE = "abcdefghjkmnpqrstuvwxyz23456789"


class Role(models.TextChoices):
    """What a member of the workshop may do; see `jobs.access`."""

    CONSULTANT = "consultant", _("Consultant")
    DESIGNER = "designer", _("Designer")
    INSTALLER = "installer", _("Installer")
    MANAGER = "manager", _("Workshop manager")


# Of an account: what says nothing to a person, and what nobody may read.
NOT_OF_THE_PERSON = (
    *("password", "last_login", "date_joined", "is_superuser", "is_staff", "email"),
    *("must_change_password", "version", "calendar_token"),
)


class AccountHistory(HistoricalRecords):  # type: ignore[misc]
    """The history of a person: name, roles, whether they work here; not when they signed in."""

    def post_save(self, instance: Any, created: bool, using: Any = None, **given: Any) -> None:
        """Leave out what is written at each sign-in."""
        fields = given.get("update_fields")
        if fields is None or not set(fields) <= set(NOT_OF_THE_PERSON):
            super().post_save(instance, created, using=using, **given)


class User(AbstractUser):
    """A person who signs in; without a role they see nothing. Nobody is deleted: names stay."""

    # The values of `Role` this person has; a workshop is small, so a person often has several.
    roles = models.JSONField(_("roles"), default=list, blank=True)
    language = models.CharField(_("language"), max_length=8, choices=settings.LANGUAGES, blank=True)
    # Set with a start password somebody else has seen: the first thing asked for is another.
    must_change_password = models.BooleanField(default=False, editable=False)
    # Compared on save, as of every record: the second of two managers is told.
    version = models.PositiveIntegerField(default=1, editable=False)
    # Opens this person's planned days to whoever holds it; None: nobody does.
    calendar_token = models.CharField(max_length=22, unique=True, null=True, editable=False)  # noqa: DJ001 - unique only where there is one
    history = AccountHistory(excluded_fields=list(NOT_OF_THE_PERSON))

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
    language = models.CharField(
        _("language"),
        max_length=8,
        choices=settings.LANGUAGES,
        blank=True,
        help_text=_("Of what is printed for them and of the pages behind their links."),
    )
    notes = prose(_("notes"))
    # A tombstone: the row stays, so that the cars keep their records, and says nothing of anybody.
    erased_at = models.DateTimeField(_("erased"), null=True, editable=False)
    erased_by = models.ForeignKey(
        settings.AUTH_USER_MODEL,
        models.PROTECT,
        null=True,
        editable=False,
        related_name="+",
        verbose_name=_("erased by"),
    )
    erased_why = models.CharField(_("why"), max_length=200, blank=True, editable=False)

    class Meta:
        ordering = ["name", "pk"]

    def __str__(self) -> str:
        if self.erased_at:
            day = date_format(localtime(self.erased_at), "SHORT_DATE_FORMAT")
            return gettext("erased %(day)s") % {"day": day}
        return self.name
