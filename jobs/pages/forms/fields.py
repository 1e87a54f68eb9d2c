"""Form fields that take what people type, with its unit, and clean it to SI.

A refused field keeps its text, and a value nobody touched keeps its stored digits: what the
page shows is rounded, so reading it back would walk the record away from what was entered.
"""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from functools import partial
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.core.validators import DecimalValidator
from django.db.models.fields import BLANK_CHOICE_DASH
from django.forms.boundfield import BoundField
from django.http import HttpRequest
from django.utils.translation import gettext as _

from jobs import money
from jobs.models import Workshop
from jobs.quantities.numbers import localized
from jobs.units import (
    ConductorSize,
    UnreadableQuantity,
    parse,
    parse_conductor,
    plain_unit,
    show,
    show_conductor,
)

LONGEST_KEY = 18  # digits; a database holds 2^63
LONGEST_SEARCH = 80
NOTHING = "–"


def judged_here(fields: Iterable[forms.Field]) -> None:
    """Leave every judgement to the server, which keeps what was typed and says what is wrong.

    A browser's own number field drops letters and half-typed figures before they are sent, and
    its limit of length cuts what is pasted without a word.
    """
    for field in fields:
        field.widget.attrs.pop("maxlength", None)
        if isinstance(field.widget, forms.NumberInput):
            whole = isinstance(field, forms.IntegerField) and not isinstance(
                field, forms.FloatField
            )
            field.widget = forms.TextInput(
                attrs={"inputmode": "numeric" if whole else "decimal", "autocomplete": "off"}
            )
            # A decimal comma, where the reader's language has one.
            field.localize = field.widget.is_localized = True
        if isinstance(field, forms.ModelChoiceField):
            vars(field)["clean"] = partial(_known_row, field, field.clean)


def dash_for_none(field: forms.Field) -> None:
    """Let a choice of nothing be a dash, as nothing is everywhere else."""
    if isinstance(field, forms.ModelChoiceField):
        if field.empty_label is not None:
            field.empty_label = NOTHING
    elif isinstance(field, forms.ChoiceField) and not callable(field.choices):
        field.choices = [
            (key, NOTHING if key == "" and words == BLANK_CHOICE_DASH[0][1] else words)
            for key, words in field.choices
        ]


def _known_row(field: forms.ModelChoiceField[Any], clean: Any, value: Any) -> Any:
    """Refuse a key larger than a database can hold as any other that is not offered."""
    try:
        return clean(value)
    except OverflowError as error:
        message, code = field.error_messages["invalid_choice"], "invalid_choice"
        raise ValidationError(message, code, {"value": value}) from error


def key_of(text: str | None) -> int | None:
    """Return the key of a row as an address or a form sends it, or nothing."""
    return int(text) if text and text.isdecimal() and len(text) <= LONGEST_KEY else None


def asked(request: HttpRequest, name: str) -> str:
    """Return what is looked for, as far as anybody types it."""
    return request.GET.get(name, "").replace("\0", "").strip()[:LONGEST_SEARCH]


def written(request: HttpRequest, name: str) -> str:
    """Return what was written where no form reads it, without what no database keeps."""
    return request.POST.get(name, "").replace("\0", "").strip()


class _TypedField(forms.CharField):
    """A text field whose cleaned value is something else than its text."""

    def read(self, text: str) -> Any:
        """Return the value of the text or raise UnreadableQuantity."""
        raise NotImplementedError

    def write(self, value: Any) -> str:
        """Return the text that stands for a value, precise enough to be read back."""
        raise NotImplementedError

    def to_python(self, value: Any) -> Any:
        if value is not None and not isinstance(value, str):
            return value  # a disabled field is cleaned from its stored value
        text = super().to_python(value)
        if not text:
            return None
        try:
            return self.read(text)
        except UnreadableQuantity as problem:
            raise ValidationError(problem.message, code=problem.code) from problem

    def prepare_value(self, value: Any) -> Any:
        return value if value is None or isinstance(value, str) else self.write(value)

    def has_changed(self, initial: Any, data: Any) -> bool:
        if self.disabled or self._untouched(initial, data):
            return False
        try:
            return bool(self.to_python(data) != self.to_python(self.prepare_value(initial)))
        except ValidationError:
            return True

    # Django's hook for a field whose cleaning needs the initial value, as its file field does.
    def _clean_bound_field(self, bf: BoundField) -> Any:
        if self._untouched(bf.initial, bf.data) and not isinstance(bf.initial, str):
            self.validate(bf.initial)
            self.run_validators(bf.initial)
            return bf.initial
        return super()._clean_bound_field(bf)  # type: ignore[misc]

    def _untouched(self, initial: Any, data: Any) -> bool:
        return initial is not None and (data or "").strip() == self.prepare_value(initial)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        # Not inputmode=decimal: that keypad has no letters, no minus and no inch mark.
        return {
            **super().widget_attrs(widget),
            "inputmode": "text",
            "autocomplete": "off",
            "autocapitalize": "off",
            "spellcheck": "false",
        }


class QuantityField(_TypedField):
    """Takes `21 L` or `0.75 cu ft` and cleans to an SI float; bounds are SI too."""

    def __init__(
        self,
        kind: str,
        *,
        min_value: float | None = None,
        max_value: float | None = None,
        positive: bool = False,
        **kwargs: Any,
    ) -> None:
        self.kind = kind
        # How the record's figure was written when it was typed.
        self.as_typed: str | None = None
        self.min_value = min_value
        self.max_value = max_value
        self.positive = positive
        super().__init__(**kwargs)

    def prepare_value(self, value: Any) -> Any:
        """Show a figure as it was written, while that still reads as what is stored."""
        text = self.as_typed
        if text and isinstance(value, int | float) and self._reads_as(text, value):
            return text
        return super().prepare_value(value)

    def _reads_as(self, text: str, value: float) -> bool:
        try:
            return self.read(text) == value
        except UnreadableQuantity:  # in another language a comma groups thousands
            return False

    def spelling(self, text: str, value: float | None) -> str | None:
        """Return a text worth keeping beside its figure: one with a unit of its own choice."""
        text = text.strip()
        plain = value is None or not any(letter.isalpha() or letter in "\"'" for letter in text)
        return None if plain or value is None or text == self.write(value) else text

    @property
    def plain_unit(self) -> str:
        """The unit a plain number is read in, to print beside the field."""
        return plain_unit(self.kind)

    def read(self, text: str) -> float:
        return parse(text, self.kind, above_zero=self.positive or self.min_value == 0)

    def write(self, value: float) -> str:
        return show(value, self.kind, exact=True).replace("\u00a0", " ")

    def validate(self, value: float | None) -> None:
        super().validate(value)
        if value is None:
            return
        if self.positive and value <= 0:
            raise ValidationError(_("This must be more than zero."), code="positive")
        if self.min_value is not None and value < self.min_value:
            least = {"limit": show(self.min_value, self.kind, exact=True)}
            raise ValidationError(_("This must be at least %(limit)s."), "min_value", least)
        if self.max_value is not None and value > self.max_value:
            most = {"limit": show(self.max_value, self.kind, exact=True)}
            raise ValidationError(_("This must be at most %(limit)s."), "max_value", most)

    def widget_attrs(self, widget: forms.Widget) -> dict[str, Any]:
        return {**super().widget_attrs(widget), "data-kind": self.kind}


class ConductorField(_TypedField):
    """Takes `4 AWG`, `4 SAE` or `25 mm²` and cleans to a ConductorSize."""

    def read(self, text: str) -> ConductorSize:
        return parse_conductor(text)

    def write(self, value: ConductorSize) -> str:
        return show_conductor(value).replace("\u00a0", " ")


class AmountField(_TypedField):
    """Takes an amount of money or a share of a hundred, and cleans to a Decimal."""

    def __init__(self, *, max_digits: int, decimal_places: int, **kwargs: Any) -> None:
        self.decimal_places = decimal_places
        self.largest = Decimal(10) ** (max_digits - decimal_places) - 1
        super().__init__(**kwargs)

    def read(self, text: str) -> Decimal:
        return money.read(text, Workshop.current().currency)

    def write(self, value: Decimal) -> str:
        whole = value == value.to_integral_value()
        return localized(f"{value:f}" if not whole else f"{value:.0f}")

    def validate(self, value: Decimal | None) -> None:
        super().validate(value)
        if value is None:
            return
        if abs(value) > self.largest:
            most = {"limit": localized(f"{self.largest:f}")}
            raise ValidationError(_("This must be at most %(limit)s."), "max_value", most)
        if value != round(value, self.decimal_places):
            places = {"places": self.decimal_places}
            raise ValidationError(
                _("At most %(places)s digits behind the decimal mark."), "places", places
            )


def amount_fields(fields: Mapping[str, forms.Field]) -> dict[str, AmountField]:
    """Return a field that reads what people type for each that Django would read as a number."""
    return {
        name: AmountField(
            max_digits=field.max_digits or 0,
            decimal_places=field.decimal_places or 0,
            required=field.required,
            label=field.label,
            help_text=field.help_text,
            initial=field.initial,
            validators=[v for v in field.validators if not isinstance(v, DecimalValidator)],
        )
        for name, field in fields.items()
        if isinstance(field, forms.DecimalField)
    }
