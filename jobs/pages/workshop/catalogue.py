"""The catalogue: the parts the workshop fits, each kind with its own typed figures."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.core.paginator import Paginator
from django.http import Http404, HttpRequest, HttpResponse, JsonResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils.formats import localize
from django.utils.translation import gettext as _
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access, photos, units
from jobs.design.box.drivers import contradictions
from jobs.design.job import board_counts
from jobs.locks import held
from jobs.models import Driver, Job, Part, PartPicture, User
from jobs.pages.forms.fields import asked
from jobs.pages.forms.forms import RecordForm
from jobs.pages.workshop.key_figures import find, in_short, with_figures
from jobs.pages.workshop.part_forms import FORMS

MOST_ROWS = 200
PER_PAGE = 16


@require_safe
def catalogue(request: HttpRequest) -> HttpResponse:
    """List parts, by kind and by name."""
    user = access.signed_in(request)
    access.require_member(user)
    kind, text = request.GET.get("kind", ""), asked(request, "q")
    parts = Part.objects.all()
    if kind in Part.Kind.values:
        parts = parts.filter(kind=kind)
    page = Paginator(find(parts, text), PER_PAGE).get_page(request.GET.get("page"))
    pictures = _pictures(part_id__in=[part.pk for part in page])
    context = {
        "page": page,
        "parts": [(part, in_short(part), pictures.get(part.pk)) for part in page],
        "kinds": Part.Kind.choices,
        "kind": kind,
        "q": text,
        "job_code": _asking_job(request),
        "may_spec": access.may_spec(user),
        "may_manage": access.may_manage(user),
        "may_see_prices": access.may_see_prices(user),
    }
    return render(request, "pages/workshop/catalogue.html", context)


@require_safe
def figures(request: HttpRequest) -> HttpResponse:
    """Say of every part what it is picked by, for whoever types into a list."""
    user = access.signed_in(request)
    access.require_member(user)
    sees = access.may_see_prices(user)
    pictures = _pictures()
    return JsonResponse(
        {
            part.pk: {
                "figures": in_short(part),
                "shelf": part.shelf,
                "picture": pictures.get(part.pk, ""),
                "price": localize(part.price) if sees and part.price is not None else "",
            }
            for part in with_figures(Part.objects.all())
        }
    )


def _pictures(**asked_for: Any) -> dict[int, str]:
    """The addresses of pictures by their parts; a changed picture has another address."""
    rows = PartPicture.objects.filter(**asked_for).values_list("part_id", "changed_at")
    return {key: f"{reverse('part-picture', args=[key])}?{at.timestamp():.0f}" for key, at in rows}


@require_http_methods(["GET", "POST"])
def picture(request: HttpRequest, pk: int) -> HttpResponse:
    """GET: send what a part looks like. POST: keep another picture of it, or none."""
    user = access.signed_in(request)
    access.require_member(user)
    part = part_to_edit(pk, removed=True)
    if request.method == "GET":
        kept = get_object_or_404(PartPicture, part=part)
        response = HttpResponse(bytes(kept.image), content_type="image/jpeg")
        response["Cache-Control"] = "private, max-age=86400"
        return response
    access.require(access.may_spec(user))
    if "remove" in request.POST:
        PartPicture.objects.filter(part=part).delete()
    elif file := request.FILES.get("picture"):
        try:
            PartPicture.objects.update_or_create(part_id=pk, defaults={"image": photos.stamp(file)})
        except photos.UnusablePhotoError as error:
            messages.error(request, f"{file.name}: {error}")
    else:
        messages.error(request, _("No photo came along."))
    return redirect("part-edit", pk)


def _asking_job(request: HttpRequest) -> str:
    """Return the number of the job somebody came from to enter a part it lacks."""
    code = request.GET.get("job", "")
    return code if access.CODE.fullmatch(code) else ""


def _unseen(user: User) -> list[str]:
    """Fields of a part that this person does not see."""
    prices = [] if access.may_see_prices(user) else ["price", "tax_class"]
    return [*prices, *([] if access.may_see_costs(user) else ["cost"])]


def _form(user: User, kind: str, sent: Any, part: Any) -> RecordForm[Any]:
    """The form of a part, with what this person sees of it."""
    form = FORMS[kind](sent, instance=part)
    for name in _unseen(user):
        del form.fields[name]
    return form


def _edit(request: HttpRequest, kind: str, instance: Any) -> HttpResponse:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    form = _form(user, kind, request.POST or None, instance)
    status, kept_away = 200, False
    if request.method == "POST":
        with held(instance):
            kept_away = instance.removed_at and "bring_back" not in request.POST
            if not kept_away and form.is_valid():
                form.instance.kind, form.instance.removed_at = kind, None
                part = form.save()
                board_counts.refresh_all(part)
                messages.success(request, _("Saved: %(part)s.") % {"part": part})
                if code := _asking_job(request):
                    return redirect(f"{reverse('item-add', args=[code])}?part={part.pk}")
                return redirect(f"{reverse('catalogue')}?kind={kind}")
        status = 409 if kept_away else 422
    return part_page(request, kind, form, status=status)


def part_page(
    request: HttpRequest, kind: str, form: RecordForm[Any], *, sheet: Any = None, status: int = 200
) -> HttpResponse:
    """Show the form of a part with what contradicts itself, and the jobs that use it."""
    user, part = access.signed_in(request), form.instance
    for name in _unseen(user):
        form.fields.pop(name, None)
    say_contradictions(form)
    context = {
        "form": form,
        "kind": Part.Kind(kind),
        "row": part,
        "jobs": _jobs_with(part, user),
        "picture": _pictures(part_id=part.pk).get(part.pk) if part.pk else "",
        "job_code": _asking_job(request),
        "sheet": sheet,
    }
    if part.removed_at:
        context["removed_by"] = part.removed_by()
    return render(request, "pages/workshop/part.html", context, status=status)


def _jobs_with(part: Part, user: User) -> list[Job]:
    """Return the jobs somebody may see that use this part, the newest first."""
    if not part.pk:
        return []
    jobs = access.visible_jobs(user).filter(pk__in=board_counts.touched_by(part).values("pk"))
    return list(jobs.select_related("vehicle__customer").order_by("-number")[:MOST_ROWS])


def said_of(form: RecordForm[Any], driver: Driver) -> dict[str, str]:
    """Return what is to be said at each figure of a driver that its others contradict."""
    sentences = {}
    for wrong in contradictions(driver):
        words = {
            "expected": units.show(wrong.expected, form.quantities[wrong.field]),
            "others": ", ".join(str(form.fields[name].label) for name in wrong.others),
        }
        sentence = (
            _("The others lead to %(expected)s here. Read this again, or %(others)s.")
            if wrong.others
            else _("The other figures lead to %(expected)s here. Read this one again.")
        )
        sentences[wrong.field] = sentence % words
    return sentences


def say_contradictions(form: RecordForm[Any]) -> None:
    """Say at a driver's figure that its others contradict it, and what they lead to."""
    if isinstance(form.instance, Driver):
        for name, sentence in said_of(form, form.instance).items():
            vars(form.fields[name])["said"] = sentence


@require_POST
def check_part(request: HttpRequest, kind: str) -> HttpResponse:
    """Say of figures as they are typed which cannot be read and which contradict the others."""
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    if kind not in FORMS:
        raise Http404
    form = _form(user, kind, request.POST, FORMS[kind]._meta.model())
    form.is_valid()  # fills the part with every figure that could be read
    say_contradictions(form)
    return render(request, "parts/forms/live_fields.html", {"form": form})


@require_http_methods(["GET", "POST"])
def add_part(request: HttpRequest, kind: str) -> HttpResponse:
    """Enter a new part of one kind."""
    access.require_member(access.signed_in(request))
    if kind not in FORMS:
        raise Http404
    model = FORMS[kind]._meta.model
    return _edit(request, kind, model())


def part_to_edit(pk: int, *, removed: bool = False) -> Any:
    """Return a part as its own kind; a removed one only where that is asked for."""
    part = (Part.with_removed if removed else Part.objects).filter(pk=pk).first()
    if part is None:
        raise Http404
    return FORMS[part.kind]._meta.model.with_removed.get(pk=pk)


@require_http_methods(["GET", "POST"])
def edit_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Correct a part; jobs that use it are worked out anew, issued sheets are not."""
    access.require_member(access.signed_in(request))
    part = part_to_edit(pk, removed=request.method == "POST")
    return _edit(request, part.kind, part)


def _remove(request: HttpRequest, pk: int, *, back: bool) -> HttpResponse:
    user = access.signed_in(request)
    access.require_member(user)
    access.require(access.may_spec(user))
    part = part_to_edit(pk, removed=True)
    with held(part):
        part.refresh_from_db()
        part.restore() if back else part.remove()
        board_counts.refresh_all(part)
    if back:
        messages.success(request, _("Back again: %(part)s.") % {"part": part})
    else:
        undo = reverse("part-restore", args=[pk])
        messages.warning(
            request, _("Removed: %(part)s.") % {"part": part}, extra_tags=f"undo:{undo}"
        )
    return redirect(f"{reverse('catalogue')}?kind={part.kind}")


@require_POST
def remove_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Take a part out of the catalogue; jobs that use it keep it."""
    return _remove(request, pk, back=False)


@require_POST
def restore_part(request: HttpRequest, pk: int) -> HttpResponse:
    """Bring a removed part back."""
    return _remove(request, pk, back=True)


urlpatterns = [
    path("catalogue/", catalogue, name="catalogue"),
    path("catalogue/figures/", figures, name="part-figures"),
    path("catalogue/add/<str:kind>/", add_part, name="part-add"),
    path("catalogue/check/<str:kind>/", check_part, name="part-check"),
    path("catalogue/<int:pk>/", edit_part, name="part-edit"),
    path("catalogue/<int:pk>/picture/", picture, name="part-picture"),
    path("catalogue/<int:pk>/remove/", remove_part, name="part-remove"),
    path("catalogue/<int:pk>/restore/", restore_part, name="part-restore"),
]
