"""The same figures by another way that shares no code with the product: scripts and their tests."""
