"""The plan and the detail beside it: painted, looked at, pointed at, and told to who can't see them."""
