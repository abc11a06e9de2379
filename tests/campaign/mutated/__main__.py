"""`python -m tests.campaign.mutated --count N --seed S`: one slip in each right job, and what is said of it."""

from tests.campaign.mutated.silent import main

if __name__ == "__main__":
    raise SystemExit(main())
