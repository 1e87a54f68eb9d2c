"""What is read out of data sheets and suppliers' lists is what was let stand."""

from __future__ import annotations

import datetime as dt

import pytest

from jobs.models import Part, PartList
from jobs.pages.workshop.list_columns import columns_of, form_of, lacking, unread
from jobs.pages.workshop.list_file import UnreadableFileError, _written, read
from jobs.pages.workshop.list_rows import Judge
from jobs.pages.workshop.list_writing import ChangedMeanwhileError, write
from jobs.pages.workshop.sheet_text import other_kind, ratings_named, read_sheet
from tests.approval import figures, hold
from tests.jobs.factories import make_part
from tests.told import row, rows

pytestmark = pytest.mark.django_db

# Invented parts; what their sheets say is said in the ways sheets say it.
SHEETS = {
    "driver": (
        "driver",
        """Fs: 38.5 Hz
        Qts 0.41, Qes 0.46, Qms 4.2
        Vas (L): 21.5
        Sd | 132 cm²
        Re 3.2 Q   Le 0.45 mH @ 1 kHz
        Mms = 14,5 g; Cms 1.18 mm/N
        Rms 0.83 kg/s
        BL 6.1 T·m
        Xmax 12 mm p-p
        Power handling 80 W RMS; max power 240 W
        Impedance: 2 x 4 ohms
        Sensitivity 88.5 dB (1 W / 1 m)
        Overall diameter 165 mm (6.5 in)
        Cutout diameter 143 mm, 144 mm with gasket
        Mounting depth ± 68
        Screws 6
        Net weight 3 lb 4 oz
        Displacement tbd
        Magnet height 900 m
        """,
    ),
    "driver-in-a-table": (
        "driver",
        "fs\tQts\tVas\n42 Hz\t0.52\t0.6 cu ft\n\nfs\tQts\n40 Hz\t0.5\n"
        "Nennimpedanz 4 + 4 Ω\nWeight 2.5 kg\nWeight 2.55 kg\nRe 3.4\nRe 3.6 ohm\n"
        "fs x\nXmax 5 mm\n300 W RMS\nSD 210 Hz\nbolt circle 150 - 156 mm\ndepth 7 1/2 in\n",
    ),
    "two-coils": (
        "driver",
        "Dual 4 ohm impedance\nImpedance dual\nRe 2 x 3.1 ohm\nSchwingspulen 2",
    ),
    "coils-each": ("driver", "Impedance 4+4\nPower 2 x 100 W\n"),
    "amplifier": (
        "amplifier",
        """Number of channels: 4
        Minimum load 2 ohm; minimum load bridged 4 ohm
        4 x 75 W @ 4 ohms, 4 x 120 W at 2 Ω
        4 x 75 W @ 4 ohms
        Efficiency (%) 82
        Fuse 2 x 30 A
        Idle current 0,9 A
        Operating voltage 9 - 16 V
        Remote current 15 mA
        Weight 4.2""",
    ),
    "one-voltage": (
        "amplifier",
        "Supply voltage 14.4 V\nMaximum supply voltage 16 V\nFuse size 30",
    ),
    "processor": (
        "processor",
        "Inputs 6\nOutputs 8.5\nSample rate 96 kHz\nCurrent draw 600 mA\n"
        "Max. input level 5 V\nSupply voltage 7 to 18 V, 12 V nominal\n",
    ),
    "conductor": ("conductor", "Querschnitt 35 mm²\nCores 1\nTemperature 105 °C\nCurrent 170 A"),
    "gauge": ("conductor", "Size 4 AWG (21 mm2)\nOuter diameter [mm] 9,8\n"),
    "board": ("sheet_material", "Thickness 18 mm, 19 mm\nDensity 680 kg/m3\nE-Modul 3500 N/mm2"),
    "nothing": ("driver", "A fine loudspeaker."),
}  # fmt: skip


def test_what_data_sheets_say_is_read_as_it_was_let_stand():
    """Every figure of every sheet, as it would be typed, with what is doubtful about it."""
    told = {
        name: {
            "figures": rows(
                (r.field, r.line, r.text, r.value, r.doubt)
                for r in read_sheet(text, kind, form_of(kind).fields)
            ),
            "rather": other_kind(text, kind),
            "as if it were a fuse": other_kind(text, Part.Kind.FUSE),
            "ratings": row(ratings_named(text)),
        }
        for name, (kind, text) in SHEETS.items()
    }
    hold("reading/data-sheets", figures(told))


HEAD = ["Art", "Model", "Brand", "Supplier", "SKU", "Preis EUR", "Cost", "fs (Hz)", "Re [ohm]",
        "Gewicht kg", "size", "chemistry", "Tax class", "self-locking", "fs", "Farbe"]  # fmt: skip
ROWS = [
    ["driver", "Woofer", "Low", "North", "n-1", "129,50", "80", "38.5", "3.2", "1.8"],
    ["Driver", "woofer", "LOW", "", "", "10", "", "", "", ""],
    ["other", "Horn", "", "North", "H-7", "12.30", "6"],
    ["other", "Lamp", "Lux", "", "", "4"],
    ["lorry", "Lamp", "Lux", "", "", "4"],
    ["", "", "", "", "", ""],
    ["other", "", "", "", "", "3"],
    ["driver", "Horn", "", "North", "H-7", "5"],
    ["driver", "Lower", "Low", "", "L-1", "=A1", "#N/A", "300 kHz", "none", "1"],
    ["conductor", "Roll", "Low", "", "R-1", "2", "", "", "", "", "35 mm²"],
    ["conductor", "Ring", "Low", "", "R-2"],
    ["other", "Twin", "", "", ""],
    ["other", "Wide", "", "", "", "1", "", "", "", "", "", "", "", "", "", "red", "too much"],
    ["other", "Long", "", "", "", "1", "", "", "", "", "", "", "", "", "", "red", ""],
    ["driver", "Tweeter", "High", "", "T-1", "40 EUR", "", "1.2 kHz", "3", "90 g"],
    ["other", "Lamp", "", "", "L-9", "7"],
    ["other", "Lamp", "", "", "l-9", "8"],
    ["driver", "Rear", "", "Yard", "Y-1", "8"],
]


def _catalogue() -> None:
    make_part("Horn", supplier="north", order_number="h-7", price=10, cost=6, notes="loud")
    make_part("Lamp", maker="Lux", price=4)
    make_part("Twin")
    make_part("Twin")
    make_part("Rear light", supplier="Yard", order_number="Y-1")


def _judged(**more: object) -> tuple[PartList, Judge]:
    fields = {"name": "list.csv", "head": HEAD, "rows": ROWS, "count": len(ROWS)} | more
    part_list = PartList.objects.create(**fields)
    judge = Judge(part_list)
    judge.judge(0, len(ROWS))
    return part_list, judge


def _told(judge: Judge) -> dict[str, object]:
    return {
        "to write": [
            row(r["row"], r["kind"], r["pk"] is not None, r["version"], r["values"], r["before"])
            for r in judge.to_write
        ],
        "troubles": rows(judge.troubles),
        "unchanged": judge.unchanged,
    }


def test_what_a_list_would_do_is_what_was_let_stand(cast):
    """New parts, changes, what cannot be told, and every column by what it means."""
    _catalogue()
    part_list, judge = _judged(sent_by=cast.manager)
    whole = _told(judge)
    _one, of_one_kind = _judged(sent_by=cast.manager, kind="other", supplier="North")
    half = Judge(PartList(head=HEAD, rows=ROWS, judged=3))
    half.judge(3, 16)
    kinds = ("driver", "conductor", "amplifier", "battery", "fuse", "other")
    kinds = tuple(kind for kind in kinds if kind in Part.Kind.values)
    hold(
        "reading/lists",
        figures({
            "by a column": whole,
            "all other": _told(of_one_kind),
            "begun before": _told(half),
            "columns": {kind: rows((c.index, c.title, c.field, c.unit)
                                   for c in columns_of(HEAD, kind)) for kind in kinds},
            "unread": row(unread(HEAD, kinds)),
            "lacks": [lacking(["a"], ""), lacking(["kind"], ""), lacking(["kind", "sku"], ""),
                      lacking(["fs"], "driver"), lacking(["name"], "driver")],
        }),
    )  # fmt: skip
    part_list.to_write = judge.to_write
    write(part_list, cast.manager)
    fields = ("kind", "name", "maker", "supplier", "order_number", "price", "cost", "version")
    after = [
        row(*map(str, values), Part.history.filter(name=values[1]).count())
        for values in Part.objects.order_by("pk").values_list(*fields)
    ]
    hold("reading/written", figures({"parts": after, "list": row(part_list.state, part_list.rows)}))


def test_a_list_is_not_written_over_what_changed_meanwhile(cast):
    """A part changed, gone or entered by hand since it was judged stops the whole list."""
    _catalogue()
    part_list, judge = _judged(sent_by=cast.manager)
    count = Part.objects.count()
    changed = [r for r in judge.to_write if r["pk"]]
    for rows_to_write in ([changed[0] | {"version": 9}], [changed[0] | {"pk": 10**6}]):
        part_list.to_write = rows_to_write
        with pytest.raises(ChangedMeanwhileError):
            write(part_list, cast.manager)
    part_list.to_write = judge.to_write
    make_part("TWEETER", maker="high", order_number="x", kind="driver")
    with pytest.raises(ChangedMeanwhileError):
        write(part_list, cast.manager)
    assert Part.objects.count() == count + 1
    assert Part.objects.get(name="Horn").price == 10


FILES = {
    "semicolons": b"\n;;\nname;preis\nA;1,5\nB  b;\n",
    "bars": b"name|a,b|c\nX|1,2|3\n",
    "tabs": "\ufeffname\tprice\nÄ\t1\n".encode(),
    "western": "name,ort\nSöhne,\x80\n".encode("latin-1"),
    "no letters of Windows": b"name\n\x81\n",
    "wide letters": "name;a\nÖ;2\n".encode("utf-16"),
    "no text": b"a\0b",
    "wide and broken": b"\xff\xfea",
    "quotes": b'name\n"a" b\n',
    "old": b"\xd0\xcf\x11\xe0...",
    "empty": b" \n,,\n",
    "damaged": b"PK\x03\x04....",
    "long cells": b"name\n" + b"x" * 1001 + b"\n" + b"y" * 999 + b" z\n",
    "many columns": b",".join([b"c"] * 61) + b"\n",
}
CELLS = (None, True, False, 1.0, 2.5, 1.125, 0.25, 12.3456, 1e-7, 1e21, -1.125, 3, " a  b ",
         dt.datetime(2026, 3, 1, 8, tzinfo=dt.UTC), dt.date(2026, 3, 2), "x" * 1001)  # fmt: skip


def test_files_are_read_as_was_let_stand():
    """What separates cells, which letters, what cannot be read."""
    told = {}
    for name, content in FILES.items():
        try:
            table = read(content)
            lengths = [len(cell) for line in table.rows for cell in line]
            head = row(*table.head) if len(table.head) < 9 else len(table.head)
            some = [row(*(cell[:9] for cell in line)) for line in table.rows]
            told[name] = [table.encoding, head, some, row(lengths)]
        except UnreadableFileError as why:
            told[name] = str(why)
    cells = {str(n): repr(_written(cell))[:40] for n, cell in enumerate(CELLS)}
    cells["length"] = len(_written(CELLS[-1]))
    hold("reading/files", figures({"files": told, "cells": cells}))


@pytest.mark.parametrize(
    ("content", "words"),
    [
        (b"\0" * 10_000_000, "neither a table"),
        (b"\0" * 10_000_001, "larger than 10 MB"),
        (b"n\n" + b"a\n" * 20_001, "More than 20000 rows"),
        (b"n\n" + b"a\n" * 30_000, "More than 20000 rows"),
    ],
    ids=["bytes", "a byte more", "a row more", "many more"],
)
def test_a_file_is_refused_for_its_length_where_it_is_longer(content, words):
    """Ten million bytes are looked at; one more, or more than twenty thousand rows, are not."""
    with pytest.raises(UnreadableFileError, match=words):
        read(content)


def test_a_file_of_the_most_rows_is_read():
    """Twenty thousand rows below the head."""
    assert len(read(b"n\n" + b"a\n" * 20_000).rows) == 20_000
