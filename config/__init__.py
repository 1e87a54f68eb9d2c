"""Settings and addresses of the site, and how it uses the machine it runs on."""

import os

# The matrices of a box are small: one thread solves them in some 20 ms, while several wait for
# each other on a busy machine with few cores. Read when numpy is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
