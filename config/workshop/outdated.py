"""After an upgrade: say which files of the machine this code would write otherwise."""

from __future__ import annotations

import sys
from pathlib import Path

from config.workshop.answers import KEPT, Answers


def outdated(answers: Answers) -> list[Path]:
    """Return the files that are not as `make workshop` would write them now."""
    return [
        file
        for file, text in answers.files().items()
        if not file.exists() or file.read_text() != text
    ]


def main() -> None:
    """Say it where there are any; nothing is written over what somebody may have changed."""
    if KEPT.exists() and (files := outdated(Answers.read(KEPT.read_text()))):
        names = ", ".join(map(str, files))
        sys.stdout.write(f"Files of this machine are not as this version has them: {names}.\n")
        sys.stdout.write("To have them written anew, type: make workshop\n")


if __name__ == "__main__":
    main()
