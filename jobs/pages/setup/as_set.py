"""The set-up as it was left, channel by channel; a later visit beside the one before."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import path
from django.utils import timezone
from django.utils.translation import gettext_lazy as _
from django.views.decorators.http import require_safe

from jobs import access
from jobs.design.setup.as_set import SHOWN_AS
from jobs.models import Channel, ChannelSetting
from jobs.pages.forms import strip
from jobs.pages.forms.days import DaysForm
from jobs.pages.forms.fields import key_of
from jobs.pages.forms.record_rows import RowKind


class ChannelSettingForm(DaysForm[ChannelSetting]):
    """What was dialled in for one channel; a new one begins with what holds for it so far."""

    over: ClassVar = {"set_on"}
    quantities: ClassVar = SHOWN_AS
    any_sign: ClassVar = {"level", "delay"}
    fieldsets: ClassVar = [
        (_("Which channel, when and by whom"), ["channel", "set_on", "set_by", "preset"]),
        (_("Filters"), [*ChannelSetting.FILTERS]),
        (_("Level, delay, polarity"), ["level", "delay", "inverted"]),
        (_("Gain"), ["gain_voltage"]),
        (_("What else"), ["note"]),
    ]

    class Meta:
        model = ChannelSetting
        fields = (
            *("channel", "set_on", "set_by", "preset"),
            *(*ChannelSetting.FIELDS, "gain_voltage", "note"),
        )
        widgets: ClassVar = {
            "set_on": forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        given = kwargs.get("initial") or {}
        instance = kwargs["instance"]
        if not instance.pk:
            kwargs["initial"] = self._begun(instance, key_of(str(given.get("channel", "")))) | given
        super().__init__(*args, **kwargs)
        self.offer("channel", self.instance.job.channels.filter(amplifier__isnull=False))

    @staticmethod
    def _begun(instance: ChannelSetting, key: int | None) -> dict[str, Any]:
        """What was set last, or what is planned: whoever writes changes what is different."""
        channel = Channel.objects.filter(job=instance.job, pk=key or 0).first()
        if channel is None:
            return {"set_on": timezone.localdate()}
        last = ChannelSetting.objects.filter(channel=channel).order_by("-set_on", "-pk").first()
        begun = {name: getattr(last or channel, name) for name in ChannelSetting.FIELDS}
        return begun | {"set_on": timezone.localdate(), "preset": last.preset if last else ""}


@require_safe
def as_set(request: HttpRequest, code: str) -> HttpResponse:
    """Show every channel as it was left."""
    job = access.open_job(access.signed_in(request), code)
    design = strip.worked_out(request, job)
    context = {
        "job": job,
        "section": "setup-as-set",
        "channels": design.as_set,
        "files": design.records.processor_files,
        "findings": design.findings_of("setup"),
        "steps": strip.steps(request, job, "setup"),
    }
    return render(request, "pages/setup/as_set.html", context)


CHANNEL_SETTING = RowKind(
    slug="channel-setting",
    form=ChannelSettingForm,
    section="setup-as-set",
    allowed=access.may_record,
)

urlpatterns = [
    path("jobs/<str:code>/set-up/as-set/", as_set, name="setup-as-set"),
    *CHANNEL_SETTING.urls(),
]
