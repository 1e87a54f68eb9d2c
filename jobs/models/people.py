"""Who works here and for whom: users with a role, and customers."""

from __future__ import annotations

import secrets

from django.conf import settings
from django.contrib.auth.models import AbstractUser
from django.db import models
from django.utils.translation import gettext_lazy as _

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
        """Everybody who works here as a manager; read again by whoever would take one away."""
        working = cls.objects.select_for_update().filter(is_active=True)
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
        ordering = ["name"]

    def __str__(self) -> str:
        return self.name
