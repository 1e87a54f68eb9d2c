"""What is kept, for how long and of whom: removed rows, a person's data, who was erased."""
