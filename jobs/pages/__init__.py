"""The pages: one module each, with its forms and its addresses."""
