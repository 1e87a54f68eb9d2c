"""Set-up of a finished system: crossings, parts, gains, test signals, and what is measured."""
