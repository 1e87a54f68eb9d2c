"""Measured values are judged at once, against limits the design gives where it can."""

from __future__ import annotations

import re

import pytest
from django.urls import reverse

from jobs.design.job.measurements import Limits
from jobs.design.job.whole import load, work_out
from jobs.models import Measurement
from jobs.pages.bay.measure import MeasurementForm

pytestmark = pytest.mark.django_db


def _plan(scene, browse) -> dict[str, list]:
    browse("installer").post(reverse("measurement-plan", args=[scene.code]))
    rows: dict[str, list] = {}
    for one in work_out(load(scene.job)).measured:
        rows.setdefault(one.row.derived, []).append(one)
    return rows


def test_the_design_says_what_to_measure_and_between_which_limits(hatchback, browse):
    """Voltage at each amplifier, each speaker at the plug, fuses, grounds, key-off, charging."""
    rows = _plan(hatchback, browse)
    assert {key: len(value) for key, value in rows.items() if key} == {
        "rest": 2, "load": 2, "fuse": 4, "ground": 2, "key_off": 1, "charging": 1, "speaker": 3,
    }  # fmt: skip
    # Asked again, nothing is planned twice.
    assert len(_plan(hatchback, browse)["speaker"]) == 3
    # Second method, by hand: two coils in series, within 15 %, and 0.3 ohm of leads.
    sub = next(one for one in rows["speaker"] if one.row.channel == hatchback.bass)
    coils = 2 * hatchback.sub.part.driver.re
    cable = next(
        c.cable_resistance for c in work_out(load(hatchback.job)).channels
        if c.channel.pk == hatchback.bass.pk
    )  # fmt: skip
    assert sub.limits.low == pytest.approx(0.85 * coils + cable)
    assert sub.limits.high == pytest.approx(1.15 * coils + cable + 0.3)
    load_rows = [one.limits for one in rows["load"]]
    assert all(limits.worked_out and limits.stop_low == 10.0 for limits in load_rows)


def test_an_unknown_cable_is_not_taken_as_none(hatchback, browse):
    """Without its cable a speaker reads at least its coils; what is too much nobody can say."""
    _plan(hatchback, browse)
    hatchback.bass_run.remove()
    measured = work_out(load(hatchback.job)).measured
    sub = next(one for one in measured if one.row.channel == hatchback.bass)
    assert sub.limits.low == pytest.approx(0.85 * 2 * hatchback.sub.part.driver.re)
    assert sub.limits.high is None


@pytest.mark.parametrize(
    ("value", "verdict"), [(12.3, "look"), (12.4, "done"), (12.9, "look"), (9.9, "stop")]
)
def test_a_value_is_as_meant_a_look_or_a_stop(value, verdict):
    """A limit itself is as meant; beyond the graver one it must not stay so."""
    assert Limits(low=12.4, high=12.8, stop_low=10.0).verdict(value) == verdict


def test_amperes_typed_for_milliamperes_are_asked_about(hatchback, browse):
    """37 for at most 50 mA is told with what was meant; sent again it stands, as a stop."""
    row, client = hatchback.key_off, browse("installer")
    Measurement.objects.filter(pk=row.pk).update(high=0.05, beyond="stop")
    address = reverse("measure", args=[hatchback.code, row.pk])
    prefix = f"m{row.pk}"
    answer = client.post(address, {f"{prefix}-value": "37", f"{prefix}-version": row.version})
    html = answer.content.decode().replace("\xa0", " ")
    assert answer.status_code == 422
    asked = r"You typed 37(\.0)? A; at most 50(\.0)? mA is expected\. Was it 37(\.0)? mA\?"
    assert re.search(asked, html)
    row.refresh_from_db()
    assert row.value is None
    client.post(address, {f"{prefix}-value": "37", f"{prefix}-version": 1, f"{prefix}-sure": "37"})
    (finding,) = work_out(load(hatchback.job)).findings_of("bay")
    assert (finding.code, finding.severity, finding.value) == ("measured-far-outside", "stop", 37.0)
    client.post(address, {f"{prefix}-value": "37 mA", f"{prefix}-version": 2})
    assert work_out(load(hatchback.job)).findings_of("bay") == []


def test_a_value_beyond_its_limit_is_told_at_once(hatchback, browse):
    """A look in its words; the limits of one that is worked out are no fields to change."""
    row, client = hatchback.key_off, browse("installer")
    Measurement.objects.filter(pk=row.pk).update(high=0.05, beyond="look")
    address = reverse("measure", args=[hatchback.code, row.pk])
    sent = {f"m{row.pk}-value": "60 mA", f"m{row.pk}-version": row.version}
    answer = client.post(address, sent, follow=True)
    (told,) = answer.context["messages"]
    says = str(told).replace("\xa0", " ")
    assert re.fullmatch(rf"Look: {re.escape(row.name)} is 60(\.0+)? mA, not as expected\.", says)
    fields = ("kind", "low", "high", "beyond")
    for derived in ("", "key-off"):
        form = MeasurementForm(instance=Measurement(kind="voltage", derived=derived))
        assert [form.fields[name].disabled for name in fields] == [bool(derived)] * 4
        assert not form.fields["expected"].disabled
