"""The bridge's place on the Bridge card: chosen, moved by hand, covering the old, kept and brought back."""
