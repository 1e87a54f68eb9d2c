"""Sheets asked for are printed one after another, once, whatever happens to who prints them."""

from __future__ import annotations

import datetime as dt
import uuid

import pytest
from django.utils import timezone

from jobs import sheets
from jobs.design.records.records import load
from jobs.models import IssuedSheet, Job, PrintOrder, PrintWorker, Role, SheetKind, User
from jobs.sheets import engine
from jobs.sheets.printing import orders as print_orders
from jobs.sheets.printing.orders import State, Trouble, carry_out, sweep, take
from jobs.sheets.printing.worker import MOST_TRIES, SILENT, Worker, is_alive
from tests.jobs.scenes import Scene

pytestmark = pytest.mark.django_db
A4 = sheets.Options()


@pytest.fixture(autouse=True)
def printed(monkeypatch, settings) -> list[str]:
    """Let nothing be laid out, and nothing be printed before a worker comes; what was printed."""
    settings.PRINT_IN_REQUEST = False
    done: list[str] = []

    def lay_out(html: str, *, tell, **_more: object) -> bytes:
        tell(3)
        done.append(html)
        return html.encode()

    monkeypatch.setattr(engine, "render", lay_out)
    return done


def _job(scene: Scene) -> Job:
    return Job.objects.select_related("vehicle__customer", "consultant").get(pk=scene.job.pk)


def _draft(scene: Scene, user: User, kind: SheetKind = SheetKind.LABELS) -> PrintOrder:
    return sheets.ask_for_draft(load(_job(scene)), kind, A4, user)


def _issue(scene: Scene, user: User, token: uuid.UUID | None = None) -> PrintOrder:
    return sheets.ask_to_issue(_job(scene), SheetKind.LABELS, A4, user, token or uuid.uuid4())


def _again(order: PrintOrder) -> PrintOrder:
    return PrintOrder.objects.get(pk=order.pk)


def _print_all() -> None:
    worker = Worker()
    while worker.work():
        pass


def test_a_draft_is_printed_once_while_nothing_changes(hatchback, cast, printed):
    """Whoever asks again, before or after it is printed, has the same print."""
    first = _draft(hatchback, cast.designer)
    assert _draft(hatchback, cast.installer) == first
    _print_all()
    done = _draft(hatchback, cast.manager)
    assert done == first
    assert done.state == State.PRINTED
    assert b"<html" in bytes(done.pdf)
    assert done.page == 3
    assert len(printed) == 1


@pytest.mark.parametrize("what", ["a record", "a name", "paper", "the day", "the code"])
def test_a_draft_is_printed_anew_when_it_would_say_something_else(
    hatchback, cast, monkeypatch, what
):
    """Every record it prints counts, the names of people too, and so do paper, day and code."""
    first = _draft(hatchback, cast.designer)
    options = A4
    if what == "a record":
        hatchback.boot_floor.name = "Boot floor, left half"
        hatchback.boot_floor.save()
    elif what == "a name":
        User.objects.filter(pk=hatchback.job.consultant_id).update(last_name="Married")
    elif what == "paper":
        options = sheets.Options(paper="letter")
    elif what == "the day":
        tomorrow = timezone.localdate() + dt.timedelta(days=1)
        monkeypatch.setattr(print_orders.timezone, "localdate", lambda: tomorrow)
    else:
        monkeypatch.setattr(print_orders.version, "stamp", lambda: "another")
    again = sheets.ask_for_draft(load(_job(hatchback)), SheetKind.LABELS, options, cast.designer)
    assert again != first


def test_what_is_issued_leaves_a_draft_as_it_is(hatchback, cast):
    """No draft prints what was issued: it need not be printed again."""
    first = _draft(hatchback, cast.designer)
    _issue(hatchback, cast.designer)
    _print_all()
    assert IssuedSheet.objects.count() == 1
    assert _draft(hatchback, cast.designer) == first


def test_a_job_that_changes_before_the_print_is_printed_as_it_is_then(hatchback, cast, printed):
    """The print says what it shows: asked for again, it is the draft of now."""
    order = _draft(hatchback, cast.designer, SheetKind.PANELS)
    hatchback.boot_floor.name = "Renamed meanwhile"
    hatchback.boot_floor.save()
    _print_all()
    assert "Renamed meanwhile" in printed[0]
    assert _draft(hatchback, cast.designer, SheetKind.PANELS) == order


def test_a_button_pressed_twice_issues_once(hatchback, cast):
    """The second press finds the print of the first, before it is printed and after."""
    token = uuid.uuid4()
    order = _issue(hatchback, cast.designer, token)
    assert _issue(hatchback, cast.designer, token) == order
    _print_all()
    done = _issue(hatchback, cast.designer, token)
    assert done == order
    assert done.issued.revision == 1
    assert IssuedSheet.objects.count() == 1
    other = _issue(hatchback, cast.designer)
    _print_all()
    assert _again(other).issued.revision == 2


def test_the_oldest_is_printed_first_and_each_knows_how_many_come_before(hatchback, cast):
    """A place in the row, and no place once it is one's turn."""
    orders = [_draft(hatchback, cast.designer, kind) for kind in (SheetKind.CUT, SheetKind.PANELS)]
    assert [sheets.ahead_of(order) for order in orders] == [0, 1]
    assert take("one") == orders[0]
    assert sheets.ahead_of(orders[1]) == 1
    assert take("two") == orders[1]
    assert take("three") is None
    assert take("three", orders[0].pk) is None  # two that saw it wait: one gets it


def test_who_may_no_longer_ask_gets_nothing(hatchback, cast, printed):
    """Permission is looked at again when it is printed."""
    order = _issue(hatchback, cast.designer)
    User.objects.filter(pk=cast.designer.pk).update(roles=[Role.INSTALLER])
    _print_all()
    assert _again(order).trouble == Trouble.NOT_ALLOWED
    assert not printed


def test_a_failed_print_says_why_and_can_be_asked_for_again(hatchback, cast, monkeypatch, caplog):
    """The words are for whoever asked, the programmer's name for the manager; then it works."""
    order = _issue(hatchback, cast.designer)
    with monkeypatch.context() as broken:
        broken.setattr(print_orders, "work_out", lambda records: 1 / 0)
        _print_all()
    failed = _again(order)
    assert (failed.state, failed.trouble) == (State.FAILED, Trouble.BROKEN)
    assert failed.detail == "ZeroDivisionError"
    assert not IssuedSheet.objects.exists()
    sheets.ask_again(failed, cast.manager)
    _print_all()
    done = _again(order)
    assert (done.state, done.trouble) == (State.PRINTED, "")
    assert done.issued.issued_by == cast.manager


def test_without_the_library_it_says_so(hatchback, cast, monkeypatch):
    """No PDFs on this machine: the print fails in words."""
    monkeypatch.setattr(engine, "unavailable", lambda: "no Pango")
    order = _draft(hatchback, cast.designer)
    _print_all()
    assert _again(order).trouble == Trouble.NO_PDF


def test_a_print_is_taken_from_a_dead_process_three_times_at_most(hatchback, cast):
    """What was begun by a process that gives no sign any more is begun again, then given up."""
    order = _draft(hatchback, cast.designer)
    for turn in range(MOST_TRIES):
        dead = Worker()
        dead.beat()
        assert take(dead.name).tries == turn + 1
        living = Worker()
        assert not living.work()  # the other one is alive
        assert _again(order).state == State.PRINTING
        PrintWorker.objects.update(beat_at=timezone.now() - 2 * SILENT)
        living._take_back([_again(order)])
    given_up = _again(order)
    assert (given_up.state, given_up.trouble) == (State.FAILED, Trouble.ENDED)


def test_a_print_taken_over_counts_once(hatchback, cast, monkeypatch, caplog):
    """A process that was only slow, and lost its print to another, issues nothing."""
    order = _issue(hatchback, cast.designer)
    slow = take("slow")
    PrintOrder.objects.update(state=State.WAITING)
    quick = take("quick")
    carry_out(quick)
    carry_out(slow)
    assert "taken over" in caplog.text
    assert IssuedSheet.objects.count() == 1
    assert _again(order).worker == "quick"
    assert _again(order).issued == IssuedSheet.objects.get()


def test_a_process_told_to_stop_loses_nothing(hatchback, cast, monkeypatch):
    """What it had begun waits again, untried; its sign of life goes."""
    order = _draft(hatchback, cast.designer)

    def stopped(order: PrintOrder) -> None:
        raise SystemExit

    monkeypatch.setattr("jobs.sheets.printing.worker.carry_out", stopped)
    monkeypatch.setattr(Worker, "_beat_on", lambda self: None)
    monkeypatch.setattr("jobs.sheets.printing.worker.deliver_on", lambda: None)
    with pytest.raises(SystemExit):
        Worker().run()
    assert (_again(order).state, _again(order).tries) == (State.WAITING, 0)
    assert not PrintWorker.objects.exists()


def test_whether_anybody_prints_is_known_by_its_sign_of_life():
    """A process counts as alive until it was silent for a while."""
    assert not is_alive()
    Worker().beat()
    assert is_alive()
    PrintWorker.objects.update(beat_at=timezone.now() - SILENT)
    assert not is_alive()


def test_what_was_finished_long_ago_is_swept_away(hatchback, cast):
    """Printed ones after a day, failed ones after a week; an issued sheet stays, what waits too."""
    done, waits, failed = _issue(hatchback, cast.designer), None, None
    _print_all()
    failed = _draft(hatchback, cast.designer, SheetKind.CUT)
    PrintOrder.objects.filter(pk=failed.pk).update(state=State.FAILED, finished_at=timezone.now())
    waits = _draft(hatchback, cast.designer)
    sweep()
    assert PrintOrder.objects.count() == 3
    PrintOrder.objects.update(
        asked_at=timezone.now() - dt.timedelta(days=2),
        finished_at=timezone.now() - dt.timedelta(days=2),
    )
    sweep()
    assert not PrintOrder.objects.filter(pk=done.pk).exists()
    PrintOrder.objects.update(finished_at=timezone.now() - dt.timedelta(days=8))
    sweep()
    assert list(PrintOrder.objects.all()) == [waits]
    assert IssuedSheet.objects.count() == 1
