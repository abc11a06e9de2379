"""What is written of bridges that no glue holds: those that stand under the strings, and saddles on a screwed base."""
