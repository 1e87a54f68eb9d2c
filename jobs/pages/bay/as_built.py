"""Done differently: how a run lies, what was fitted, what became of a factory part, and why.

The checks are run again at once, while it is typed and when it is saved; a stop that was not there
before is said where the person stands, and so is what somebody has to decide now.
"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, ClassVar

from django import forms
from django.contrib import messages
from django.http import HttpRequest, HttpResponse, QueryDict
from django.urls import URLPattern, path
from django.utils import timezone
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_http_methods

from jobs import access
from jobs.design.job import board_counts
from jobs.design.job.whole import JobDesign, load, work_out
from jobs.design.records.about import about
from jobs.design.records.as_built import SHOWN_AS, route_said, said, stretches
from jobs.design.records.findings import Finding
from jobs.models import FactoryAsBuilt, ItemAsBuilt, Job, Part, RunAsBuilt, User
from jobs.pages.bay import gone
from jobs.pages.forms import record_rows, strip
from jobs.pages.forms.cable_form import CableForm
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind
from jobs.pages.forms.route_field import RouteField, RouteWidget

# What an empty field means on a page that was opened for no row.
DESIGNED = "designed"
CABLE, FUSES = gettext_lazy("Cable"), gettext_lazy("Fuses")


class AsBuiltForm(RecordForm[Any]):
    """What is so now; each field says what was designed."""

    of: ClassVar[str]  # the field that names the designed row
    signs: ClassVar[User | None] = None  # who is signed in
    at: ClassVar[dt.datetime | None] = None  # when it was done, if not now

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        instance = kwargs["instance"]
        key = instance.__dict__.get(f"{self.of}_id") or self._asked(args, kwargs)
        self.designed = self.rows(instance.job).filter(pk=key).first() if key else None
        if self.designed is not None and not instance.pk:
            given = {name: getattr(self.designed, name) for name in instance.FIELDS}
            kwargs["initial"] = given | {self.of: self.designed.pk}
        super().__init__(*args, **kwargs)
        self._set_up()
        if self.designed is not None and self.data.get("rest") == DESIGNED:
            self.data = self._completed(self.data)

    def _set_up(self) -> None:
        """Offer the designed rows, or say what was designed of the one that is meant."""
        self.offer(self.of, self.rows(self.instance.job))
        if self.designed is None:
            return
        self.fields[self.of].widget = forms.HiddenInput()
        for name in self.instance.FIELDS:
            words = {"value": said(name, self.designed)}
            self.fields[name].help_text = _("designed: %(value)s") % words

    def _completed(self, sent: Any) -> QueryDict:
        """Fill in as designed what was left empty on a page that could not show it."""
        record = type(self.instance)(job=self.instance.job, **{self.of: self.designed})
        whole: QueryDict = sent.copy()
        for bound in type(self)(instance=record):
            if bound.name not in (*record.FIELDS, "route"):
                continue
            widget, value = bound.field.widget, bound.value()
            if isinstance(widget, RouteWidget):
                rows = widget.value_from_datadict(whole, {}, bound.name)
                if not any(panel or place.strip() for panel, place, _way, _edge in rows):
                    for name, texts in widget.sent(bound.name, value or []).items():
                        whole.setlist(name, texts)
            elif not whole.get(bound.html_name) and value is not None:
                whole[bound.html_name] = value
        return whole

    def _asked(self, args: Any, kwargs: Any) -> int | None:
        sent = args[0] if args and args[0] else kwargs.get("initial") or {}
        return key_of(sent.get(self.of))

    @staticmethod
    def rows(job: Job) -> Any:
        """The designed rows there are."""
        raise NotImplementedError

    def clean(self) -> dict[str, Any]:
        """One row says how it is: a second one would contradict it."""
        cleaned = super().clean()
        chosen = cleaned.get(self.of)
        others = type(self.instance).objects.filter(**{self.of: chosen})
        if chosen and others.exclude(pk=self.instance.pk).exists():
            token = cleaned.get("entry_token")
            if not others.filter(entry_token=token).exists():
                self.add_error(None, _("Somebody has written this down already: change theirs."))
        return cleaned

    def save(self, commit: bool = True) -> Any:
        """Sign it."""
        if self.signs is not None:
            self.instance.done_by, self.instance.done_at = self.signs, self.at or timezone.now()
        return super().save(commit)


class RunAsBuiltForm(AsBuiltForm, CableForm[Any]):
    """A run as it lies in the car."""

    of = "run"
    quantities: ClassVar = SHOWN_AS
    or_zero: ClassVar = {"fuse_distance", "end_fuse_distance"}
    fieldsets: ClassVar = [
        (gettext_lazy("Why"), ["run", "reason"]),
        (gettext_lazy("Route"), ["length", "route", "zone"]),
        (CABLE, ["conductor", "colour", "return_colour"]),
        (
            FUSES,
            ["fuse", "fuse_distance", "end_fuse", "end_fuse_distance"],
        ),
    ]
    # What is done differently is the way a cable goes, rarely the cable itself.
    folded: ClassVar = (CABLE, FUSES)
    route = RouteField(
        required=False, label=gettext_lazy("the places it passes, in order from its start")
    )

    class Meta:
        model = RunAsBuilt
        fields = ("run", "reason", *RunAsBuilt.FIELDS)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        route = self.fields["route"]
        assert isinstance(route, RouteField)
        panels = list(self.instance.job.panels.all())
        route.offer(panels)
        if self.designed is None:
            return
        route.help_text = _("designed: %(value)s") % {"value": route_said(self.designed.route)}
        route.initial = list(self.designed.route)
        if self.instance.pk:
            rows = {panel.pk: panel for panel in panels}
            route.initial = stretches(self.instance, rows)

    @staticmethod
    def rows(job: Job) -> Any:
        """Every run of the job."""
        return job.runs.select_related("conductor", "fuse", "end_fuse", "channel")

    def clean(self) -> dict[str, Any]:
        """Keep the route as its history does."""
        cleaned = super().clean()
        self.instance.route = [
            [stretch.panel_id, stretch.place, stretch.follows_loom, stretch.edge]
            for stretch in cleaned.get("route", [])
        ]
        return cleaned


class FactoryAsBuiltForm(AsBuiltForm):
    """A factory part, and what really became of it."""

    of = "factory_part"

    class Meta:
        model = FactoryAsBuilt
        fields = ("factory_part", "reason", *FactoryAsBuilt.FIELDS)

    @staticmethod
    def rows(job: Job) -> Any:
        """Every factory part of the job."""
        return job.factory_parts.all()


class ItemAsBuiltForm(AsBuiltForm):
    """Equipment as it was really fitted."""

    of = "item"

    class Meta:
        model = ItemAsBuilt
        fields = ("item", "reason", *ItemAsBuilt.FIELDS)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        # What plays in place of a loudspeaker is a loudspeaker.
        of_kind = {"kind": self.designed.part.kind} if self.designed else {}
        self.offer("part", Part.objects.filter(**of_kind))
        if self.designed and self.designed.quantity > 1:
            words = {"n": self.designed.quantity}
            self.fields["part"].help_text += " · " + _("all %(n)s of them are meant") % words

    @staticmethod
    def rows(job: Job) -> Any:
        """Everything on the equipment list."""
        return job.equipmentitems.select_related("part")


def preview(request: HttpRequest, job: Job, form: AsBuiltForm) -> dict[str, Any]:
    """Run every check as if it were so, and say what is new."""
    designed = form.designed
    if designed is None:
        return {"findings": []}
    saved = strip.worked_out(request, job)
    design = work_out(saved.records.with_unsaved(form.instance))
    before = {finding.fingerprint for finding in saved.findings}
    return {
        "findings": [
            finding
            for finding in design.findings
            if finding.is_open
            and (finding.fingerprint not in before or finding.concerns(about(designed)))
        ]
    }


def _signed(kind: RowKind, user: User, at: dt.datetime | None = None) -> RowKind:
    """The same kind, whose form knows who writes."""
    return replace(kind, form=type(kind.form.__name__, (kind.form,), {"signs": user, "at": at}))


@require_http_methods(["GET", "POST"])
def told(
    request: HttpRequest, code: str, *, kind: RowKind, view: Callable[..., HttpResponse], **at: int
) -> HttpResponse:
    """Add or change a row, and say the stops that were not there before."""
    user = access.signed_in(request)
    job = access.open_job(user, code)
    kind = _signed(kind, user)
    if request.method != "POST":
        return view(request, code, kind=kind, **at)
    before = _open(strip.worked_out(request, job))
    answer = view(request, code, kind=kind, **at)
    if answer.status_code == 302:
        for finding, says in _news(job, before):
            tell = messages.error if finding.severity == "stop" else messages.warning
            tell(request, says)
    return answer


def _open(design: JobDesign) -> set[str]:
    return {finding.fingerprint for finding in (*design.open_stops, *design.open_looks)}


def _news(job: Job, before: set[str]) -> list[tuple[Finding, str]]:
    """What was not open before, in words: what must not stay so, and what a person decides."""
    design = work_out(load(job))
    told = [(stop, _("New stop: %(says)s") % {"says": stop.says}) for stop in design.open_stops]
    told += [
        (look, _("To decide now: %(says)s") % {"says": look.says}) for look in design.open_looks
    ]
    return [(finding, says) for finding, says in told if finding.fingerprint not in before]


@dataclass(frozen=True, kw_only=True)
class Kept:
    """What came of a row that was written without signal: what is told, and what it waits for."""

    says: str = ""
    asks: bool = False  # a person decides
    refused: bool = False


def keep(
    slug: str, job: Job, user: User, sent: QueryDict, *, pk: int | None, at: dt.datetime, sure: bool
) -> Kept:
    """Keep a row that was written without signal; the job is held."""
    kind = _signed(AS_BUILT[slug], user, at)
    rows = kind.model.with_removed.filter(job=job)
    if pk and (row := rows.filter(pk=pk).first()) and row.removed_at:
        return Kept(says=gone.sentence(row), refused=True)
    assert issubclass(kind.form, AsBuiltForm)
    of = kind.form.of
    same = {"pk": pk} if pk else {of: key_of(sent.get(of)) or 0, "removed_at": None}
    theirs = rows.select_related("done_by").filter(**same).first()
    if theirs and not sure and sent.get("version") != str(theirs.version):
        words = {"who": theirs.done_by.full_name, "row": theirs, "reason": theirs.reason}
        says = _("%(row)s: %(who)s wrote down meanwhile how it is (%(reason)s). Replace that?")
        return Kept(says=says % words, asks=True)
    whole = sent.copy()
    if theirs:
        whole["version"] = str(theirs.version)
    form = kind.form(whole, instance=theirs or kind.model(job=job))
    assert isinstance(form, AsBuiltForm)
    if not form.is_valid():
        return Kept(says=_in_one_line(form), refused=True)
    before = _open(work_out(load(job)))
    form.save()
    board_counts.forget(job)
    return Kept(says=" ".join(says for _finding, says in _news(job, before)))


def _in_one_line(form: AsBuiltForm) -> str:
    """What is wrong with a form, in one line, for there is no page to say it on."""
    named = form.designed or form.instance._meta.verbose_name
    wrong = [
        f"{form.fields[name].label}: {text}" if name in form.fields else str(text)
        for name, texts in form.errors.items()
        for text in texts
    ]
    return f"{named}: {' '.join(wrong)}"


def _urls(kind: RowKind) -> list[URLPattern]:
    base, name = f"jobs/<str:code>/{kind.slug}/", kind.slug
    own = [
        path(f"{base}add/", partial(told, kind=kind, view=record_rows.add), name=f"{name}-add"),
        path(
            f"{base}<int:pk>/", partial(told, kind=kind, view=record_rows.edit), name=f"{name}-edit"
        ),
    ]
    return [*own, *(to for to in kind.urls() if to.name not in {f"{name}-add", f"{name}-edit"})]


def _kind(slug: str, form: type[AsBuiltForm]) -> RowKind:
    return RowKind(
        slug=slug,
        form=form,
        section="bay",
        allowed=access.may_record,
        template="pages/bay/as_built.html",
        preview=preview,
        preview_template="pages/bay/as_built_result.html",
    )


RUN_AS_BUILT = _kind("run-as-built", RunAsBuiltForm)
FACTORY_AS_BUILT = _kind("factory-as-built", FactoryAsBuiltForm)
ITEM_AS_BUILT = _kind("item-as-built", ItemAsBuiltForm)
AS_BUILT = {kind.slug: kind for kind in (RUN_AS_BUILT, FACTORY_AS_BUILT, ITEM_AS_BUILT)}

urlpatterns = [address for kind in AS_BUILT.values() for address in _urls(kind)]
