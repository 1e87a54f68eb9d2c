"""The form every record is edited with: typed units, two editors told apart, sent twice = once."""

from __future__ import annotations

import uuid
from typing import Any, ClassVar, Generic, TypeVar, cast

from django import forms
from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.http import QueryDict
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.models import Channel, EquipmentItem, FactoryPart, Panel, PowerNode, Record
from jobs.models.box.row_lists import WithLists
from jobs.pages.forms.fields import QuantityField, amount_fields, judged_here

R = TypeVar("R", bound=Record)

# Said under a choice that offers nothing: where what it would offer is entered.
NONE_YET: dict[type[Any], Promise] = {
    EquipmentItem: gettext_lazy("None on the equipment list yet."),
    Channel: gettext_lazy("No channel is planned yet."),
    PowerNode: gettext_lazy(
        "Nothing in the power tree yet: enter sources, blocks and loads first."
    ),
    Panel: gettext_lazy("No panel is entered yet."),
    FactoryPart: gettext_lazy("No factory part on the car page yet."),
}


class RecordForm(forms.ModelForm[R], Generic[R]):
    """Edit one record; `quantities` names the fields a person types with a unit."""

    # field name -> kind of quantity in jobs.units
    quantities: ClassVar[dict[str, str]] = {}
    # fields whose figure may be zero or negative; every other typed figure must be positive
    any_sign: ClassVar[set[str]] = set()
    # (heading, fields under it), in the order a person fills them in
    fieldsets: ClassVar[list[tuple[Any, list[str]]]] = []

    # field name -> a term explained in templates/parts/terms/
    terms: ClassVar[dict[str, str]] = {}
    # heading -> the values of `kind`, `shape`, `device` or `port_shape` for which these fields mean
    # anything, or what jobs/js/only.js names itself: a slot `free`, `boarded` or `wide`, a pair
    # `isobaric`
    only_for: ClassVar[dict[Any, tuple[str, ...]]] = {}
    # field name -> likewise, for one field of a group
    field_only_for: ClassVar[dict[str, tuple[str, ...]]] = {}

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    entry_token = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        for name, kind in self.quantities.items():
            if name in self.fields:
                self.fields[name] = self._quantity_field(name, kind)
        self.fields |= amount_fields(self.fields)
        judged_here(self.fields.values())
        for name, term in self.terms.items():
            vars(self.fields[name])["term"] = term
        for name, kinds in self.field_only_for.items():
            vars(self.fields[name])["only"] = " ".join(kinds)
        for name in self._lists():
            self.initial.setdefault(name, getattr(self.instance, name))
        self.theirs: R | None = None
        if self.instance.pk:
            self.fields["version"].initial = self.instance.version
            del self.fields["entry_token"]
        else:
            self.fields["entry_token"].initial = uuid.uuid4()
            del self.fields["version"]

    def _lists(self) -> list[str]:
        """Name the lists of the record that this form edits."""
        record = self.instance
        if not isinstance(record, WithLists):
            return []
        return [name for name in record.lists() if name in self.fields]

    def _post_clean(self) -> None:
        # Django's hook that puts what was cleaned into the record.
        super()._post_clean()  # type: ignore[misc]
        for name in self._lists():
            if name in self.cleaned_data:
                setattr(self.instance, name, self.cleaned_data[name])

    def _quantity_field(self, name: str, kind: str) -> QuantityField:
        old = self.fields[name]
        return QuantityField(
            kind,
            positive=name not in self.any_sign,
            required=old.required,
            label=old.label,
            help_text=old.help_text,
            initial=old.initial,
        )

    def clean(self) -> dict[str, Any]:
        """Refuse to overwrite what somebody else saved since this form was opened."""
        cleaned = super().clean() or {}
        if self.instance.pk:
            current = type(self.instance).with_removed.get(pk=self.instance.pk)
            if cleaned.get("version") != current.version:
                self.theirs = current
                # The next save is then made knowingly, on top of theirs.
                typed = cast(QueryDict, self.data).copy()
                typed[self.add_prefix("version")] = str(current.version)
                self.data = typed
                self.add_error(
                    None,
                    _(
                        "Somebody else saved this while you were typing. Your figures are still "
                        "here; theirs stand beside them. Save again to replace theirs."
                    ),
                )
        return cleaned

    def offer(self, name: str, rows: QuerySet[Any]) -> None:
        """Offer only these rows in a choice: a job chooses from what belongs to it."""
        field = self.fields[name]
        assert isinstance(field, forms.ModelChoiceField)
        field.queryset = rows
        vars(field)["none_yet"] = NONE_YET.get(rows.model)

    @property
    def differs_from_saved(self) -> bool:
        """Whether something typed, as far as it can be read, is not what was last saved."""
        if not self.instance.pk or not self.is_bound:
            return False
        return any(name in self.cleaned_data for name in self.changed_data)

    @property
    def groups(self) -> list[tuple[Any, list[forms.BoundField], str]]:
        """(heading, fields, kinds they are for) of the visible fields; those without one last."""
        named = [
            (
                title,
                [self[name] for name in names if name in self.fields],
                " ".join(self._kinds(title)),
            )
            for title, names in self.fieldsets
        ]
        grouped = {field.name for _title, fields, _kinds in named for field in fields}
        rest = [field for field in self.visible_fields() if field.name not in grouped]
        return [group for group in [*named, ("", rest, "")] if group[1]]

    def _kinds(self, title: Any) -> tuple[str, ...]:
        """The kinds a group is for; compared, because a translated word has no fixed hash."""
        return next((kinds for group, kinds in self.only_for.items() if group == title), ())

    def differences(self) -> list[tuple[str, Any, Any]]:
        """Return (label, theirs, yours) for every field on which the two editors disagree."""
        if self.theirs is None:
            return []
        fresh = type(self)(instance=self.theirs)
        return [
            (str(field.label), _in_words(fresh[name]), _in_words(self[name]))
            for name, field in self.fields.items()
            if not self[name].is_hidden and field.has_changed(fresh[name].initial, self[name].data)
        ]

    def save(self, commit: bool = True) -> R:
        """Save, and count the version up; a form sent twice returns the record it made first."""
        if not commit:
            return super().save(commit=False)
        if self.instance.pk:
            self.instance.version += 1
            return super().save()
        self.instance.entry_token = self.cleaned_data["entry_token"] or uuid.uuid4()
        try:
            with transaction.atomic():
                return super().save()
        except IntegrityError:
            first = (
                type(self.instance)
                .with_removed.filter(entry_token=self.instance.entry_token)
                .first()
            )
            if first is None:
                raise
            return first


def _in_words(bound: forms.BoundField) -> Any:
    """Return what a field holds as its page shows it: typed text, or the words of the choice."""
    value, widget = bound.value(), bound.field.widget
    if isinstance(widget, forms.widgets.ChoiceWidget):
        held = widget.format_value(value)
        keys = [held] if isinstance(held, str) else held
        return ", ".join(str(words) for key, words in widget.choices if key and str(key) in keys)
    if isinstance(bound.field, forms.BooleanField):
        return _("yes") if value else _("no")
    return widget.format_value(value)
