"""Pages of the workshop: settings, catalogue, people, signing in, the style page."""
