#!/bin/sh
# The editors of tables and JSON texts, of the page: they change what they are asked to and not a byte more.
exec node "$(dirname "$0")/texts.mjs"
