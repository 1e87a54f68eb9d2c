"""What is loaded of a job, what its records leave open, and findings."""
