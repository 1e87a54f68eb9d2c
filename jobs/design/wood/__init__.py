"""What is cut: pieces, nests, rings and trim panels, and boxes fitted to a cavity."""
