"""The numbers and groups that the handbook answers for: what the pieces and the room round a mat are enough for.

The commands `share` and `diagnose` reckon with larger ones (`commands/arguments.py`).
"""

MOST_CHILDREN = 12

LARGEST_DIVIDEND = 9_999

LARGEST_DIVISOR = 999
"""With ribbons, where fewer children sit on the mat than the divisor says."""
