"""A job as one file: handed out, looked over and taken in; the cars a part is in."""
