"""The room inside a box: what stands in it and what stays clear."""
