"""How high the saddle stands over bridge and top, and how steeply the strings break over it."""
