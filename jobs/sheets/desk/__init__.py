"""What is read at a desk: boxes side by side, and what the figures of a job rest on."""
