"""One command per file: the demo, the first manager, sheets, back-up and restore."""
