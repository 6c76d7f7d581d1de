#!/bin/sh
# The installed library as others use it: the programs of examples/ built by pkg-config, against either library and from
# wherever it was moved, in C and in C++; a shared library with a name of its own and no other names to be seen.
set -u
tmp=${TEST_TMP:-$(mktemp -d)}
there=$tmp/there
cc=${CC:-gcc}
passed=0 failed=0
unset COATWRIGHT_FINISHES
sanitize=${SAN:+-fsanitize=address,undefined}${COV:+ --coverage}

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
# shellcheck disable=SC2046,SC2086
build() { # build OUTPUT SOURCE PKG-CONFIG-OPTION...: as a C program
    output=$1 source=$2
    shift 2
    "$cc" -std=c11 -Wall -Wextra -Wpedantic -Werror $sanitize -o "$output" "$source" \
        $(PKG_CONFIG_PATH=$there/lib/pkgconfig pkg-config --cflags --libs "$@" coatwright)
}
run() { LD_LIBRARY_PATH=$there/lib "$@"; }
holds() { # holds WANT COMMAND...: the output holds WANT
    want=$1
    shift
    got=$(run "$@" 2>&1) || return 1
    case $got in *"$want"*) return 0 ;; esac
    echo "$got"
    return 1
}
soname() { objdump -p "$there/lib/libcoatwright.so" | grep -q 'SONAME *libcoatwright\.so\.[0-9][0-9]*$'; }
needs() { objdump -p "$tmp/walk" | grep -q 'NEEDED *libcoatwright\.so\.[0-9][0-9]*$'; }
same_names() { # what others can link to is what the header declares
    nm -D --defined-only "$there/lib/libcoatwright.so" | awk '$2 ~ /[TDBRVW]/ { print $3 }' | sort >"$tmp/defined"
    grep -oh '\bcoatwright_[a-z0-9_]* *(' "$there"/include/coatwright*.h | tr -d ' (' | sort -u >"$tmp/declared"
    diff "$tmp/declared" "$tmp/defined"
}
static_alone() { # linked into the program, it needs no shared one
    mkdir -p "$tmp/static" && cp "$there/lib/libcoatwright.a" "$tmp/static/" || return 1
    # shellcheck disable=SC2046,SC2086
    "$cc" -std=c11 $sanitize -I"$there/include" -o "$tmp/static/walk" examples/walk.c -L"$tmp/static" \
        $(PKG_CONFIG_PATH=$there/lib/pkgconfig pkg-config --static --libs-only-l coatwright) &&
        "$tmp/static/walk" | grep -q '^in time$'
}
cplusplus() { # the headers, every INIT and a call
    cat >"$tmp/client.cc" <<'END'
#include <coatwright_folder.h>
#include <coatwright_walk.h>

#include <cstdio>

static bool look(void *caller, const coatwright_progress *progress)
{
    return caller == nullptr && progress->done <= 1;
}

int main()
{
    coatwright_options options = COATWRIGHT_OPTIONS_INIT;
    coatwright_outcome outcome = COATWRIGHT_OUTCOME_INIT;
    coatwright_mix_want want = COATWRIGHT_MIX_WANT_INIT;
    coatwright_text text = COATWRIGHT_TEXT_INIT;
    bool sound = false;
    options.progress = look;
    want.finish = "danish-oil";
    want.amount = "400 ml";
    coatwright *session = coatwright_open(&options);
    bool mixed = coatwright_mix(session, &want, &sound);
    std::puts(mixed && sound && !outcome.planned ? coatwright_write(session, COATWRIGHT_MIX, COATWRIGHT_TEXT) : "no");
    const struct coatwright_batch *none = coatwright_batch(session, 0);
    coatwright_close(session);
    return none || text.text || coatwright_version_number() != COATWRIGHT_VERSION_NUMBER;
}
END
    # shellcheck disable=SC2046,SC2086
    "${CXX:-g++}" -std="$1" -Wall -Wextra -Wpedantic -Wold-style-cast -Werror $sanitize -o "$tmp/client" "$tmp/client.cc" \
        $(PKG_CONFIG_PATH=$there/lib/pkgconfig pkg-config --cflags --libs coatwright) && holds 'Danish oil' "$tmp/client"
}
version() {
    [ "$(PKG_CONFIG_PATH=$there/lib/pkgconfig pkg-config --modversion coatwright)" = \
        "$(awk -F '"' '/define COATWRIGHT_VERSION "/ { print $2 }' "$there/include/coatwright.h")" ]
}

check 'make install' flock "$BUILD/install.lock" make -s install PREFIX="$there" # another test installs, too
check 'one version' version
check 'the shared library has a name with its version' soname
check 'it shows what the header declares' same_names
check 'a program that walks is built' build "$tmp/walk" "$there/share/coatwright/examples/walk.c"
check 'it needs the library by that name' needs
check 'it finds the plan in time' holds 'in time' "$tmp/walk"
check 'it walks to the last coat' holds 'shelf/oil/2/apply' "$tmp/walk"
check 'it weighs a mix' holds ' g hardener' "$tmp/walk"
check 'a program with progress is built' build "$tmp/progress" "$there/share/coatwright/examples/progress.c"
check 'it searches to the end' holds 'searched to the end' "$tmp/progress" "$there/share/coatwright/examples/doors.json"
check 'it is ended at the third question' holds 'ended after 3 questions: a plan' "$tmp/progress" "$there/share/coatwright/examples/kitchen.json" 3
check 'it says what is wrong' holds 'expected a readable file, found no such file' sh -c "! '$tmp/progress' nowhere.json"
check 'the static library suffices' static_alone
check 'the header in C++11' cplusplus c++11
check 'the header in C++20' cplusplus c++20
mv "$there" "$tmp/elsewhere" && there=$tmp/elsewhere
check 'from where it was moved' build "$tmp/again" "$there/share/coatwright/examples/walk.c"

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
