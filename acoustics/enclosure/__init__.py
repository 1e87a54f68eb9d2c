"""What a driver works into: boxes, ports, openings, doors, classical alignments."""
