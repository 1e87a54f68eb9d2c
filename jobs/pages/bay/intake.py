"""The intake: round the car with its customer before anything comes off, signed on the screen."""

from __future__ import annotations

import json
import uuid
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.core.files.uploadedfile import UploadedFile
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path, reverse
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access, photos
from jobs.acceptance import HEIGHT, WIDTH, RefusedError, signature
from jobs.design.job import board_counts
from jobs.drawings.car import bodies
from jobs.drawings.car.outline import car_outline
from jobs.keeping.removed import delete_files, files_of
from jobs.locks import held
from jobs.models import Intake, IntakeMark, Job, User
from jobs.pages.bay.pictures import ACCEPTED
from jobs.pages.forms import strip
from jobs.pages.forms.fields import written
from jobs.pages.forms.forms import RecordForm

LONGEST_NAME = 120
MOST_MARKS = 100  # with a picture each that is some 80 MB


class IntakeForm(RecordForm[Intake]):
    """What is read off the car, what lies in it and what its customer says of it."""

    fieldsets: ClassVar = [
        (
            gettext_lazy("As it stands here"),
            ["body", "mileage", "mileage_unit", "fuel", "keys", "lamps_lit", "lamps"],
        ),
        (gettext_lazy("What is in it"), ["belongings_left", "belongings"]),
        (gettext_lazy("What the customer says"), ["works", "works_not"]),
    ]

    class Meta:
        model = Intake
        fields = (
            *("body", "mileage", "mileage_unit", "fuel", "keys", "lamps_lit", "lamps"),
            *("belongings_left", "belongings", "works", "works_not"),
        )

    def clean(self) -> dict[str, Any]:
        """What is lit or left is named, and a no has nothing to name."""
        cleaned = super().clean()
        for there, which in (("lamps_lit", "lamps"), ("belongings_left", "belongings")):
            if cleaned.get(there) and not cleaned.get(which):
                self.add_error(which, _("Say which, please."))
            elif cleaned.get(which) and not cleaned.get(there):
                self.add_error(there, _("Something is named: this is a yes."))
        return cleaned


class MarkForm(forms.ModelForm[IntakeMark]):
    """One mark: tapped on the outline or chosen from the list, with a word and a picture."""

    x = forms.FloatField(required=False, widget=forms.HiddenInput, min_value=0, max_value=1)
    y = forms.FloatField(required=False, widget=forms.HiddenInput, min_value=0, max_value=1)
    picture = forms.FileField(
        label=gettext_lazy("photo"),
        required=False,
        widget=forms.ClearableFileInput(attrs={"accept": ACCEPTED}),
    )
    entry_token = forms.UUIDField(widget=forms.HiddenInput, required=False, initial=uuid.uuid4)

    class Meta:
        model = IntakeMark
        fields = ("place", "kind", "note")

    def __init__(self, *args: Any, body: str, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.body = body
        known = {*bodies.spots(body), *bodies.INSIDE}
        offered = [place for place in IntakeMark.Place if place in known]
        field = self.fields["place"]
        assert isinstance(field, forms.TypedChoiceField)
        field.choices = [("", "–"), *((place.value, place.label) for place in offered)]

    def clean_picture(self) -> photos.PreparedPhoto | None:
        """Check and prepare the picture; say what is wrong with it in words."""
        upload: UploadedFile[bytes] | None = self.cleaned_data["picture"]
        try:
            return photos.prepared(upload) if upload else None
        except photos.UnusablePhotoError as error:
            raise forms.ValidationError(str(error)) from error

    def clean(self) -> dict[str, Any]:
        """A mark says something: in words, by its kind, or by a picture."""
        cleaned = super().clean() or {}
        kinds = IntakeMark.Kind
        if cleaned.get("kind") == kinds.OTHER and not cleaned.get("note"):
            self.add_error("note", _("Say what it is."))
        lacks_picture = "picture" not in self.errors and not cleaned.get("picture")
        if cleaned.get("kind") == kinds.PICTURE and lacks_picture:
            self.add_error("picture", _("Add the picture."))
        return cleaned

    def mark(self, job: Job, by: User) -> IntakeMark:
        """The mark, where it was tapped; where its place lies if that is another by now."""
        cleaned = self.cleaned_data
        row: IntakeMark = self.save(commit=False)
        row.job, row.noted_by, row.noted_at = job, by, timezone.now()
        row.entry_token = cleaned["entry_token"] or uuid.uuid4()
        x, y = cleaned.get("x"), cleaned.get("y")
        tapped = x is not None and y is not None and bodies.nearest(self.body, x, y) == row.place
        row.x, row.y = (x, y) if tapped else _spot(self.body, row.place)
        if cleaned["picture"]:
            row.image, row.small = cleaned["picture"].image, cleaned["picture"].small
        return row


def _spot(body: str, place: str) -> tuple[float | None, float | None]:
    return bodies.shares(body).get(place, (None, None))


def intake_of(job: Job) -> Intake:
    """The intake of a job; a new one, not stored, where nobody has begun it."""
    kept = Intake.objects.filter(job=job).select_related("taken_by").first()
    return kept or Intake(job=job, body=bodies.body_of(job.vehicle.body))


@require_http_methods(["GET", "POST"])
def intake(request: HttpRequest, code: str) -> HttpResponse:
    """Show the car as it came in; keep what was read off it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    if request.method != "POST":
        return _page(request, job)
    access.require(access.may_record(user))
    with held(job):
        row = intake_of(job)
        form = IntakeForm(request.POST, instance=row)
        refused = row.is_signed
        if not refused and form.is_valid():
            form.save()
            if "body" in form.changed_data:
                _move_marks(row)
            board_counts.forget(job)
            messages.success(request, _("Saved."))
            return redirect("intake", job.code)
    if refused:
        return _frozen(request, job)
    return _page(request, job, form=form, status=422)


def _move_marks(row: Intake) -> None:
    """On another outline each mark lies where its place does."""
    for mark in IntakeMark.objects.filter(job=row.job):
        mark.x, mark.y = _spot(row.body, mark.place)
        mark.save()


@require_POST
def add_mark(request: HttpRequest, code: str) -> HttpResponse:
    """Keep a mark; after the signature it is an addition with its own day and name."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    form = MarkForm(request.POST, request.FILES, body=intake_of(job).body)
    if not form.is_valid():
        return _page(request, job, mark_form=form, status=422)
    with held(job):
        row = form.mark(job, user)
        if not IntakeMark.with_removed.filter(entry_token=row.entry_token).exists():
            if IntakeMark.objects.filter(job=job).count() >= MOST_MARKS:
                form.add_error(None, _("At most %(n)d marks.") % {"n": MOST_MARKS})
                return _page(request, job, mark_form=form, status=422)
            begun = intake_of(job)
            if begun.pk is None:
                begun.save()
            row.save()
            board_counts.forget(job)
    messages.success(request, _("Kept: %(row)s.") % {"row": row})
    return redirect(f"{reverse('intake', args=[job.code])}#marks")


@require_POST
def remove_mark(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Take a mark out while nobody has signed, its picture with it."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    with held(job):
        row = get_object_or_404(IntakeMark, job=job, pk=pk)
        if intake_of(job).is_signed:
            return _frozen(request, job)
        files = files_of(row)
        IntakeMark.history.filter(id=pk).update(image="", small="")
        row.image = row.small = ""
        row.remove()
    delete_files(files)
    messages.success(request, _("Taken out: %(row)s.") % {"row": row})
    return redirect(f"{reverse('intake', args=[job.code])}#marks")


@require_POST
def sign(request: HttpRequest, code: str) -> HttpResponse:
    """Take the customer's signature; what stands on the page is then frozen."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    name = " ".join(written(request, "name").split())
    try:
        strokes = _signature(request, name)
    except RefusedError as refused:
        return _page(request, job, trouble=str(refused), typed=name, status=422)
    with held(job):
        row = intake_of(job)
        if row.is_signed:
            return _frozen(request, job)
        if str(row.version if row.pk else 0) != request.POST.get("version") or (
            str(_newest(job)) != request.POST.get("newest")
        ):
            trouble = _("Something was noted meanwhile: read it once more, then sign.")
            return _page(request, job, trouble=trouble, typed=name, status=409)
        row.signed_name, row.signature = name, strokes
        row.signed_at, row.taken_by = timezone.now(), user
        row.version += 1
        row.save()
        board_counts.forget(job)
    messages.success(request, _("Signed. What is noted from now on is an addition with its day."))
    return redirect("intake", job.code)


def _signature(request: HttpRequest, name: str) -> list[list[int]]:
    if not 0 < len(name) <= LONGEST_NAME:
        raise RefusedError(_("Write the name of whoever signs, first and last."))
    if "agree" not in request.POST:
        raise RefusedError(_("Tick that this is how the car was brought."))
    return signature(request.POST.get("signature", ""))


def _newest(job: Job) -> int:
    """The key of the newest mark: what was signed is what was read."""
    newest = IntakeMark.with_removed.filter(job=job).order_by("-pk").first()
    return newest.pk if newest else 0


def _frozen(request: HttpRequest, job: Job) -> HttpResponse:
    trouble = _("It is signed, and frozen. Note what is new as a mark: it gets its own day.")
    return _page(request, job, trouble=trouble, status=409)


def _page(
    request: HttpRequest,
    job: Job,
    *,
    form: IntakeForm | None = None,
    mark_form: MarkForm | None = None,
    trouble: str = "",
    typed: str = "",
    status: int = 200,
) -> HttpResponse:
    row = intake_of(job)
    marks = list(IntakeMark.objects.filter(job=job).select_related("noted_by"))
    signed, added = row.split(marks)
    context = {
        "job": job,
        "intake": row,
        "form": form or (None if row.is_signed else IntakeForm(instance=row)),
        "mark_form": mark_form or MarkForm(body=row.body),
        "marks": signed,
        "added": added,
        "drawing": car_outline(row.body, [*signed, *added]),
        "spots": json.dumps(bodies.shares(row.body)),
        "newest": _newest(job),
        "trouble": trouble,
        "typed": typed,
        "width": WIDTH,
        "height": HEIGHT,
        "steps": strip.steps(request, job, "car"),
        "section": "intake",
    }
    return render(request, "pages/bay/intake.html", context, status=status)


@require_safe
def picture(request: HttpRequest, code: str, pk: int) -> HttpResponse | FileResponse:
    """Send the picture of a mark through the door of its job."""
    job = access.open_job(access.signed_in(request), code)
    row = get_object_or_404(IntakeMark, job=job, pk=pk)
    try:
        response = FileResponse(row.image.open("rb"), content_type="image/jpeg")
    except (OSError, ValueError) as error:  # there is none, or its file is lost
        raise Http404 from error
    response["Cache-Control"] = "private, max-age=3600"
    return response


urlpatterns = [
    path("jobs/<str:code>/intake/", intake, name="intake"),
    path("jobs/<str:code>/intake/marks/", add_mark, name="intake-mark"),
    path("jobs/<str:code>/intake/marks/<int:pk>/remove/", remove_mark, name="intake-mark-remove"),
    path("jobs/<str:code>/intake/marks/<int:pk>.jpg", picture, name="intake-picture"),
    path("jobs/<str:code>/intake/sign/", sign, name="intake-sign"),
]
