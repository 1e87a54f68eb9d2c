"""Photos: added, marked with arrows and circles, captioned, moved, enlarged, taken out."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.db import transaction
from django.db.models.fields.files import FieldFile
from django.http import FileResponse, Http404, HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import path
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from jobs import access, photos
from jobs.keeping.removed import delete_files, files_of
from jobs.locks import held
from jobs.models import Panel, Photo, PhotoMark
from jobs.pages.forms import strip
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind, remove
from jobs.pages.forms.rows_field import Column, RowsField

MOST_MARKS = 20
ACCEPTED = "image/jpeg,image/heic,image/heif,image/png,image/webp"


class PhotoForm(forms.Form):
    """A photo for a panel."""

    photo = forms.FileField(
        label=gettext_lazy("photo"),
        widget=forms.ClearableFileInput(attrs={"accept": ACCEPTED}),
    )
    caption = forms.CharField(label=gettext_lazy("caption"), max_length=160, required=False)
    shows_person = forms.BooleanField(
        label=gettext_lazy("shows a person or a number plate"), required=False
    )
    # Sent twice over a bad network, kept once.
    entry_token = forms.UUIDField(widget=forms.HiddenInput, required=False, initial=uuid.uuid4)

    def clean_photo(self) -> photos.PreparedPhoto:
        """Check and prepare the file; say what is wrong with it in words."""
        try:
            return photos.prepared(self.cleaned_data["photo"])
        except photos.UnusablePhotoError as error:
            raise forms.ValidationError(str(error)) from error


MARK_COLUMNS = [
    Column(name="shape", label=gettext_lazy("mark"), choices=[("", "–"), *PhotoMark.Shape.choices]),
    Column(name="x", label=gettext_lazy("from the left"), kind="percent"),
    Column(name="y", label=gettext_lazy("from the top"), kind="percent"),
    Column(name="to_x", label=gettext_lazy("to, from the left"), kind="percent"),
    Column(name="to_y", label=gettext_lazy("to, from the top"), kind="percent"),
]


class MarksField(RowsField):
    """Arrows and circles on a photo, drawn with a finger or typed."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(
            MARK_COLUMNS,
            most=MOST_MARKS,
            pack=list,
            check=_mark_trouble,
            **kwargs,
        )


def _mark_trouble(row: Any) -> str:
    _shape, *places = row
    if None in places:
        return ""  # said cell by cell
    if not all(0 <= place <= 1 for place in places):
        return _("it lies beside the picture.")
    return _("its two points are the same.") if places[:2] == places[2:] else ""


class PictureForm(RecordForm[Photo]):
    """What a photo shows, where one is to look, and of which panel it is."""

    fieldsets: ClassVar = [
        (
            gettext_lazy("What it shows"),
            ["caption", "panel", "step", "visit", "on_handover", "shows_person"],
        ),
        (gettext_lazy("Marks"), ["marks"]),
    ]
    marks = MarksField(
        label=gettext_lazy("marks"),
        help_text=gettext_lazy(
            "An arrow from its tail to its tip, a circle from its centre to its rim; from the "
            "upper left corner of the picture."
        ),
    )

    class Meta:
        model = Photo
        fields = ("panel", "step", "visit", "caption", "on_handover", "shows_person")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.offer("panel", self.instance.job.panels.all())
        self.offer("step", self.instance.job.panelsteps.all())
        visits = self.instance.job.servicevisits.all()
        self.offer("visit", visits)
        if not visits:
            del self.fields["visit"]
            self.fields["panel"].required = True

    def clean(self) -> dict[str, Any]:
        """A step is one of its panel; what is marked has to be there."""
        cleaned = super().clean()
        panel, step = cleaned.get("panel"), cleaned.get("step")
        if not panel and not cleaned.get("visit") and "panel" not in self.errors:
            self.add_error("panel", _("Of which panel is it, or of which visit?"))
        if panel and step and step.panel_id != panel.pk:
            self.add_error("step", _("This step is behind another panel."))
        if cleaned.get("marks") and self.instance.proportion is None:
            self.instance.proportion = _proportion(self.instance)
            if self.instance.proportion is None:
                self.add_error("marks", _("The file of this photo is lost: nothing can be marked."))
        return cleaned


def _proportion(picture: Photo) -> float | None:
    try:
        return photos.proportion_of(picture.small.open("rb"))
    except (OSError, ValueError):
        return None


@require_http_methods(["GET", "POST"])
def add_photo(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Keep a photo of what is behind a panel."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    # A photo taken while somebody removed the panel is kept with it.
    panel = get_object_or_404(Panel.with_removed, job=job, pk=pk)
    sent = request.method == "POST"
    form = PhotoForm(request.POST, request.FILES) if sent else PhotoForm()
    if not form.is_valid():
        context = {
            "job": job,
            "panel": panel,
            "form": form,
            "steps": strip.steps(request, job, "panels"),
        }
        return render(request, "pages/job/photo.html", context, status=422 if sent else 200)
    prepared: photos.PreparedPhoto = form.cleaned_data["photo"]
    token = form.cleaned_data["entry_token"] or uuid.uuid4()
    with held(job):
        if not Photo.with_removed.filter(entry_token=token).exists():
            Photo.objects.create(
                job=job,
                panel=panel,
                caption=form.cleaned_data["caption"],
                shows_person=form.cleaned_data["shows_person"],
                taken_by=user,
                entry_token=token,
                **prepared.fields,
            )
    if panel.removed_at:
        by = panel.removed_by()
        words = {"who": by.full_name if by else "–", "panel": panel}
        sentence = _("Photo kept. %(who)s has removed its panel meanwhile: %(panel)s.") % words
        messages.warning(request, sentence)
    else:
        messages.success(request, _("Photo kept."))
    return redirect("panels", job.code)


@require_POST
def remove_picture(request: HttpRequest, code: str, pk: int) -> HttpResponse:
    """Take a photo out, kept for thirty days; one that shows a person goes at once, for good."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    access.require(access.may_record(user))
    picture = get_object_or_404(Photo, job=job, pk=pk)
    if not picture.shows_person and "shows_person" not in request.POST:
        return remove(request, code, pk, kind=PICTURE)
    access.require(access.may_spec(user) or picture.taken_by == user)
    gone = {"image": "", "small": "", "original": "", "caption": ""}
    with held(job):
        files = files_of(picture)
        vars(picture).update(gone | {"shows_person": True})
        picture.remove()
        Photo.history.filter(id=pk).update(**gone)
        transaction.on_commit(lambda: delete_files(files))
    messages.success(request, _("The photo and its files are gone for good."))
    return redirect("bay", job.code)


@require_safe
def photo(request: HttpRequest, code: str, pk: int) -> FileResponse:
    """Send one photo through the door of its job."""
    picture = access.open_photo(access.signed_in(request), code, pk)
    return _sent(picture.small)


@require_safe
def large(request: HttpRequest, code: str, pk: int) -> FileResponse:
    """Send a photo as large as it is kept."""
    picture = access.open_photo(access.signed_in(request), code, pk)
    return _sent(picture.image)


def _sent(file: FieldFile) -> FileResponse:
    try:
        opened = file.open("rb")
    except FileNotFoundError:  # the store has lost it, which `verify` says
        raise Http404 from None
    response = FileResponse(opened, content_type="image/jpeg")
    response["Cache-Control"] = "private, max-age=3600"
    return response


PICTURE = RowKind(
    slug="picture",
    form=PictureForm,
    section="bay",
    allowed=access.may_record,
    template="pages/bay/picture.html",
    # One whose files went at once does not come back.
    may_change=lambda user, picture: bool(picture.image),
    asks="parts/job/picture_removal.html",
)

urlpatterns = [
    path("jobs/<str:code>/panel/<int:pk>/photo/", add_photo, name="photo-add"),
    path("jobs/<str:code>/photo/<int:pk>/", photo, name="photo"),
    path("jobs/<str:code>/picture/<int:pk>/remove/", remove_picture, name="picture-remove"),
    *(to for to in PICTURE.urls() if to.name not in ("picture-add", "picture-remove")),
    path("jobs/<str:code>/photo/<int:pk>/large/", large, name="photo-large"),
]
