"""What holds of any job that can be made, however odd, mirrored, misread or half read."""
