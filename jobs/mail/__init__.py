"""E-mails through the workshop's own server: none of it is ever required."""
