"""Who may see and do what; the only door to a job, for pages, sheets and photos alike."""

from __future__ import annotations

import re
from collections.abc import Callable

from django.core.exceptions import PermissionDenied
from django.db.models import QuerySet
from django.http import Http404, HttpRequest
from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from jobs.compiled import compiled
from jobs.models import (
    CustomerPage,
    IssuedSheet,
    Job,
    Offer,
    Panel,
    Photo,
    PrintOrder,
    Role,
    User,
    WithdrawnCode,
)

CODE = re.compile(r"J-(\d{1,9})")


def visible_jobs(user: User) -> QuerySet[Job]:
    """Jobs this person may open: every job for a member of the workshop, none for a stranger."""
    if not is_member(user):
        return Job.objects.none()
    return _jobs()


def _jobs() -> QuerySet[Job]:
    """Every job, with what each page of it names."""
    return Job.objects.select_related("vehicle__customer", "consultant")


def is_member(user: User) -> bool:
    """A member has a role; signing in alone opens nothing."""
    return _has(user, *Role)


def _has(user: User, *roles: Role) -> bool:
    """Whether one of these is among a person's roles; who left has none."""
    return user.is_active and not set(roles).isdisjoint(user.roles)


def may_spec(user: User) -> bool:
    """Consultants, designers and managers decide what is built; installers record what was."""
    return _has(user, Role.CONSULTANT, Role.DESIGNER, Role.MANAGER)


def may_see_prices(user: User) -> bool:
    """Prices and budgets stay with the people who talk money."""
    return _has(user, Role.CONSULTANT, Role.MANAGER)


def may_see_costs(user: User) -> bool:
    """What things cost the workshop, and what is left of a price, stays with the manager."""
    return _has(user, Role.MANAGER)


def may_release(user: User) -> bool:
    """Only the workshop manager releases a stop."""
    return _has(user, Role.MANAGER)


def may_manage(user: User) -> bool:
    """Only the workshop manager says who works here, and how the workshop does things."""
    return _has(user, Role.MANAGER)


def may_handle_personal_data(user: User) -> bool:
    """Only the workshop manager hands a person's data out, or erases it."""
    return _has(user, Role.MANAGER)


def may_record(user: User) -> bool:
    """Every member writes down what was really done."""
    return is_member(user)


# Every right there is, in the order of the page that says who has it.
RIGHTS: dict[Callable[[User], bool], Promise] = {
    is_member: _("opens every job, and reads what is planned, found and printed"),
    may_record: _("writes down what was really done: ticks, values, photos, places, changes"),
    may_spec: _("decides what is built: plans, and accepts what a person must decide"),
    may_see_prices: _("sees prices and budgets"),
    may_see_costs: _("sees what things cost the workshop, and what is left of a price"),
    may_release: _("releases a stop, and lets a job go on with something open"),
    may_manage: _("says who works here and how the workshop does things"),
    may_handle_personal_data: _("hands a person’s data out, or erases it"),
}


def holders(right: Callable[[User], bool]) -> list[Role]:
    """Return the roles that have a right, by asking the code that enforces it."""
    return [role for role in Role if right(User(roles=[role.value], is_active=True))]


def require(allowed: bool) -> None:
    """Refuse a member who lacks the role (403)."""
    if not allowed:
        raise PermissionDenied


def require_member(user: User) -> None:
    """Hide a page that belongs to no job from strangers (404)."""
    if not is_member(user):
        raise Http404


def open_job(user: User, code: str) -> Job:
    """Return the job with this code, or 404 when it does not exist or is not theirs to see."""
    match = CODE.fullmatch(code)
    jobs = _numbered(int(match[1])) if match and is_member(user) else []
    if not jobs:
        raise Http404
    return jobs[0]


@compiled
def _numbered(number: int) -> QuerySet[Job]:
    return _jobs().filter(number=number)


def open_photo(user: User, code: str, pk: int) -> Photo:
    """Return a photo through the door of its job."""
    photo = Photo.objects.filter(job=open_job(user, code), pk=pk).first()
    if photo is None:
        raise Http404
    return photo


def open_issued_sheet(
    user: User, code: str, pk: int, may_open: Callable[[User, IssuedSheet], bool]
) -> IssuedSheet:
    """Return an issued sheet through the door of its job, to whom the sheet's own rule lets in."""
    sheet = IssuedSheet.objects.filter(job=open_job(user, code), pk=pk).first()
    if sheet is None:
        raise Http404
    require(may_open(user, sheet))
    return sheet


def open_print_order(
    user: User, code: str, pk: int, may_follow: Callable[[User, PrintOrder], bool]
) -> PrintOrder:
    """Return a print order through the door of its job, to whom the sheet's own rule lets in."""
    order = PrintOrder.objects.filter(job=open_job(user, code), pk=pk).defer("pdf").first()
    if order is None:
        raise Http404
    require(may_follow(user, order))
    return order


def panel_of_code(token: str) -> Panel | None:
    """Return the panel whose code this is, to whoever holds it; None once it was withdrawn.

    A token nobody was ever given is not found; a panel or a job taken out has withdrawn its codes.
    """
    panels = Panel.with_removed.select_related("job__vehicle")
    panel = panels.filter(token=token).first()
    if panel is None and not WithdrawnCode.objects.filter(token=token).exists():
        raise Http404
    if panel is None or panel.removed_at or panel.job.removed_at:
        return None
    return panel


def sheet_of_code(token: str) -> IssuedSheet | None:
    """Return the issued sheet on which this code is printed, to whoever holds it."""
    sheets = IssuedSheet.objects.defer("pdf", "data").select_related("job")
    return sheets.filter(token=token, job__removed_at=None).first()


def offer_of_link(token: str) -> Offer | None:
    """Return the offer whose link this is, to whoever holds it; whether it still holds it says."""
    offers = Offer.objects.select_related("job__vehicle", "sheet", "basis__sheet", "basis__job")
    return offers.filter(token=token, job__removed_at=None, sheet__erased_at=None).first()


def photos_of_link(offer: Offer) -> QuerySet[Photo]:
    """Return the photos behind a link: chosen by hand, with consent, of no person and no plate."""
    if not offer.is_accepted:
        return Photo.objects.none()
    agreed = {"links__photos_wanted": True, "links__accepted_at__isnull": False}
    photos = Photo.objects.filter(job=offer.job_id, shows_person=False, **agreed)
    return photos.exclude(small="").distinct()


def page_of_link(token: str) -> CustomerPage | None:
    """Return the hand-over whose link this is, to whoever holds it; it says whether it is open."""
    pages = CustomerPage.objects.select_related("job__vehicle", "sheet").defer("sheet__data")
    return pages.filter(token=token, job__removed_at=None, sheet__erased_at=None).first()


def person_of_calendar(token: str) -> User | None:
    """Return whose days an address opens; nobody's once they have left or withdrawn it."""
    person = User.objects.filter(calendar_token=token).first()
    return person if person and is_member(person) else None


def signed_in(request: HttpRequest) -> User:
    """Return the person behind a request; pages are closed to everyone else by default."""
    if not isinstance(request.user, User):
        raise PermissionDenied
    return request.user
