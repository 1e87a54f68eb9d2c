"""The pictures of a whole job: which drawing each page and sheet shows of its results."""
