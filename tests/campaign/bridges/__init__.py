"""Bridges, saddles and strings beside the whole saddle on a glued bridge: a campaign each, told in one table."""
