#!/bin/sh
# What `make install` leaves is whole: a program that finds the installed finishes from anywhere, a library in which
# the public header's names and no others can be seen, and nothing after `make uninstall`.
set -u
there=${TEST_TMP:-$(mktemp -d)}/there
passed=0 failed=0
unset COATWRIGHT_FINISHES

check() { # check NAME COMMAND...
    name=$1
    shift
    if said=$("$@" 2>&1); then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: %s: did not hold: %s\n' "$0" "$name" "$said"
    fi
}
away() { (cd / && "$there/bin/coatwright" "$@"); }
missing() { ! away finishes; }
same_names() {
    nm --defined-only -g "$there/lib/libcoatwright.a" | awk 'NF == 3 { print $3 }' | sort >"$there/defined"
    grep -oh '\bcoatwright_[a-z0-9_]* *(' "$there"/include/coatwright*.h | tr -d ' (' | sort -u >"$there/declared"
    diff "$there/declared" "$there/defined"
}
links_all() { # a client that needs every name of the library
    echo '#include <coatwright.h>
          int main(void) { return 0; }' >"$there/client.c"
    # shellcheck disable=SC2046
    ${CC:-gcc} -std=c11 -Wall -Wextra -Wpedantic -Werror ${SAN:+-fsanitize=address,undefined} ${COV:+--coverage} \
        -I"$there/include" -o "$there/client" "$there/client.c" $(sed 's/^/-Wl,-u,/' "$there/defined") \
        -L"$there/lib" -lcoatwright -lm -lpthread && LD_LIBRARY_PATH="$there/lib" "$there/client"
}
manual() { # every page of src/man is found by its name, and set without a warning: no macro is unknown, every line fits (in a cell
    # of one long word there is nothing to adjust, which newer versions of groff tell)
    for page in src/man/*.md; do
        name=$(basename "$page" .md)
        MANWIDTH=80 MANPATH=$there/share/man man "${name#*.}" "${name%.*}" >"$there/page" 2>"$there/aside.man" || return 1
        grep -q "${name%.*} - " "$there/page" && ! grep -E 'not defined|warning' "$there/aside.man" | grep -v 'cannot adjust line' || return 1
    done
    MANPATH=$there/share/man man --nj 5 coatwright-job 2>/dev/null | grep -q 'coatwright check bench.json'
}
nothing_left() { [ -z "$(find "$there" -type f ! -name defined ! -name declared ! -name 'client*' ! -name page ! -name aside.man)" ]; }

check 'make install' flock "$BUILD/install.lock" make -s install PREFIX="$there" # another test installs, too
check 'the program runs from elsewhere' away --version
check 'it finds the finishes' away finishes
mv "$there/share/coatwright/finishes" "$there/aside"
check 'it looks for them where they were installed' missing
mv "$there/aside" "$there/share/coatwright/finishes"
mv "$there" "$there.moved"
check 'moved as a whole, it finds them again' "$there.moved/bin/coatwright" finishes
mv "$there.moved" "$there"
check 'the manual pages are found' manual
check 'the library shows what the header declares' same_names
check 'a client links' links_all
check 'make uninstall' make -s uninstall PREFIX="$there"
check 'nothing is left' nothing_left

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
