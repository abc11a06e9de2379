"""Files for machines: kerf, cutter, datum, no line twice, DXF and SVG; and outlines read from such files."""
