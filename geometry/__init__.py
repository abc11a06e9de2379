"""What Offsquare knows of numbers: readings to coordinates, coordinates to a layout. No Qt, no files, no drawing."""
