#!/bin/sh
# Each lint rule is shown a small tree that breaks it, and must name the file and the line; and one that keeps it.
set -u
rules=$(cd "$(dirname "$0")" && pwd)
tree=${TEST_TMP:-$(mktemp -d)}/tree
passed=0 failed=0
export PYTHONDONTWRITEBYTECODE=1

lay() { # lay FILE: standard input becomes that file of the tree
    mkdir -p "$(dirname "$tree/$1")"
    cat >"$tree/$1"
}

check() { # check NAME GOT WANT
    case $2 in
    *"$3"*) passed=$((passed + 1)) ;;
    *) failed=$((failed + 1)) && printf '%s: %s:\n  got  %s\n  want %s\n' "$0" "$1" "$2" "$3" ;;
    esac
}

says() { # says RULE WANT: the rule refuses the tree with this line
    got=$(cd "$tree" && "$rules/$1" obj 2>&1) && got="accepted: $got"
    check "$1" "$got" "$2"
}

keeps() { # keeps RULE: the rule accepts the tree without a word
    got=$(cd "$tree" && "$rules/$1" obj 2>&1) && got=accepted$got
    check "$1 on a good tree" "$got" accepted
    [ "$got" = accepted ] || echo "  $got"
}

compile() { # compile ROOM/NAME
    mkdir -p "$tree/obj/${1%/*}"
    (cd "$tree" && ${CC:-gcc} -std=c11 -g -O1 -fPIE -Isrc -c -o "obj/$1.o" "src/$1.c") || exit 1
}

fresh() {
    rm -rf "$tree"
    lay src/base/day.h <<'END'
#ifndef BASE_DAY_H
#define BASE_DAY_H
/* strcpy(a, b) in a comment, setlocale( in another. */
int day_next(int day);
#endif
END
    lay src/base/day.c <<'END'
#include "base/day.h"

static const char *const names[] = {"strtok(", "today"};

int day_next(int day)
{
    return day + names[day % 2][0];
}
END
    lay src/solver/network.c <<'END'
#include "base/day.h"

int network_next(int day);

int network_next(int day)
{
    return day_next(day);
}
END
    lay src/app/main.c <<'END'
#include "base/day.h"
#include "coatwright.h"

int main(void)
{
    return day_next(coatwright_day());
}
END
    lay include/coatwright.h <<'END'
#ifndef COATWRIGHT_H
#define COATWRIGHT_H
#include <stddef.h>
int coatwright_day(void);
#endif
END
    cp "$rules/../../.clang-format" "$tree/"
    compile base/day
    compile solver/network
}

fresh
for rule in layers.py sizes.py slices.py words.py objects.py headers.sh; do
    keeps rule_$rule
done

# The layers.
fresh
echo '#include "plan/plan.h"' >>"$tree/src/base/day.c"
echo 'int plan(void);' | lay src/plan/plan.h
says rule_layers.py 'src/base/day.c:9: base includes "plan/plan.h", but plan is not above it'
fresh
echo '#include "amount/mix.h"' >>"$tree/src/solver/network.c"
echo 'int mix(void);' | lay src/amount/mix.h
says rule_layers.py 'src/solver/network.c:9: solver includes "amount/mix.h"'
fresh
echo '#include "amount/mix.h"' >>"$tree/src/app/main.c"
echo 'int mix(void);' | lay src/amount/mix.h
says rule_layers.py 'src/app/main.c:8: app includes "amount/mix.h"'
fresh
echo '#include "base/day.h"' >>"$tree/include/coatwright.h"
says rule_layers.py 'include/coatwright.h:6: the public header includes no file of the project'
fresh
echo '#include "coatwright.h"' | lay src/format/file.c
says rule_layers.py 'src/format/file.c:1: only api, page and app include the public header'
fresh
printf '\n#include <zip.h>\n' | lay src/format/csv.c
says rule_layers.py 'src/format/csv.c:2: zip.h belongs to src/format/sheet* only'
fresh
printf '#include <zip.h>\n' | lay src/report/sheet_more.c
says rule_layers.py 'src/report/sheet_more.c:1: zip.h belongs to src/format/sheet* only'
fresh
echo '#include "day.h"' >>"$tree/src/base/day.c"
says rule_layers.py 'src/base/day.c:9: "day.h" is not a path below src'
fresh
echo 'int x(void);' | lay src/shed/tool.h
says rule_layers.py 'src/shed/tool.h:1: no such room in the house'
# Circles, through headers and sources, within one room.
fresh
echo '#include "base/err.h"' >>"$tree/src/base/day.h"
echo '#include "base/text.h"' | lay src/base/err.h
printf '\n\n#include "base/day.h"\n' | lay src/base/text.c
says rule_layers.py 'src/base/day.h:6: modules need each other: base/day -> base/err -> base/text -> base/day'

# The sizes: 60 lines pass, 61 do not; likewise 500 and 501.
long() { # long LINES: a function of that many lines
    echo 'int long_one(int x);'
    printf 'int long_one(int x)\n{\n'
    yes '    x++; /* { */' | head -n $(($1 - 4))
    printf '    return x;\n}\n'
}
fresh
long 60 | lay src/base/long.c
keeps rule_sizes.py
long 61 | lay src/base/long.c
says rule_sizes.py 'src/base/long.c:2: long_one has 61 lines'
yes 'struct a;' | head -n 500 | lay src/base/long.c
keeps rule_sizes.py
yes 'struct a;' | head -n 501 | lay src/base/long.c
says rule_sizes.py 'src/base/long.c:501: 501 lines'

# The rooms: of ten thousand lines two thousand may lie in one.
fresh
fill() { # fill FOLDER LINES: in files of 250
    yes 'struct a;' | head -n 250 | lay "$1/f1.h"
    n=1
    while [ $n -lt $(($2 / 250)) ]; do
        n=$((n + 1))
        cp "$tree/$1/f1.h" "$tree/$1/f$n.h"
    done
}
rm -rf "$tree/src"
for room in base format job plan report; do fill src/$room 2000; done
keeps rule_sizes.py
fill src/plan 2250
says rule_sizes.py 'src/plan:1: holds 22.0 % of src, the ceiling is 20 %'

# The slices: a ceiling of such headers, and none of them is told until it is passed.
slices() { # slices NUMBER: headers of two functions with one user each
    rm -rf "$tree/src" && mkdir -p "$tree/src/base" && n=0
    while [ $n -lt "$1" ]; do
        n=$((n + 1))
        printf 'struct a%s {\n    int (*call)(int x);\n};\nint f%s(int x);\nint g%s(int x);\n' $n $n $n >"$tree/src/base/h$n.h"
        printf '#include "base/h%s.h"\nint u%s(int x)\n{\n    return f%s(g%s(x));\n}\n' $n $n $n $n
    done >"$tree/src/base/user.c"
}
ceiling=$(sed -n 's/^CEILING = //p' "$rules/rule_slices.py")
fresh
slices "$ceiling"
keeps rule_slices.py
slices $((ceiling + 1))
says rule_slices.py "src:1: $((ceiling + 1)) headers have one user or one function, the ceiling is $ceiling"
says rule_slices.py 'src/base/h1.h:1: only base/user uses it'
sed -i 's/return f1(g1(x))/return x/' "$tree/src/base/user.c"
says rule_slices.py 'src/base/h1.h:1: nobody uses it'
sed -i 's/return x/return f1(g1(x))/' "$tree/src/base/user.c"
cp "$tree/src/base/user.c" "$tree/src/base/other.c"
keeps rule_slices.py
n=0
while [ $n -le "$ceiling" ]; do
    n=$((n + 1))
    printf '/* f%s(int x); */\nint\nf%s(int x,\n    int y);\n' $n $n >"$tree/src/base/h$n.h"
done
says rule_slices.py 'src/base/h1.h:1: declares f1 alone'

# The words.
for call in strcpy strcat sprintf gets atoi atof strtok localtime gmtime; do
    fresh
    printf '\nint f(void) { return %s ("/*"); }\n' $call | lay src/base/bad.c
    says rule_words.py "src/base/bad.c:2: $call: banned call"
done
fresh
printf '\n\nint x = setlocale(0, 0);\n' | lay src/app/bad.c
says rule_words.py 'src/app/bad.c:3: setlocale'
printf '\n\ndouble x = strtod("1", 0);\n' | lay src/app/bad.c
says rule_words.py 'src/app/bad.c:3: strtod'
printf '\nint f(void) { return printf("%%5.1f mm", 2.0); }\n' | lay src/app/bad.c
says rule_words.py 'src/app/bad.c:2: "%5.1f mm": a number would depend on the locale'

fresh
echo 'static double x;' | lay src/solver/engine/bad.h
says rule_words.py 'src/solver/engine/bad.h:1: double: the solver computes in whole numbers'
fresh
echo 'typedef struct day { int x; } day;' | lay src/base/bad.h
says rule_words.py 'src/base/bad.h:1: typedef struct'
fresh
printf '\n/* %s: later */\n' TO''DO | lay src/base/bad.h
says rule_words.py 'src/base/bad.h:2: TO''DO: a promise'
fresh
printf '\nsee %s/me/x\n' /hom''e | lay README.md
says rule_words.py 'README.md:2: /hom''e/: a path of one machine'
fresh
printf '"%s/x"\n' /tm''p | lay src/format/bad.h
says rule_words.py 'src/format/bad.h:1: /tm''p: a path of one machine'

# The terms. The words are spelt so that this file does not hold them.
fresh
printf '\nconst char *f(void) { return "2 h in "\n    "hand"; }\n' | lay src/report/bad.c
says rule_terms.py 'src/report/bad.c:2: "in hand" in what a user reads: to spare; your can'
printf '\nThe rest is by rules of thu''mb.\n' | lay README.md
says rule_terms.py 'README.md:2: "rules of thu''mb" in what a user reads: estimated'
fresh
printf '\n/* The literals cla''sh here. */\n' | lay src/solver/engine/bad.h
says rule_terms.py 'src/solver/engine/bad.h:2: "cla''sh": conflict'
fresh
printf '\nconst char *f(void) { return "your can, expected 4 m2/h"; }\n' | lay src/report/bad.c
keeps rule_terms.py

# The objects.
bad_object() { # bad_object ROOM WANT: standard input is the source
    fresh
    lay "src/$1/bad.c"
    compile "$1/bad"
    says rule_objects.py "$2"
}
bad_object format 'src/format/bad.c:2: seen is a variable outside any call' <<'END'
int f(void);
int seen;
int f(void) { return seen++; }
END
bad_object format 'src/format/bad.c:4: calls is a variable outside any call' <<'END'
int f(void);
int f(void)
{
    static int calls = 3;
    return calls++;
}
END
bad_object app 'src/app/bad.c:2: words is a variable outside any call' <<'END'
int f(int i);
static const char *words[] = {"a", "b"};
int f(int i) { words[i] = "c"; return words[0][0]; }
END
bad_object plan 'src/plan/bad.c:3: plan computes only, and getenv reaches outside' <<'END'
#include <stdlib.h>
int f(void);
int f(void) { return getenv("X") != 0; }
END
bad_object base 'src/base/bad.c:5: base computes only, and time reaches outside' <<'END'
#include <time.h>
long f(void);
long f(void)
{
    return time(0);
}
END

# The headers.
fresh
printf '\nint f(size_t x);\n' | lay src/base/bad.h
says rule_headers.sh 'src/base/bad.h:2:'

# The layout, where the tool is here.
if command -v clang-format >/dev/null; then
    fresh
    keeps rule_format.sh
    printf 'int f(int x);\nint f( int x );\n' | lay src/base/bad.h
    says rule_format.sh 'src/base/bad.h:2:'
fi

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
