"""Who is away and when: everybody enters their own days, the manager everybody's."""

from __future__ import annotations

import datetime as dt
from typing import Any, ClassVar

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.locks import held
from jobs.models import Absence, User
from jobs.models.calendar import touching
from jobs.pages.calendar.people import offer_people
from jobs.pages.forms.days import OF_A_SPAN, SpanForm

# What is longer over than this is listed no more.
LISTED = dt.timedelta(days=28)


class AbsenceForm(SpanForm[Absence]):
    """Days somebody is not there."""

    longest = dt.timedelta(days=366)
    fieldsets: ClassVar = [
        (gettext_lazy("Who and why"), ["person", "kind"]),
        (gettext_lazy("When"), ["first_day", "last_day", "from_time", "to_time"]),
    ]

    class Meta:
        model = Absence
        fields = ("person", "kind", "first_day", "last_day", "from_time", "to_time")
        widgets = OF_A_SPAN
        help_texts: ClassVar = {
            "kind": gettext_lazy("Seen by this person and the manager alone."),
            "last_day": gettext_lazy("Empty: one day."),
            "from_time": gettext_lazy("Empty: all day."),
        }

    def __init__(self, *args: Any, user: User, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if access.may_manage(user):
            offer_people(self)
        else:
            del self.fields["person"]
            self.instance.person = user

    def clean(self) -> dict[str, Any]:
        """Somebody is away until a time, or all day."""
        cleaned = super().clean()
        if cleaned.get("from_time") and not cleaned.get("to_time") and "to_time" not in self.errors:
            self.add_error("to_time", _("Say until when, too."))
        return cleaned


@require_http_methods(["GET", "POST"])
def absences(request: HttpRequest) -> HttpResponse:
    """List the days somebody is away that one may know of, and take in more."""
    user = access.signed_in(request)
    access.require_member(user)
    form = AbsenceForm(request.POST or None, instance=Absence(), user=user)
    status = 200
    if request.method == "POST":
        if form.is_valid():
            form.save()
            messages.success(request, _("Saved."))
            return redirect("absences")
        status = 422
    since = timezone.localdate() - LISTED
    rows = Absence.objects.select_related("person").filter(touching(since, dt.date.max))
    if not access.may_manage(user):
        rows = rows.filter(person=user)
    context = {"form": form, "rows": rows, "may_manage": access.may_manage(user)}
    return render(request, "pages/calendar/absences.html", context, status=status)


@require_POST
def remove(request: HttpRequest, pk: int) -> HttpResponse:
    """Take days back; they can be brought back."""
    absence = _set(request, pk, gone=True)
    undo = reverse("absence-restore", args=[pk])
    words = _("Removed: %(row)s.") % {"row": absence}
    messages.warning(request, words, extra_tags=f"undo:{undo}")
    return redirect("absences")


@require_POST
def restore(request: HttpRequest, pk: int) -> HttpResponse:
    """Bring days back."""
    absence = _set(request, pk, gone=False)
    messages.success(request, _("Back again: %(row)s.") % {"row": absence})
    return redirect("absences")


def _set(request: HttpRequest, pk: int, *, gone: bool) -> Absence:
    user = access.signed_in(request)
    access.require_member(user)
    absence = get_object_or_404(Absence.with_removed.select_related("person"), pk=pk)
    access.require(access.may_manage(user) or absence.person_id == user.pk)
    with held(absence):
        absence.refresh_from_db()
        absence.remove() if gone else absence.restore()
    return absence


urlpatterns = [
    path("calendar/away/", absences, name="absences"),
    path("calendar/away/<int:pk>/remove/", remove, name="absence-remove"),
    path("calendar/away/<int:pk>/restore/", restore, name="absence-restore"),
]
