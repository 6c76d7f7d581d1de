#!/bin/sh
# The calendars of all examples against RFC 5545, and their moments by two readers against the plan. The second reader,
# python3-icalendar, belongs to the system's own python.
PATH=/usr/bin:$PATH exec python3 -B "$(dirname "$0")/../checker/ics_of_examples.py"
