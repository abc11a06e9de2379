"""**Bounds**: what no instrument has, and what hardly one has.

A value beyond the first stops the work, one beyond the second is to be looked at. Nothing here is measured: each bound
is a named constant, common practice and no source, wide enough that an instrument within it is nothing rare.
"""
