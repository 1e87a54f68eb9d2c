"""Offcuts the workshop keeps: entered when they are put away, taken off when they are cut up."""

from __future__ import annotations

from typing import ClassVar

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.locks import held
from jobs.models import Offcut
from jobs.pages.forms.forms import RecordForm


class OffcutForm(RecordForm[Offcut]):
    """A rectangle with clean edges."""

    quantities: ClassVar = {"length": "length", "width": "length"}

    class Meta:
        model = Offcut
        fields = ("material", "length", "width", "place")
        help_texts: ClassVar = {
            "width": gettext_lazy("Clean edges, square corners: nothing is trimmed off it again."),
        }


@require_http_methods(["GET", "POST"])
def offcuts(request: HttpRequest) -> HttpResponse:
    """List what is kept, and take one more in."""
    user = access.signed_in(request)
    access.require_member(user)
    form = OffcutForm(request.POST or None, instance=Offcut())
    status = 200
    if request.method == "POST":
        access.require(access.may_record(user))
        if form.is_valid():
            offcut = form.save()
            messages.success(request, _("Kept: %(offcut)s.") % {"offcut": offcut})
            return redirect("offcuts")
        status = 422
    context = {"form": form, "offcuts": Offcut.objects.select_related("material")}
    return render(request, "pages/workshop/offcuts.html", context, status=status)


@require_POST
def cut_up(request: HttpRequest, pk: int) -> HttpResponse:
    """Take an offcut off the stock; it can be brought back."""
    return _set(request, pk, gone=True)


@require_POST
def bring_back(request: HttpRequest, pk: int) -> HttpResponse:
    """Put an offcut back that was taken off by mistake."""
    return _set(request, pk, gone=False)


def _set(request: HttpRequest, pk: int, *, gone: bool) -> HttpResponse:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_record(user))
    offcut = get_object_or_404(Offcut.with_removed, pk=pk)
    with held(offcut):
        offcut.refresh_from_db()
        offcut.remove() if gone else offcut.restore()
    if gone:
        undo = reverse("offcut-restore", args=[pk])
        taken = _("Taken off the stock: %(offcut)s.") % {"offcut": offcut}
        messages.warning(request, taken, extra_tags=f"undo:{undo}")
    else:
        messages.success(request, _("Back again: %(offcut)s.") % {"offcut": offcut})
    return redirect("offcuts")


urlpatterns = [
    path("offcuts/", offcuts, name="offcuts"),
    path("offcuts/<int:pk>/remove/", cut_up, name="offcut-remove"),
    path("offcuts/<int:pk>/restore/", bring_back, name="offcut-restore"),
]
