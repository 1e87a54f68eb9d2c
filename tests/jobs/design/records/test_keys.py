"""Every key of a job put in another's place, wherever it stands."""

from __future__ import annotations

from types import SimpleNamespace

import pytest

from jobs.design.records.about import About
from jobs.design.records.findings import Finding
from jobs.design.records.keys import at_home, prints_between, rekeyed, rekeyed_past
from tests.approval import figures, hold

# How far the keys of a model are moved; those of any other model by a hundred thousand.
MOVED = {
    "Job": 100, "Panel": 200, "EquipmentItem": 300, "Part": 400, "Photo": 500, "User": 600,
    "Run": 700, "Box": 800, "FactoryPart": 900, "Offer": 1000, "PanelStep": 1100,
    "Measurement": 1200, "Vehicle": 1300, "PowerNode": 1400, "Channel": 1500, "TrimPanel": 1600,
}  # fmt: skip
GONE = 99
ROWS = {
    "Run": [
        {"id": 3, "job_id": 1, "conductor_id": 5, "start_id": None, "wakes": [7, 8], "length": 4},
        {"id": 4, "job_id": 1, "name": "a run written before it could wake"},
    ],
    "Offer": [{"id": 3, "job_id": 1, "photos": [5, 6]}, {"id": 4, "job_id": 1}],
    "RunAsBuilt": [{"id": 1, "run_id": 3, "route": [[2, 0.5, "under"], [None, 0.2, "boot"]]}],
    "GateSign": [{"id": 1, "subject": "panel 4"}, {"id": 2, "subject": "seats 4 and box 2"}],
    "StageRelease": [
        {"id": 1, "left_open": {}},
        {"id": 2, "left_open": {"count": 4}},
        {
            "id": 3,
            "left_open": {
                "keys": [
                    "step 2", "value 2", "panel 2", "part 2", "offer 2", "unpaid 2",
                    "place equipment 2", "place factory_part 2", "place box 2", "place moon 2",
                    "stop old", "look old", "look unpaired", "step two", "run 3 of channel 4",
                    "part 99", "intake",
                ],
                "count": 17,
            },
        },
        {"id": 4},
    ],
    "Decision": [
        {"id": 1, "about_kind": "box", "about_key": "2", "about_detail": "", "fingerprint": "old"},
        {"id": 2, "about_kind": "amplifier", "about_key": "2", "about_detail": "run 3 in box 4"},
        {"id": 3, "about_kind": "box", "about_key": "99", "about_detail": "panel 99 of panel 98"},
        {"id": 4, "about_kind": "moon", "about_key": "2", "about_detail": "", "fingerprint": "x"},
        {"id": 5, "about_kind": "box", "about_key": "front", "about_detail": "Panel 2, box2"},
    ],
    "Amplifier": [{"part_ptr_id": 5, "power": 2}],
}  # fmt: skip


def _key_of(model, key):
    """Give the key a place of its own for each model; 99 is gone."""
    return None if key == GONE else key + MOVED.get(model.__name__, 100_000)


def test_each_key_of_a_job_is_put_in_anothers_place():
    """In links, lists, routes and words; what is gone and what is no key stays as it was."""
    data = {
        "schema": 2,
        "lists": {"job": 1, "workshop": None, "panels": [2, 3], "amplifiers": [5]},
        "rows": ROWS,
    }
    told = rekeyed(data, _key_of, {"old": "new"})
    assert "history" not in told
    hold("records/keys", figures(told))


def test_the_history_of_rows_is_told_under_other_keys():
    """Who wrote it, what it says of its row and what hung on the row then."""
    by = {"by": 4, "at": "a day"}
    past = {
        "Run": [
            {
                **by, "row": {"id": 3, "job_id": 1},
                "hanging": {"route": [[2, "left"], [None, ""]], "wakes": [7, 99]},
            },
            {**by, "row": {"id": 3, "job_id": 1}, "hanging": {"colour": "red"}},
            {"by": None, "row": {"id": 3}, "hanging": None},
        ],
        "TrimPanel": [
            {**by, "row": {"id": 3}, "hanging": {"mounts": [[5, 0.1], [99, 0.2]], "lids": 1}},
            {**by, "row": {"id": 3}, "hanging": {"mounts": [], "lids": 2}},
            {**by, "row": {"id": 3}, "hanging": None},
        ],
        "Box": [{**by, "row": {"id": 3}, "hanging": {"mounts": [[5]], "route": [[2]]}}],
    }  # fmt: skip
    hold("records/keys-of-history", figures(rekeyed_past(past, _key_of, {})))
    told = rekeyed({"lists": {}, "rows": {}, "history": past}, _key_of, {})
    assert told["history"] == rekeyed_past(past, _key_of, {})


@pytest.mark.parametrize(
    ("keys", "panels"), [({"Panel": {"2": 12, "3": 13}}, [12, 13, -4]), ({}, [-2, -3, -4])]
)
def test_a_sheet_of_elsewhere_is_read_under_the_keys_here(keys, panels):
    """A row that was gone before the job left has a key below zero, which no row has."""
    sheet = SimpleNamespace(
        data={"lists": {"panels": [2, 3, 4]}, "rows": {}}, origin=SimpleNamespace(keys=keys)
    )
    assert at_home(sheet)["lists"]["panels"] == panels


def test_a_sheet_of_here_and_one_without_rows_stay_as_they_are():
    """Nothing is put in another's place where there is no other place, or no key."""
    of_here = SimpleNamespace(data={"lists": {}, "rows": {"Run": [{"id": 3}]}}, origin=None)
    assert at_home(of_here) is of_here.data
    no_rows = SimpleNamespace(data={"title": "3"}, origin=SimpleNamespace(keys={}))
    assert at_home(no_rows) is no_rows.data


def _finding(code, kind, key, detail="", value=1.0):
    about = About(kind=kind, key=key, detail=detail)
    return Finding(code=code, severity="look", section="box", about=about, value=value)


def test_findings_are_paired_by_what_they_are_about():
    """Of one row, one place and one code; two that could be meant are not paired."""
    before = {
        "plain": _finding("deep", "box", "2"),
        "of a place": _finding("deep", "box", "2", "run 3"),
        "of a place that kept its name": _finding("deep", "box", "2", "panel 5"),
        "another code": _finding("wide", "box", "2"),
        "of no row": _finding("deep", "moon", "2"),
        "of a word": _finding("deep", "box", "front"),
        "of a gone row": _finding("deep", "box", "99"),
        "of two": _finding("two", "box", "2"),
        "of a kind of part": _finding("deep", "amplifier", "2"),
    }
    after = {
        "plain": _finding("deep", "box", "802"),
        "of a place": _finding("deep", "box", "802", "run 703"),
        "of a place that kept its name": _finding("deep", "box", "802", "panel 5"),
        "of no row": _finding("deep", "moon", "2"),
        "of a word": _finding("deep", "box", "front"),
        "of a gone row": _finding("deep", "box", "99"),
        "of a kind of part": _finding("deep", "amplifier", "402"),
    }
    two = (_finding("two", "box", "802"), _finding("two", "box", "802", value=2.0))
    told = prints_between((*before.values(),), (*after.values(), *two), _key_of)
    assert told == {before[name].fingerprint: after[name].fingerprint for name in after}
