"""Bodies of a box: profiles, prisms, tapers, faces, joints, braces, volumes."""
