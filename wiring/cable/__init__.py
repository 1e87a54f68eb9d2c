"""A cable by itself: conductor, ampacity, drop, fuse, markings; its ends, bends and grommets."""
