"""Worked lessons and authored Markdown -> the Markdown pages of the handbook."""
