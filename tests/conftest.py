"""What holds for every test: one process each, for pytest keeps every processor busy as it is; and no stopwatch.

Two processes cost a quarter more of processor time here. What two do and say is held by `cli/test_two_processes.py`,
`sources/test_two_hands.py`, and where Ctrl-C comes while an answer is weighed; these ask for two themselves.
"""

import os

from hypothesis import settings

from axlebook.sources.two_hands import ONE_PROCESS

os.environ.setdefault(ONE_PROCESS, "1")
settings.register_profile("no stopwatch", deadline=None)  # a busy machine is no fault
settings.load_profile("no stopwatch")
