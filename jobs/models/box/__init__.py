"""A box and a trim panel, and the lists of rows that are part of them."""
