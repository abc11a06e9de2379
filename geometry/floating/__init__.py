"""A bridge held by the strings alone: where its feet stand and its saddle is cut."""
