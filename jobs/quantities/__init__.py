"""What `jobs.units` reads and writes with: kinds, words and the numbers people type."""
