"""What a supplier's list of ten thousand rows costs."""

from __future__ import annotations

import itertools

import pytest

from jobs.models import PartList
from jobs.models.workshop import workshop_at_hand
from jobs.pages.workshop.list_file import read
from jobs.pages.workshop.list_page import _step
from jobs.pages.workshop.list_writing import write
from tests.bench.clock import cost

pytestmark = [pytest.mark.bench, pytest.mark.django_db]
HEAD = "Kind;Maker;Name;Supplier's number;Price EUR;Cost;Outer diameter [mm];fs (Hz);Vas [L]"


def test_ten_thousand_rows(cast):
    """Read, judged and written, half of them drivers: less than 10 s."""
    lists = itertools.count()

    def whole() -> None:
        turn = next(lists)
        rows = [HEAD] + [
            f"driver;M;T{n};{turn}-{n};{n % 300},50;9,25;165;{30 + n % 40};10,5"
            if n % 2
            else f"other;M;T{n};{turn}-{n};{n % 300},50;9,25;;;"
            for n in range(10_000)
        ]
        table = read("\n".join(rows).encode("latin-1"))
        row = PartList.objects.create(
            name="list", sent_by=cast.manager, supplier=f"S{turn}", head=table.head,
            rows=[[*cells[:2], f"{cells[2]}.{turn}", *cells[3:]] for cells in table.rows],
            count=len(table.rows),
        )  # fmt: skip
        with workshop_at_hand():
            while row.state == "reading":
                _step(row, until=float("inf"))
            assert (row.new, row.troubles) == (10_000, [])
            write(row, cast.manager)

    spent = cost(whole, times=1)
    print(f"\na list of 10 000 rows: {spent}")
    assert spent.nominal < 10.0
