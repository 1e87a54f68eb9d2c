"""E-mails to the customer of a job: read before they leave, and followed until they have."""

from __future__ import annotations

import datetime as dt
import uuid
from typing import Any

from django import forms
from django.contrib import messages
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils import timezone, translation
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.design.agreement.agreed import Standing, standing
from jobs.locks import held
from jobs.mail import server
from jobs.models import Booking, Job, Message, Offer, Workshop
from jobs.models.agreement.message import LONGEST_SUBJECT, LONGEST_TEXT
from jobs.models.base import written_day
from jobs.pages.agreement.agreement import link_of
from jobs.pages.forms import strip
from jobs.pages.forms.fields import asked, key_of

Kind, State = Message.Kind, Message.State
OVER = (State.FAILED, State.UNSURE)  # what a person may send once more


class MessageForm(forms.Form):
    """What is sent, word for word, and to whom."""

    to = forms.EmailField(label=gettext_lazy("to"), max_length=254)
    subject = forms.CharField(label=gettext_lazy("subject"), max_length=LONGEST_SUBJECT)
    text = forms.CharField(
        label=gettext_lazy("text"), max_length=LONGEST_TEXT, widget=forms.Textarea
    )
    key = forms.UUIDField(widget=forms.HiddenInput, initial=uuid.uuid4)


@require_http_methods(["GET", "POST"])
def messages_of(request: HttpRequest, code: str) -> HttpResponse:
    """Show what was written; `offer` or `collect` in the address begins another."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_see_prices(user))
    offer = _offer(job, asked(request, "offer"))
    begins = offer is not None or "collect" in request.GET
    form = None
    status = 200
    if request.method == "POST" and not begins:
        return redirect("messages", job.code)
    if request.method == "POST":
        form, status = MessageForm(request.POST), 422
        if not server.way():
            messages.error(request, _("No mail server is set: copy the text and send it yourself."))
            status = 409
        elif form.is_valid():
            keep(job, offer, user=user, **form.cleaned_data)
            messages.success(request, _("It is on its way: this page says when it has left."))
            return redirect("messages", job.code)
    elif begins:
        form = MessageForm(initial=_begun(job, offer))
    context = {
        "job": job,
        "form": form,
        "offer": offer,
        "way": server.way(),
        "folder": server.folder(),
        "sender": server.sender(),
        "rows": Message.objects.filter(job=job).select_related("asked_by", "offer__sheet"),
        "over": OVER,
        "under_way": (State.WAITING, State.SENDING),
        "steps": strip.steps(request, job, "price"),
        "section": "messages",
    }
    return render(request, "pages/agreement/messages.html", context, status=status)


def keep(job: Job, offer: Offer | None, *, user: Any, key: uuid.UUID, **written: str) -> Message:
    """Let a message wait to be sent; the same form sent twice makes one."""
    kind = Kind.COLLECT if offer is None else Kind.ADDITION if offer.addition else Kind.OFFER
    now = timezone.now()
    asked_now = {"job": job, "offer": offer, "kind": kind, "asked_by": user, "asked_at": now}
    message, _new = Message.objects.get_or_create(
        key=key, defaults={**asked_now, **written, "next_at": now}
    )
    return message


def _offer(job: Job, key: str) -> Offer | None:
    """The offer to be sent: one that can still be agreed."""
    if not key:
        return None
    offer = get_object_or_404(Offer.objects.select_related("sheet"), job=job, pk=key_of(key))
    if standing(offer, list(Offer.objects.filter(job=job))) != Standing.OPEN:
        raise Http404
    return offer


def _begun(job: Job, offer: Offer | None) -> dict[str, str]:
    """The words to begin with, in the language of the offer or of its customer."""
    shop, customer = Workshop.current(), job.vehicle.customer
    fetched_on = None if offer else _fetched_on(job)
    language = offer.sheet.language if offer else customer.language or shop.language
    with translation.override(language):
        words = {
            "car": str(job.vehicle),
            "name": customer.name,
            "number": offer.number if offer else "",
            "day": written_day(offer.valid_until if offer else fetched_on),
        }
        if offer is None:
            subject = _("Your %(car)s can be fetched") % words
            body = _("your %(car)s is ready. It can be fetched on %(day)s.") % words
            if fetched_on is None:
                body = _("your %(car)s is ready and can be fetched.") % words
        elif offer.addition:
            subject = _("Addition %(number)s for your %(car)s") % words
            body = _("behind this link is an addition to what was agreed, %(number)s:") % words
        else:
            subject = _("Our offer %(number)s for your %(car)s") % words
            body = _("behind this link is our offer %(number)s for your %(car)s:") % words
        parts = [_("Good day %(name)s,") % words, body]
        if offer:
            opens = _("It opens on a phone and can be agreed there; it holds until %(day)s.")
            parts += [link_of(offer, shop), opens % words]
        parts.append("\n".join(filter(None, (shop.name, shop.address, shop.phone))))
    return {"to": customer.email, "subject": subject[:LONGEST_SUBJECT], "text": "\n\n".join(parts)}


def _fetched_on(job: Job) -> dt.date | None:
    """The day that is planned for it, from today on."""
    days = job.bookings.filter(kind=Booking.Kind.PICK_UP, first_day__gte=timezone.localdate())
    first: dt.date | None = days.values_list("first_day", flat=True).first()
    return first


@require_POST
def again(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Send once more what was not sent, or perhaps was: a person knows that better."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_see_prices(user))
    message = get_object_or_404(Message, job=job, pk=pk)
    with held(job):
        waits = {"state": State.WAITING, "trouble": "", "reply": None, "tries": 0, "ended_at": None}
        now = timezone.now()
        known = Message.objects.filter(pk=message.pk, state__in=OVER).exclude(to="")
        if known.update(**waits, asked_by=user, asked_at=now, next_at=now):
            messages.success(request, _("It is on its way: this page says when it has left."))
    return redirect("messages", job.code)


urlpatterns = [
    path("jobs/<str:code>/messages/", messages_of, name="messages"),
    path("jobs/<str:code>/messages/<int:pk>/again/", again, name="message-again"),
]
