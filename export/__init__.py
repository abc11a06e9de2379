"""What Offsquare knows of paper and file formats: layouts to drawings, drawings to PDF, DXF and SVG. No Qt."""
