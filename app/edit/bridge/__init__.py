"""The bridge, however it is held, its choice of place and its proof, as the Bridge card puts them back."""
