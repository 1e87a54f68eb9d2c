"""Set-up: starting values and what is dialled in, channel by channel."""
