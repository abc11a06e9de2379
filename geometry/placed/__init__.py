"""All of it placed, and what is measured between: margins, check distances, placements kept before."""
