"""The menus, one a module."""
