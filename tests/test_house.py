"""The rules of the house that a machine can hold: file length, names, templates, markup."""

from __future__ import annotations

import ast
import re
from pathlib import Path

HOUSE = Path(__file__).parent.parent
ROOMS = ("acoustics", "wiring", "jobs", "config", "tests")
LONGEST = 400
WIDEST = 200
MOST_IN_A_FOLDER = 22
TEMPLATES = HOUSE / "templates"
# Words that hold anything; what they stand for has a name of its own: a finding, a run, a box ...
NO_NOUN = {"one", "found", "made", "said"}
# Rooms and files where they still stand. The list only shrinks: one that is clean is struck off.
NOT_YET_NAMED = (
    "jobs/backup/archive.py",  # a word of the file it writes
    "jobs/models/decisions.py",  # a column of the table
)
# Django looks these up by its own names.
BY_DJANGO = {"400.html", "403.html", "404.html", "500.html", "registration/login.html"}


def _files(pattern: str) -> list[Path]:
    return [
        path
        for room in ROOMS
        for path in sorted((HOUSE / room).rglob(pattern))
        if "migrations" not in path.parts
    ]


def test_no_file_is_longer_than_a_room():
    """A file is read in one sitting: at most 400 lines, tests and styles too."""
    files = [*_files("*.py"), *_files("*.css"), *_files("*.js")]
    assert len(files) > 100
    lengths = {str(p.relative_to(HOUSE)): len(p.read_text().splitlines()) for p in files}
    assert {name: n for name, n in lengths.items() if n > LONGEST} == {}


def test_templates_can_be_reviewed():
    """A template is at most 400 lines, and no line of it over 200 characters."""
    assert len(_templates()) > 80
    long = {name: len(text.splitlines()) for name, text in _templates().items()}
    assert {name: n for name, n in long.items() if n > LONGEST} == {}
    wide = [
        f"{name}:{number}"
        for name, text in _templates().items()
        for number, line in enumerate(text.splitlines(), start=1)
        if len(line) > WIDEST
    ]
    assert wide == []


def test_no_folder_hides_a_file():
    """A newcomer overlooks at most about twenty files side by side."""
    folders: dict[str, int] = {}
    for path in _files("*.py"):
        if path.is_relative_to(HOUSE / "tests"):
            continue
        folders[str(path.parent.relative_to(HOUSE))] = 1 + folders.get(
            str(path.parent.relative_to(HOUSE)), 0
        )
    assert len(folders) > 20
    assert {name: n for name, n in folders.items() if n > MOST_IN_A_FOLDER} == {}


def test_every_room_says_what_it_is_about():
    """A newcomer reads in the first line of a room what is in it."""
    rooms = [
        path
        for path in _files("__init__.py")
        # Where Django looks for the formats of a language, by its own layout.
        if not path.is_relative_to(HOUSE / "tests") and "formats" not in path.parts
    ]
    assert len(rooms) > 30
    silent = [
        str(path.parent.relative_to(HOUSE))
        for path in rooms
        if not (ast.get_docstring(ast.parse(path.read_text())) or "").strip()
    ]
    assert silent == []


def _without_a_noun(source: str) -> set[str]:
    """Return which of those words a variable, a parameter or a field of the source is named by."""
    names = set()
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store):
            names.add(node.id)
        elif isinstance(node, ast.arg):
            names.add(node.arg)
    return names & NO_NOUN


def test_a_name_is_the_noun_it_holds():
    """No variable, parameter or field of the product is called one, found, made or said."""
    source = "for one in runs: ...\ndef f(made: int, *, key=lambda said: said): (found := made)"
    assert _without_a_noun(source) == NO_NOUN
    names = {
        str(path.relative_to(HOUSE)): words
        for path in _files("*.py")
        if not path.is_relative_to(HOUSE / "tests") and (words := _without_a_noun(path.read_text()))
    }
    wrong = {name: words for name, words in names.items() if not name.startswith(NOT_YET_NAMED)}
    assert wrong == {}
    clean = [room for room in NOT_YET_NAMED if not any(name.startswith(room) for name in names)]
    assert clean == [], "strike these off NOT_YET_NAMED"


def _templates() -> dict[str, str]:
    return {
        str(path.relative_to(TEMPLATES)): path.read_text() for path in TEMPLATES.rglob("*.html")
    }


def test_every_template_is_used():
    """A template nobody renders, extends or includes is deleted."""
    everything = "".join(_templates().values()) + "".join(p.read_text() for p in _files("*.py"))
    # The help texts and the sheets are named by their word.
    built = ("parts/terms/", "sheets/")
    unused = {
        name
        for name in _templates()
        if f'"{name}"' not in everything
        and f"'{name}'" not in everything
        and name not in BY_DJANGO
        and not name.startswith(built)
    }
    assert unused == set()


def test_templates_hold_no_style_and_no_script():
    """How it looks is said in the style sheets and what it does in the scripts, never in a page."""
    wrong = {
        name: found
        for name, text in _templates().items()
        if (found := re.findall(r"<style|\sstyle=|\son(?!e=)[a-z]+=|<script(?![^>]*\ssrc=)", text))
    }
    assert wrong == {}


def test_templates_name_every_table_head():
    """A cell of a head says whether it is of a column or of a row, for those who listen."""
    wrong = {
        name: found
        for name, text in _templates().items()
        if (found := re.findall(r"<th(?![^>]*scope=)[\s>][^>]*", text))
    }
    assert wrong == {}


def test_no_tag_of_a_template_runs_over_a_line():
    """What is meant as a tag and is broken over two lines is printed as it stands."""
    wrong = {
        name: found
        for name, text in _templates().items()
        if (found := re.findall(r"\{[%{#](?:(?![%}#]\}).)*\n", text))
    }
    assert wrong == {}
