"""Figures laid on sheets of paper, and sheets written as PDF or PNG."""
