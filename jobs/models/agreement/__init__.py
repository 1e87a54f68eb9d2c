"""What a job costs, and what was agreed about it: rates, taxes, lines of the price."""
