"""Old holes: what becomes of them, what is said of them, and plugs for them."""
