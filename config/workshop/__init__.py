"""An installation for a workshop: what is asked, its certificate, and the files of its machine."""
