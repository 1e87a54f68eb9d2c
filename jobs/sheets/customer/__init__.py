"""What the customer keeps: the hand-over, its page behind a link, the page for the glove box."""
