"""The campaign of saddles and nuts: `python -m tests.campaign.solids --count 2000 --seed 11`."""

import argparse

from tests.campaign.solids.trying_solids import said, try_solids


def main() -> None:
    asked = argparse.ArgumentParser(description="How often the ± of saddle's heights and nut's slots hold.")
    asked.add_argument("--count", type=int, default=1000)
    asked.add_argument("--seed", type=int, default=11)
    given = asked.parse_args()
    for line in said(try_solids(given.count, given.seed)):
        print(line)  # noqa: T201  # a command prints


if __name__ == "__main__":
    main()
