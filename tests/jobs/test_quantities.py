"""The template filters print quantities one way, wherever they stand."""

import pytest
from django.template import Context, Template
from django.utils.translation import override

from jobs.units import UNKNOWN, using_system

NBSP = "\N{NO-BREAK SPACE}"


def _render(text, **context):
    return Template("{% load quantities %}" + text).render(Context(context))


def test_a_quantity_is_printed_in_the_system_in_force():
    """The same template prints litres or cubic feet, as the request or sheet has set."""
    template = '{{ volume|quantity:"volume" }}'
    with override("en"):
        assert _render(template, volume=0.021) == f"21.00{NBSP}L"
        with using_system("imperial"):
            # 21 L / 28.316846592 L, by the definition of the foot
            assert _render(template, volume=0.021) == f"0.742{NBSP}ft³"


def test_a_quantity_is_printed_in_the_readers_language():
    """German readers see a decimal comma."""
    with override("de"):
        assert _render('{{ v|quantity:"voltage" }}', v=12.6) == f"12,60{NBSP}V"


def test_an_unknown_quantity_is_a_dash():
    """None is printed as unknown, and a zero as a zero."""
    with override("en"):
        assert _render('{{ v|quantity:"voltage" }}', v=None) == "—"
        assert _render('{{ v|quantity:"voltage" }}', v=0.0) == f"0.00{NBSP}V"


def test_a_part_that_is_not_there_is_unknown_and_a_misspelt_kind_is_refused():
    """The rating of a fuse nobody fitted is a dash; a kind that does not exist is an error."""
    assert _render('{{ run.fuse.rating|quantity:"current" }}', run={"fuse": None}) == UNKNOWN
    with pytest.raises(KeyError, match="voltaje"):
        _render('{{ v|quantity:"voltaje" }}', v=12.6)


def test_a_conductor_size_is_printed():
    """Sizes keep their own system; only the decimal mark follows the reader."""
    with override("de"):
        assert _render("{{ size|conductor }}", size="2.5 mm²") == f"2,5{NBSP}mm²"
        assert _render("{{ size|conductor }}", size="1/0 AWG") == f"1/0{NBSP}AWG"
        assert _render("{{ size|conductor }}", size=None) == "—"
