"""What lies under the top and in it: braces, the plate, metal."""
