#!/bin/sh
# Each header compiles alone.
set -u
# A main file that is a header would warn about its own include guard.
ls src/*/*.h src/*/*/*.h include/*.h 2>/dev/null | xargs -r -P "$(nproc)" -n 16 sh -c '
    for header; do
        printf "#include \"%s\"\n" "$PWD/$header" |
            "$0" -std=c11 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Werror -Isrc -Iinclude -fsyntax-only -x c - 2>&1 |
            sed -n "s|^$PWD/||; / error: /p"
    done' "${CC:-gcc}" | sort -u | grep . && exit 1
exit 0
