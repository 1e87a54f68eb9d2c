"""Keep a job as the template of its model of car, under a name."""

from __future__ import annotations

from typing import Any, ClassVar

from django import forms
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.design.job.earlier.start_like import OF_A_MODEL, offers
from jobs.models import CarTemplate
from jobs.pages.forms.forms import RecordForm
from jobs.pages.forms.record_rows import RowKind


class TemplateForm(RecordForm[CarTemplate]):
    """Its name, and what of the job is taken over unless somebody says no."""

    takes = forms.MultipleChoiceField(
        label=gettext_lazy("what a new job takes over of it"),
        widget=forms.CheckboxSelectMultiple,
        initial=OF_A_MODEL,
        help_text=gettext_lazy(
            "It stays a part of this job: what is put right here is right in the template. Nothing "
            "that is typed in the new job is ever overwritten."
        ),
    )

    class Meta:
        model = CarTemplate
        fields = ("name", "takes")
        help_texts: ClassVar = {
            "name": gettext_lazy("such as model, body and years it holds for"),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        field = self.fields["takes"]
        assert isinstance(field, forms.MultipleChoiceField)
        job = self.instance.job
        field.choices = [(row.code, f"{row.word} ({row.count})") for row in offers(job)]
        vars(field)["wide"] = True
        if not self.instance.pk:
            self.initial["takes"] = list(OF_A_MODEL)

    def clean(self) -> dict[str, Any]:
        """A name says which car: two templates of one name would not."""
        cleaned = super().clean()
        alike = CarTemplate.objects.filter(name__iexact=cleaned.get("name", ""))
        others = alike.exclude(pk=self.instance.pk).select_related("job")
        # A form that is sent twice meets the template it made itself.
        if token := cleaned.get("entry_token"):
            others = others.exclude(entry_token=token)
        if other := others.first():
            words = _("%(job)s is kept under this name already.") % {"job": other.job.code}
            self.add_error("name", words)
        return cleaned


TEMPLATE = RowKind(slug="car-template", form=TemplateForm, section="car")

urlpatterns = [*TEMPLATE.urls()]
