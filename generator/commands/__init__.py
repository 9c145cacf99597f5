"""One module for each command: `command` in it is what the command line runs."""
