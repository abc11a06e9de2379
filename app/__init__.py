"""What Offsquare knows of people: the command line, job files, settings, and the window (`app.desk`)."""

import os

# Our matrices are small: threads of the linear algebra library cost more than they bring, up to five times as much
# where the cores are busy. It reads this once, when numpy is first imported.
os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
