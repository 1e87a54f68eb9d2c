"""The whole job worked out, and what the board keeps of it."""
