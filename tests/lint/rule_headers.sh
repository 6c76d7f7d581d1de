#!/bin/sh
# Each header compiles alone.
set -u
ls src/*/*.h src/*/*/*.h include/*.h 2>/dev/null | while read -r header; do
    # A main file that is a header would warn about its own include guard.
    printf '#include "%s"\n' "$PWD/$header" |
        ${CC:-gcc} -std=c11 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Werror -Isrc -Iinclude -fsyntax-only -x c - 2>&1 |
        sed -n "s|^$PWD/||; / error: /p"
done | sort -u | grep . && exit 1
exit 0
