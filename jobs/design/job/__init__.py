"""The whole job worked out: every finding, every caution, and what the board keeps of it."""
