"""The workshop's own choices, and the page that shows the house style."""

from __future__ import annotations

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods

from jobs import access
from jobs.models import Workshop


class WorkshopForm(forms.ModelForm[Workshop]):
    """Name on the sheets, units, paper, currency."""

    class Meta:
        model = Workshop
        fields = ("name", "address", "phone", "units", "paper", "currency")


@require_http_methods(["GET", "POST"])
def settings(request: HttpRequest) -> HttpResponse:
    """Change the workshop's choices, as its manager."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_release(user))
    form = WorkshopForm(request.POST or None, instance=Workshop.current())
    if request.method == "POST" and form.is_valid():
        form.save()
        messages.success(request, _("Saved."))
        return redirect("workshop")
    status = 422 if request.method == "POST" else 200
    return render(request, "pages/workshop.html", {"form": form}, status=status)


urlpatterns = [path("workshop/", settings, name="workshop")]
