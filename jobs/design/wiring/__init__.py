"""Power tree, supply and runs, from their records to results and findings."""
