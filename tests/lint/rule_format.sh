#!/bin/sh
# Every C file lies as .clang-format says; `make format` lays it so.
set -u
ls include/*.h examples/*.c src/*/*.[ch] src/*/*/*.[ch] tests/*/*.[ch] 2>/dev/null |
    xargs -r clang-format --dry-run -Werror 2>&1 | sed -n 's/ error: code should be/ should be/p' | grep . && exit 1
exit 0
