"""The headstock, tuners, markers and other holes, as the Headstock card puts them back."""
