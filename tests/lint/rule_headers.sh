#!/bin/sh
# Each header compiles alone.
set -u
broken=0
for header in src/*/*.h include/*.h; do
    [ -f "$header" ] || continue
    # A main file that is a header would warn about its own include guard.
    printf '#include "%s"\n' "$PWD/$header" |
        ${CC:-gcc} -std=c11 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Werror -Isrc -Iinclude -fsyntax-only -x c - 2>&1 |
        grep -E '(error|warning):' | sed "s|^$PWD/||" | grep . && broken=1
done
exit $broken
