"""`python -m tests.campaign.safe NAME --count N --seed S`: try to lose work or to let something wrong out.

Each ends in one figure: how many faults in how many tries. `all` runs them one after the other.
"""

import argparse
import importlib
import os
import sys

NAMES = {"jobs": 1500, "pasted": 2000, "kills": 20, "targets": 200, "full": 200, "acts": 500, "edits": 50}
"""The campaigns, with how many tries take about a minute."""


def main() -> int:
    parser = argparse.ArgumentParser(prog="python -m tests.campaign.safe", description=__doc__)
    parser.add_argument("name", choices=(*NAMES, "all"))
    parser.add_argument("--count", type=int, help="how many tries")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    wrong = 0
    for name in NAMES if asked.name == "all" else (asked.name,):
        outcome = importlib.import_module(f"tests.campaign.safe.{name}").run(asked.count or NAMES[name], asked.seed)
        sys.stdout.write(f"{outcome.says(name, asked.seed)}\n")
        wrong += len(outcome.faults)
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
