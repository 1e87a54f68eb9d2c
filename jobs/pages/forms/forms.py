"""The form every record is edited with: typed units, two editors told apart, sent twice = once."""

from __future__ import annotations

import uuid
from collections.abc import Mapping
from copy import deepcopy
from functools import cache
from typing import Any, ClassVar, Generic, TypeVar, cast

from django import forms
from django.core.exceptions import NON_FIELD_ERRORS, ValidationError
from django.db import IntegrityError, transaction
from django.db.models import QuerySet
from django.http import QueryDict
from django.utils.functional import Promise
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from jobs.models import Channel, EquipmentItem, FactoryPart, Panel, PowerNode, Record
from jobs.models.base import TypedFigures
from jobs.models.box.row_lists import WithLists
from jobs.pages.forms.fields import QuantityField, amount_fields, dash_for_none, judged_here
from jobs.pages.forms.shown import as_sent, in_words

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


def spell(record: Any, fields: Mapping[str, forms.Field]) -> None:
    """Tell each field how the figure of this record was written."""
    texts = record.as_typed if isinstance(record, TypedFigures) else {}
    for name, field in fields.items():
        if isinstance(field, QuantityField):
            field.as_typed = texts.get(name)


class _Fields(dict[str, forms.Field]):
    """Fields to be copied into each form; what they offer to choose from is the same in all."""

    def __deepcopy__(self, memo: dict[int, Any]) -> dict[str, forms.Field]:
        offered = [vars(field).get("_choices") for field in self.values()]
        memo |= {id(choices): choices for choices in offered if choices is not None}
        return {name: deepcopy(field, memo) for name, field in self.items()}


@cache
def _fields_of(form: type[RecordForm[Any]]) -> _Fields:
    """Return the fields of a form as people type them."""
    fields = _Fields(deepcopy(form.base_fields))
    fields |= {
        name: _quantity_field(form, name, kind)
        for name, kind in form.quantities.items()
        if name in fields
    }
    fields |= amount_fields(fields)
    for field in fields.values():
        dash_for_none(field)
    for name, term in form.terms.items():
        vars(fields[name])["term"] = term
    for name, kinds in form.field_only_for.items():
        vars(fields[name])["only"] = " ".join(kinds)
    return fields


def _quantity_field(form: type[RecordForm[Any]], name: str, kind: str) -> QuantityField:
    old = form.base_fields[name]
    return QuantityField(
        kind,
        positive=name not in form.any_sign | form.or_zero,
        min_value=0.0 if name in form.or_zero else getattr(old, "min_value", None),
        max_value=getattr(old, "max_value", None),
        required=old.required,
        label=old.label,
        help_text=old.help_text,
        initial=old.initial,
    )


class RecordForm(forms.ModelForm[R], Generic[R]):
    """Edit one record; `quantities` names the fields a person types with a unit."""

    # field name -> kind of quantity in jobs.units
    quantities: ClassVar[dict[str, str]] = {}
    # fields whose figure may be zero or negative; every other typed figure must be positive
    any_sign: ClassVar[set[str]] = set()
    # fields whose figure may be zero
    or_zero: ClassVar[set[str]] = set()
    # (heading, fields under it), in the order a person fills them in
    fieldsets: ClassVar[list[tuple[Any, list[str]]]] = []

    # field name -> a term explained in templates/parts/terms/
    terms: ClassVar[dict[str, str]] = {}
    # heading -> the values of `kind`, `shape`, `device`, `use` or `port_shape` for which these
    # fields mean anything, or what jobs/js/only.js names itself: a slot `free`, `boarded` or
    # `wide`, a pair `isobaric`, a port unlike the first `second`, a bent one `bent`, a run with a
    # fuse at its start `fused`, at its end `fused-far`, a ring in a moulded box `in-box`
    only_for: ClassVar[dict[Any, tuple[str, ...]]] = {}
    # Headings of groups that most rows leave empty.
    folded: ClassVar[tuple[Any, ...]] = ()
    # field name -> likewise, for one field of a group
    field_only_for: ClassVar[dict[str, tuple[str, ...]]] = {}

    version = forms.IntegerField(widget=forms.HiddenInput, required=False)
    entry_token = forms.UUIDField(widget=forms.HiddenInput, required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        # Of what Django copies into every form, all that is the same each time is done already.
        vars(self)["base_fields"] = _fields_of(type(self))
        super().__init__(*args, **kwargs)
        spell(self.instance, self.fields)
        judged_here(self.fields.values())
        for name in self._lists():
            self.initial.setdefault(name, getattr(self.instance, name))
        # Fields both changed since the form was opened, and what was kept of the other's.
        self.clashes: list[str] = []
        self.kept: list[str] = []
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
        self._keep_spelling()
        for name in self._lists():
            if name in self.cleaned_data:
                setattr(self.instance, name, self.cleaned_data[name])

    def _keep_spelling(self) -> None:
        """Note how each figure was written, so that it comes back like that."""
        if not isinstance(self.instance, TypedFigures):
            return
        texts = dict(self.instance.as_typed)
        for name, field in self.fields.items():
            if isinstance(field, QuantityField) and name in self.cleaned_data:
                texts.pop(name, None)
                text = field.spelling(str(self[name].data or ""), self.cleaned_data[name])
                texts |= {name: text} if text else {}
        self.instance.as_typed = texts

    def _update_errors(self, errors: ValidationError) -> None:
        # Django's hook for what the record refuses; of a field that is not here it is said on top.
        by_field = dict(getattr(errors, "error_dict", {}))
        lacking = [
            name for name in by_field if name not in self.fields and name != NON_FIELD_ERRORS
        ]
        for name in lacking:
            by_field.setdefault(NON_FIELD_ERRORS, []).extend(by_field.pop(name))
        super()._update_errors(ValidationError(by_field) if lacking else errors)  # type: ignore[misc]

    def full_clean(self) -> None:
        """Before anything is read, keep of what somebody else saved all that was not typed here."""
        if self.is_bound and self.instance.pk and not self.clashes:
            self._read_again()
            sent = self.data.get(self.add_prefix("version"))
            if sent != str(self.instance.version):
                self._settle(sent)
        super().full_clean()

    def _read_again(self) -> None:
        """Begin from the record as it is now, when it is held: it may have been read before."""
        stored = type(self.instance).with_removed.values_list("version", flat=True)
        if stored.get(pk=self.instance.pk) != self.instance.version:
            self.instance.refresh_from_db()
            self.initial.update(forms.model_to_dict(self.instance, list(self.fields)))

    def _settle(self, sent: str | None) -> None:
        """Take every field from whoever touched it since the version that was opened.

        What that version held is read from the history; rows that hang on a record are not known
        as they were, so that a difference there is asked about.
        """
        opened = self._as_opened(sent)
        now = type(self)(instance=self.instance, prefix=self.prefix)
        typed = cast(QueryDict, self.data).copy()
        stored = {field.name for field in self.instance._meta.concrete_fields}
        for name, field in self.fields.items():
            data = self[name].data
            if field.widget.value_omitted_from_data(self.data, self.files, self.add_prefix(name)):
                # What was not sent at all nobody touched here.
                for key, values in as_sent(now, [name]).items():
                    typed.setlist(key, values)
                continue
            if self[name].is_hidden or not field.has_changed(now[name].initial, data):
                continue
            if opened is None or name not in stored:
                self.clashes.append(name)
            elif not field.has_changed(opened[name].initial, data):
                for key in as_sent(opened, [name]):
                    typed.pop(key, None)
                for key, values in as_sent(now, [name]).items():
                    typed.setlist(key, values)
                self.kept.append(name)
            elif opened[name].initial != now[name].initial:
                self.clashes.append(name)
        # The next save is then made knowingly, on top of theirs.
        typed[self.add_prefix("version")] = str(self.instance.version)
        self.data = typed

    def _as_opened(self, sent: str | None) -> RecordForm[R] | None:
        """Return the form as it was when this person opened it, as far as the history knows."""
        if not sent or not sent.isdecimal():
            return None
        entry = self.instance.history.filter(version=int(sent[:9])).first()
        return type(self)(instance=entry.instance, prefix=self.prefix) if entry else None

    def clean(self) -> dict[str, Any]:
        """Refuse to overwrite what somebody else saved since this form was opened."""
        cleaned = super().clean() or {}
        if self.clashes:
            self.add_error(
                None,
                _(
                    "Somebody else saved this while you were typing. Your figures are still "
                    "here; theirs stand beside them. Save again to replace theirs."
                ),
            )
            for name, (_label, theirs, _mine) in zip(self.clashes, self.differences(), strict=True):
                sentence = _("Somebody else entered “%(theirs)s” here.")
                self.add_error(name, sentence % {"theirs": theirs or "–"})
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
        stored = type(self.instance).with_removed.get(pk=self.instance.pk)
        fresh = type(self)(instance=stored, prefix=self.prefix)
        return [
            (
                str(self[name].label),
                in_words(self.fields[name], fresh[name].value()),
                in_words(self.fields[name], self[name].value()),
            )
            for name in self.clashes
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
