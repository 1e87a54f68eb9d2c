"""What a job comes to, what its sheets print and what its pages say is what was let stand."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from jobs import sheets
from jobs.design.job.whole import JobDesign
from jobs.models import SheetKind
from jobs.portable.results import WORKED_OUT
from jobs.sheets.issue import printed
from jobs.sheets.registry import SHEETS
from tests.approval import figures, hold
from tests.jobs.access_rules import INSTALLER, MANAGER, RULES, Rule
from tests.jobs.scenes import Scene
from tests.jobs.sheets.kinds import OF_THE_WORK
from tests.words import words

pytestmark = pytest.mark.django_db

# What is no page, what nothing of the scene stands behind, and what says the day or the machine.
NO_PAGES = {
    *("customers", "parts-order", "part-figures", "part-picture", "job-file", "dxf", "bay-acts"),
    *("photo", "photo-large", "gate-report", "intake-picture", "setup-take", "setup-signal"),
    *("setup-processor-file", "customer-file", "cure", "sheet-draft", "sheet-issued"),
    *("option-edit", "note-edit", "part-list", "account-factor"),
    *("calendar", "accounts", "upkeep"),
}
SHOWN = [
    name
    for name, rule in RULES.items()
    if MANAGER in rule.get and name.partition(" ")[0] not in NO_PAGES and name != "decide a stop"
]
# Pages of a job as a whole.
OF_JOBS = [name for name in SHOWN if RULES[name].of_a_job and RULES[name].args is Rule().args]


@pytest.fixture(params=["hatchback", "saloon", "van"])
def scene(request, hatchback, saloon, van) -> tuple[str, Scene]:
    """Each of the scenes, and its name."""
    return request.param, {"hatchback": hatchback, "saloon": saloon, "van": van}[request.param]


def results(design: JobDesign) -> Iterator[str]:
    """Every figure and finding that came out of a job."""
    return figures({name: getattr(design, name) for name in (*WORKED_OUT, "findings")})


def test_the_results_of_a_job_are_those_let_stand(scene, as_loaded):
    """Every figure and finding of every calculator, from the rows of the job."""
    name, of = scene
    hold(f"results/{name}", results(as_loaded.design(of)))


@pytest.mark.parametrize("kind", OF_THE_WORK)
def test_the_sheets_say_what_was_let_stand(kind, scene, as_loaded):
    """The words and figures of every sheet, before they are laid out."""
    name, of = scene
    _hold_sheet(f"sheets/{name}/{kind}", as_loaded.design(of), kind)


def _hold_sheet(name: str, design: JobDesign, kind: SheetKind) -> None:
    options = sheets.Options(paper="a4", language="en")
    html, _data = printed(design, SHEETS[kind], options, revision=None, at=timezone.now())
    hold(name, words(html))


def _hold_page(client: Client, name: str, of: Scene, kept: str) -> None:
    rule = RULES[name]
    args = ([of.code] if rule.of_a_job else []) + rule.args(of.job)
    answer = client.get(reverse(name.partition(" ")[0], args=args))
    assert answer.status_code == 200
    hold(f"{kept}/{name}", words(answer.content.decode()))


@pytest.mark.parametrize("name", SHOWN)
def test_the_pages_say_what_was_let_stand(name, hatchback, browse):
    """The words, fields and links of every page a manager opens."""
    _hold_page(browse(MANAGER), name, hatchback, "pages")


@pytest.mark.parametrize("name", OF_JOBS)
def test_the_pages_of_what_is_open_say_what_was_let_stand(name, saloon, browse):
    """The same of a job with much still open."""
    _hold_page(browse(MANAGER), name, saloon, "pages/open")


@pytest.mark.parametrize("name", [name for name in OF_JOBS if INSTALLER in RULES[name].get])
def test_the_pages_of_the_bay_say_what_was_let_stand(name, van, browse):
    """The same of a third job, as who works on the car sees it."""
    _hold_page(browse(INSTALLER), name, van, "pages/fitting")
