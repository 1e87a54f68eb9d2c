"""What a job costs: lines that follow the design, work, discount, tax and deposit."""
