"""Customers and cars as lists: who has been here, in what, and on which visits."""

from __future__ import annotations

from typing import Any

from django.core.paginator import Page, Paginator
from django.db.models import Max, Prefetch, QuerySet
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.views.decorators.http import require_safe

from jobs import access
from jobs.models import Customer, Job, User, Vehicle, Word
from jobs.pages.forms.fields import asked
from jobs.search import look_up

PER_PAGE = 30
MOST_HITS = 300


def _visits(user: User) -> QuerySet[Job]:
    return access.visible_jobs(user).order_by("-number")


def _page(request: HttpRequest, rows: QuerySet[Any]) -> Page[Any]:
    return Paginator(rows, PER_PAGE).get_page(request.GET.get("page"))


@require_safe
def customers(request: HttpRequest) -> HttpResponse:
    """List the customers by name, each with cars and visits; one who was erased is not listed."""
    user = access.signed_in(request)
    access.require_member(user)
    text = asked(request, "q")
    rows = Customer.objects.filter(erased_at=None).order_by("name", "pk")
    if text:
        rows = rows.filter(pk__in=look_up(text, Word.Shelf.CUSTOMER, MOST_HITS).keys("customer"))
    cars = Vehicle.objects.prefetch_related(Prefetch("jobs", _visits(user), to_attr="visits"))
    page = _page(request, rows.prefetch_related(Prefetch("vehicles", cars, to_attr="cars")))
    return render(request, "pages/job/customer_list.html", {"page": page, "q": text})


@require_safe
def cars(request: HttpRequest) -> HttpResponse:
    """List the cars, the one that was here last first, each with its visits."""
    user = access.signed_in(request)
    access.require_member(user)
    text = asked(request, "q")
    rows = Vehicle.objects.annotate(last=Max("jobs__number")).order_by("-last", "-pk")
    if text:
        keys = look_up(text, Word.Shelf.JOB, MOST_HITS).keys("job")
        rows = rows.filter(jobs__in=keys)
    visits = Prefetch("jobs", _visits(user), to_attr="visits")
    page = _page(request, rows.select_related("customer").prefetch_related(visits))
    context = {"page": page, "q": text, "may_spec": access.may_spec(user)}
    return render(request, "pages/job/car_list.html", context)


urlpatterns = [
    path("customers/", customers, name="customer-list"),
    path("cars/", cars, name="car-list"),
]
