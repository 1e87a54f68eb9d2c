"""What was changed, from what to what, by whom and when; what was removed, and brought back."""
