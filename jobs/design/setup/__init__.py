"""From the channel plan to the first note: what the plan lacks, and the values to start from."""
