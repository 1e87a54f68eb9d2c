"""Pictures of a whole job: its power tree and signal path, with its findings at the spot."""
