"""Paper and file formats: what is worked out, drawn once and written as PDF, DXF and SVG."""
