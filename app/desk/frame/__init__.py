"""What stands round the cards and the plan: the window, its menus, the steps on top, the strip at the foot."""
