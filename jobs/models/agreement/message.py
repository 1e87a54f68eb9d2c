"""E-mails to customers: what a person read and sent off, and what became of it."""

from __future__ import annotations

import uuid

from django.conf import settings
from django.db import models
from django.utils.translation import gettext_lazy as _

from jobs.models.agreement.offer import Offer
from jobs.models.bounded import prose
from jobs.models.job import Job

LONGEST_SUBJECT, LONGEST_TEXT = 120, 4000


class Message(models.Model):
    """One e-mail, sent at most once: what cannot be known to have arrived is not sent again."""

    class Kind(models.TextChoices):
        OFFER = "offer", _("offer")
        ADDITION = "addition", _("addition")
        COLLECT = "collect", _("the car can be fetched")

    class State(models.TextChoices):
        WAITING = "waiting", _("waits to be sent")
        SENDING = "sending", _("is being sent")
        SENT = "sent", _("sent")
        FAILED = "failed", _("not sent")
        UNSURE = "unsure", _("perhaps sent")

    class Trouble(models.TextChoices):
        NO_SERVER = "no_server", _("No mail server is set.")
        NO_ANSWER = "no_answer", _("The mail server did not answer.")
        LOGIN = "login", _("The mail server refused the name or the password.")
        SECURITY = "security", _("The mail server does not speak as safely as it is set to.")
        REFUSED = "refused", _("The mail server refused it.")
        MIDWAY = "midway", _("The connection broke after it was handed over: ask the customer.")
        OLD = "old", _("It waited longer than a day.")
        ERASED = "erased", _("The person was erased.")

    job = models.ForeignKey(Job, models.CASCADE, related_name="messages")
    offer = models.ForeignKey(Offer, models.CASCADE, null=True, related_name="+")
    kind = models.CharField(max_length=8, choices=Kind)
    # Of the form it was written in: sent twice, it is one message.
    key = models.UUIDField(default=uuid.uuid4, unique=True)
    to = models.EmailField(_("to"))
    subject = models.CharField(_("subject"), max_length=LONGEST_SUBJECT)
    text = prose(_("text"), most=LONGEST_TEXT, blank=False)
    asked_by = models.ForeignKey(settings.AUTH_USER_MODEL, models.PROTECT, related_name="+")
    asked_at = models.DateTimeField()
    state = models.CharField(max_length=7, choices=State, default=State.WAITING)
    trouble = models.CharField(max_length=9, choices=Trouble, blank=True)
    # What the mail server answered last (RFC 5321, 4.2).
    reply = models.PositiveSmallIntegerField(null=True)
    tries = models.PositiveSmallIntegerField(default=0)
    # Not before; None of what has come to an end.
    next_at = models.DateTimeField(null=True)
    began_at = models.DateTimeField(null=True)
    ended_at = models.DateTimeField(null=True)

    class Meta:
        ordering = ["-asked_at", "-pk"]
        indexes = [models.Index(fields=["state", "next_at"])]

    def __str__(self) -> str:
        return f"{self.job} {self.get_kind_display()}"
