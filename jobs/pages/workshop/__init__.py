"""Pages of the workshop: settings, catalogue, the style page."""
