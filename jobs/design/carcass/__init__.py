"""The carcass of a box, from its record to the body the calculator knows; braces and contents."""
