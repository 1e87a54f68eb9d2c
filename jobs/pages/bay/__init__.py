"""In the bay: what is to do behind each panel, what was done, measured and done differently."""
