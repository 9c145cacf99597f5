"""Writes the sharing handbook: start reading at build.py."""
