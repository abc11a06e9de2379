"""What the Bridge card asks of each kind of bridge."""
