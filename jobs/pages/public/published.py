"""The panel pages as plain files, for any web space: they answer when the app does not.

The folder is written anew beside the old one and then put in its place, so that nobody ever reads
half of it. A list of what was written, with hashes, lies in it: what is not on that list, or was
changed since, was not written here and is never touched.
"""

from __future__ import annotations

import hashlib
import json
import shutil
import tempfile
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from django.conf import settings
from django.contrib.staticfiles import finders

from jobs.design.job.panel_page import PanelPage, work_out_panel_pages
from jobs.design.records.records import load
from jobs.models import Job, Workshop
from jobs.pages.public.panel import STYLES, written

LIST = "written.json"
SCHEMA = 1
# What is not in the folder of a panel; the style is: each folder stands by itself.
TOKENS_AND_RULES = STYLES[1:]


class RefusedError(Exception):
    """Why nothing was written, in words for whoever typed the command."""


@dataclass(frozen=True, kw_only=True)
class Outcome:
    """What came of it, by the names of files and tokens."""

    pages: int
    photos: int
    lost: int  # photos whose file is missing from the store
    removed: int  # folders of codes that were withdrawn, or of panels that are gone
    changed: bool


def publish(folder: Path) -> Outcome:
    """Write the pages of every panel that has a code; those of withdrawn codes go."""
    if not settings.PUBLIC:
        message = (
            "There is no public address, so no code leads there. Set UNDERTRIM_PUBLIC=https://name "
            "to where these files will be found."
        )
        raise RefusedError(message)
    folder = folder.absolute()
    aside = _aside(folder)
    if aside.exists() and not folder.exists():
        aside.rename(folder)  # an earlier run was stopped between the two
    elif aside.exists():
        _take_out(aside, _written_before(aside))
    before = _written_before(folder)
    files, lost = _files()
    now = {name: hashlib.sha256(content).hexdigest() for name, content in files.items()}
    changed = now != before
    if changed or not folder.exists():
        _put(folder, files, now)
        if aside.exists():
            _take_out(aside, before)
    return Outcome(
        pages=sum(name.endswith("/index.html") for name in now),
        photos=sum(name.endswith(".jpg") for name in now),
        lost=lost,
        removed=len(_tokens(before) - _tokens(now)),
        changed=changed,
    )


def _tokens(names: dict[str, str]) -> set[str]:
    return {name.partition("/")[0] for name in names}


def _written_before(folder: Path) -> dict[str, str]:
    """Return what an earlier run wrote; refuse a folder that holds anything else."""
    if not folder.exists():
        return {}
    there = {
        str(file.relative_to(folder)): file
        for file in sorted(folder.rglob("*"))
        if file.is_symlink() or not file.is_dir()
    }
    listed: dict[str, str] = {}
    if (own := there.pop(LIST, None)) is not None:
        try:
            listed = json.loads(own.read_bytes())["files"]
        except (ValueError, KeyError, TypeError) as error:
            raise RefusedError(_foreign(folder, LIST)) from error
    for name, file in there.items():
        if file.is_symlink() or listed.get(name) != hashlib.sha256(file.read_bytes()).hexdigest():
            raise RefusedError(_foreign(folder, name))
    return {name: listed[name] for name in there}


def _foreign(folder: Path, name: str) -> str:
    return (
        f"{folder} holds a file that was not written here, or was changed since: {name}. "
        "Name an empty folder, or take the file out."
    )


def _files() -> tuple[dict[str, bytes], int]:
    """Return every file by its path, and how many photos are missing from the store."""
    files: dict[str, bytes] = {}
    lost = 0
    workshop = Workshop.current()
    style = b"".join(_static(name) for name in TOKENS_AND_RULES)
    for page in _pages():
        token = str(page.panel.token)
        pictures = {}
        for photo in page.photos:
            try:
                with photo.small.open("rb") as file:
                    pictures[photo.pk] = file.read()
            except (OSError, ValueError):
                lost += 1
        names = {pk: f"photo-{n}.jpg" for n, pk in enumerate(pictures, start=1)}
        whole = page.with_photos([photo for photo in page.photos if photo.pk in pictures])
        for language, name in _documents().items():
            text = written(
                whole,
                workshop,
                language,
                photos=list(names.values()),
                styles=["style.css"],
                languages=_documents(),
            )
            files[f"{token}/{name}"] = text.encode()
        files[f"{token}/style.css"] = style
        files |= {f"{token}/{name}": pictures[pk] for pk, name in names.items()}
    return files, lost


def _documents() -> dict[str, str]:
    """The file of each language; the first is what an address without a file name opens."""
    return {
        code: f"{code}.html" if n else "index.html"
        for n, (code, _name) in enumerate(settings.LANGUAGES)
    }


def _pages() -> Iterator[PanelPage]:
    """Every panel with a code, of whatever stage its job is in."""
    jobs = Job.objects.filter(panels__token__isnull=False, panels__removed_at=None)
    for job in jobs.select_related("vehicle").distinct().order_by("number"):
        yield from (page for page in work_out_panel_pages(load(job)) if page.panel.token)


def _static(name: str) -> bytes:
    file = finders.find(name)
    assert isinstance(file, str)
    return Path(file).read_bytes()


def _put(folder: Path, files: dict[str, bytes], hashes: dict[str, str]) -> None:
    """Write a new folder beside the old one and put it in its place."""
    aside = _aside(folder)
    folder.parent.mkdir(parents=True, exist_ok=True)
    fresh = Path(tempfile.mkdtemp(prefix=f".{folder.name}.new-", dir=folder.parent))
    try:
        listed = {"schema": SCHEMA, "files": hashes}
        text = json.dumps(listed, indent=1, sort_keys=True).encode() + b"\n"
        for name, content in {**files, LIST: text}.items():
            file = fresh / name
            file.parent.mkdir(exist_ok=True)
            file.write_bytes(content)
        for path in (fresh, *fresh.rglob("*")):
            # A web server is somebody else on this machine.
            path.chmod(0o755 if path.is_dir() else 0o644)
        if folder.exists():
            folder.rename(aside)
        fresh.rename(folder)
    finally:
        if fresh.exists():
            shutil.rmtree(fresh)
            if aside.exists() and not folder.exists():
                aside.rename(folder)


def _take_out(aside: Path, known: dict[str, str]) -> None:
    """Delete what was written here and the folders this leaves empty; anything else stays."""
    for name in (*known, LIST):
        (aside / name).unlink(missing_ok=True)
    for path in sorted(aside.rglob("*"), reverse=True):
        if path.is_dir() and not any(path.iterdir()):
            path.rmdir()
    if not any(aside.iterdir()):
        aside.rmdir()


def _aside(folder: Path) -> Path:
    """Where the old folder lies while the new one takes its place."""
    return folder.with_name(f".{folder.name}.before")
