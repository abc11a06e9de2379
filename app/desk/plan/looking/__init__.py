"""Where the plan and the detail look, and where both stand."""
