"""Strings, where they start, slanted frets and the nut, as the Strings card says them and puts them back."""
