#!/bin/sh
# The README's commands, run as they stand there, and their output compared; its files are the ones it names.
# With --accept the output in the README is written anew: read the diff before you commit it.
exec python3 -B "$(dirname "$0")/readme.py" "$@"
