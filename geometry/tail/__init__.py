"""A tailpiece behind the bridge: where its middle must be, and what the strings do to the bridge from there."""
