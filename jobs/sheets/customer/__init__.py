"""What the customer keeps: the hand-over, its page behind a link, the glove box page, letters."""
