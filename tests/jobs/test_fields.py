"""Form fields read typed units, keep what was typed, and leave alone what was not touched."""

import pytest
from django import forms
from django.utils.translation import override

from jobs.pages.forms.fields import ConductorField, QuantityField
from jobs.units import ConductorSize, using_system


class BoxForm(forms.Form):
    volume = QuantityField("volume", positive=True, help_text="Net, with the driver in.")
    depth = QuantityField("length", required=False, min_value=0.1, max_value=0.5)
    cable = ConductorField(required=False)


@pytest.fixture(autouse=True)
def _english():
    with override("en"):
        yield


def _form(initial=None, **data):
    return BoxForm({"volume": "21 L", **data}, initial=initial)


def test_typed_units_clean_to_si():
    """A field hands on SI floats and conductor sizes."""
    form = _form(volume="0.75 cu ft", depth="8 in", cable="1/0 AWG")
    assert form.is_valid(), form.errors
    assert form.cleaned_data == {
        "volume": 0.021237634944,  # 0.75 × 28.316846592 L, exact by definition
        "depth": 0.2032,
        "cable": ConductorSize(system="awg", size="1/0"),
    }


def test_an_optional_field_left_empty_is_unknown():
    """Nothing typed is None, never a zero."""
    form = _form()
    assert form.is_valid()
    assert form.cleaned_data["depth"] is None
    assert form.cleaned_data["cable"] is None


def test_a_required_field_left_empty_says_so():
    """A missing required value is a required error, not an unreadable one."""
    form = _form(volume="  ")
    assert form.errors.as_data()["volume"][0].code == "required"


def test_a_refused_field_keeps_what_was_typed():
    """The text stays in the box with its reason beside it, safely escaped."""
    form = _form(volume="12 <bananas>", cable="4 ga")
    assert not form.is_valid()
    html = str(form)
    assert 'value="12 &lt;bananas&gt;"' in html
    assert 'value="4 ga"' in html
    assert "Expected: volume, for example 21 L" in form.errors["volume"][0]
    assert "could be AWG or SAE" in form.errors["cable"][0]


@pytest.mark.parametrize(
    ("name", "typed", "code", "says"),
    [
        ("volume", "-3 L", "range", "0 L to"),
        ("volume", "0 L", "positive", "more than zero"),
        ("volume", "3 kg", "dimension", "a unit of mass, not of volume"),
        ("depth", "99 mm", "min_value", "at least 100 mm"),
        ("depth", "2 ft", "max_value", "at most 500 mm"),
        ("depth", "--5", "number", "Cannot read"),
        ("cable", "41 AWG", "range", "does not exist"),
    ],
)
def test_each_slip_has_its_own_answer(name, typed, code, says):
    """Bounds of the field and slips of typing are told apart, in the reader's units."""
    form = _form(**{name: typed})
    (problem,) = form.errors.as_data()[name]
    assert problem.code == code
    assert says in form.errors[name][0].replace("\N{NO-BREAK SPACE}", " ")


def test_a_stored_value_is_shown_as_typed():
    """A stored SI value appears with its unit, in the system and language in force."""
    stored = {"volume": 0.021, "cable": ConductorSize(system="mm2", size="2.5")}
    with using_system("imperial"), override("de"):
        html = str(BoxForm(initial=stored))
    assert 'value="0,741608 ft³"' in html  # 21 / 28.316846592 = 0.74160800115…, to seven figures
    assert 'value="2,5 mm²"' in html


def test_a_value_nobody_touched_keeps_its_last_digit():
    """Saving a form unchanged saves the same number, not the one that was printed."""
    stored = {"volume": 0.0212376349441234, "depth": 0.2}
    shown = {name: BoxForm(initial=stored)[name].value() for name in stored}
    form = _form(initial=stored, **shown)
    assert form.is_valid()
    assert form.cleaned_data["volume"] == 0.0212376349441234
    assert not form.has_changed()


def test_the_same_value_in_another_unit_is_no_change():
    """20 cm for a stored 200 mm is not an edit; 201 mm is; nonsense counts as one."""
    stored = {"volume": 0.021, "depth": 0.2}
    assert _form(initial=stored, depth="20 cm").changed_data == []
    assert _form(initial=stored, depth="201 mm").changed_data == ["depth"]
    assert _form(initial=stored, depth="bananas").changed_data == ["depth"]
    assert _form(initial=stored, depth="").changed_data == ["depth"]


def test_an_untouched_value_still_answers_to_the_bounds():
    """A stored value that the field would refuse is refused even when nobody touched it."""
    form = _form(initial={"depth": 0.7}, depth="700 mm")
    assert form.errors.as_data()["depth"][0].code == "max_value"


def test_a_disabled_field_hands_on_its_stored_value():
    """What cannot be edited is neither read from the request nor taken for a plain number."""
    form = _form(initial={"depth": 0.2}, depth="300 mm")
    form.fields["depth"].disabled = True
    assert form.is_valid()
    assert form.cleaned_data["depth"] == 0.2
    assert form.changed_data == ["volume"]


def test_a_plain_number_means_the_unit_that_is_printed():
    """The field names the unit of a plain number, and reads it so."""
    field = BoxForm().fields["volume"]
    assert field.plain_unit == "L"
    assert _form(volume="21").fields["volume"].clean("21") == 0.021
    with using_system("imperial"):
        assert field.plain_unit == "ft³"
        assert field.clean("1") == 0.028316846592


def test_the_box_helps_the_person_who_types():
    """The widget names its kind and its help and keeps a keyboard with letters."""
    html = str(_form(volume="")["volume"])
    for attribute in (
        'data-kind="volume"',
        'inputmode="text"',
        'autocomplete="off"',
        'spellcheck="false"',
        'aria-invalid="true"',
        'aria-describedby="id_volume_helptext id_volume_error"',
    ):
        assert attribute in html
