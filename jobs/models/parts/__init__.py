"""Parts of the catalogue, lists of a supplier, offcuts in stock."""
