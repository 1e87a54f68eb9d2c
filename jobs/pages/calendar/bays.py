"""The bays of the workshop: named by the manager, so that a day can be planned in one."""

from __future__ import annotations

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST

from jobs import access
from jobs.locks import hold_table
from jobs.models import Bay
from jobs.pages.forms.forms import RecordForm


class BayForm(RecordForm[Bay]):
    """One bay."""

    class Meta:
        model = Bay
        fields = ("name",)

    def clean_name(self) -> str:
        """Two bays of one name could not be told apart."""
        name = " ".join(str(self.cleaned_data["name"]).split())
        if Bay.objects.filter(name__iexact=name).exists():
            raise ValidationError(_("There is a bay of this name already."))
        return name


@require_http_methods(["GET", "POST"])
def bays(request: HttpRequest) -> HttpResponse:
    """List the bays, and take one more in."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    form = BayForm(request.POST or None, instance=Bay())
    status = 200
    if request.method == "POST":
        with transaction.atomic():
            # So that of two managers the second is told.
            hold_table(Bay)
            if saved := form.is_valid():
                form.save()
        if saved:
            messages.success(request, _("Saved."))
            return redirect("bays")
        status = 422
    context = {"form": form, "bays": Bay.objects.all()}
    return render(request, "pages/calendar/bays.html", context, status=status)


@require_POST
def remove(request: HttpRequest, pk: int) -> HttpResponse:
    """Plan nothing more in a bay; days planned there keep it, and it can be brought back."""
    bay = _set(request, pk, gone=True)
    undo = reverse("bay-restore", args=[pk])
    messages.warning(request, _("Removed: %(row)s.") % {"row": bay}, extra_tags=f"undo:{undo}")
    return redirect("bays")


@require_POST
def restore(request: HttpRequest, pk: int) -> HttpResponse:
    """Bring a bay back."""
    bay = _set(request, pk, gone=False)
    if bay.removed_at:
        messages.error(request, _("There is a bay of this name already."))
    else:
        messages.success(request, _("Back again: %(row)s.") % {"row": bay})
    return redirect("bays")


def _set(request: HttpRequest, pk: int, *, gone: bool) -> Bay:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_manage(user))
    with transaction.atomic():
        hold_table(Bay)
        bay = get_object_or_404(Bay.with_removed, pk=pk)
        if gone:
            bay.remove()
        elif not Bay.objects.filter(name__iexact=bay.name).exclude(pk=pk).exists():
            bay.restore()
    return bay


urlpatterns = [
    path("bays/", bays, name="bays"),
    path("bays/<int:pk>/remove/", remove, name="bay-remove"),
    path("bays/<int:pk>/restore/", restore, name="bay-restore"),
]
