"""What answers everybody: pages without a sign-in, on the public address and on our own."""
