#!/bin/bash
# What is packed, staged and said of the packages, as far as it takes no root and little time: the same commit packs to the
# same bytes, a staged install holds the files stated here and may be moved, the shells complete from what is installed, and
# src/package/debian fits the program. Building and installing the packages is left to `make deb`.
set -u
tmp=${TEST_TMP:-$(mktemp -d)}
stage=$tmp/stage
passed=0 failed=0
tab=$'\t'
export COATWRIGHT_FINISHES=$PWD/finishes
version=$(awk -F '"' '/define COATWRIGHT_VERSION "/ { print $2 }' include/coatwright.h)
control=src/package/debian/control

check() { # check NAME GOT WANTED
    if [ "$2" = "$3" ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        printf '%s: %s:\n' "$0" "$1"
        diff <(echo "$3") <(echo "$2")
    fi
}

# The same commit, packed by two who differ in folder, umask, zone, time and settings of git.
packed() { # packed FOLDER: the sum of what is packed there
    (cd "$1" && src/package/dist.sh "$version" >/dev/null && sha256sum <"build/coatwright-$version.tar.gz")
}
if git rev-parse HEAD >/dev/null 2>&1; then
    git clone -q --no-hardlinks . "$tmp/one"
    cp src/package/dist.sh "$tmp/one/src/package/"
    cp -R "$tmp/one" "$tmp/another-folder" # its files have another time
    git -C "$tmp/another-folder" config tar.umask 0077
    git -C "$tmp/another-folder" config core.autocrlf true
    one=$(packed "$tmp/one")
    check 'dist is the same bit by bit' "$(umask 077 && TZ=Asia/Tokyo LC_ALL=C packed "$tmp/another-folder")" "$one"
    check 'dist holds the committed files' \
        "$(tar -tzf "$tmp/one/build/coatwright-$version.tar.gz" | sed -n "s|^coatwright-$version/||; /[^/]\$/p" | LC_ALL=C sort)" \
        "$(git ls-tree -r --name-only HEAD | LC_ALL=C sort)"
    echo changed >>"$tmp/one/README.md"
    check 'dist is of the commit' "$(packed "$tmp/one")" "$one"
    git -C "$tmp/one" -c user.name=x -c user.email=x@localhost commit -qam 'Change it'
    check 'dist of another commit differs' "$([ "$(packed "$tmp/one")" = "$one" ] || echo differs)" differs
else
    echo "$0: dist is not tried: this is no checkout"
fi

# A staged install, by one whose files nobody else may read.
(umask 077 && flock "$BUILD/install.lock" make -s install DESTDIR="$stage" PREFIX=/usr LIBDIR=lib/here) || failed=$((failed + 1))
stated() {
    printf '%s\n' bin/coatwright include/coatwright.h include/coatwright_folder.h include/coatwright_server.h include/coatwright_walk.h \
        lib/here/libcoatwright.a lib/here/libcoatwright.so "lib/here/libcoatwright.so.${version%%.*}" \
        "lib/here/libcoatwright.so.$version" lib/here/pkgconfig/coatwright.pc \
        share/bash-completion/completions/coatwright share/fish/vendor_completions.d/coatwright.fish \
        share/zsh/site-functions/_coatwright \
        share/applications/coatwright.desktop share/icons/hicolor/scalable/apps/coatwright.svg \
        share/man/man1/coatwright.1 share/man/man5/coatwright-{finish,job,json}.5 share/man/man7/coatwright-method.7
    find finishes examples ! -type d | sed 's|^|share/coatwright/|'
}
check 'the files of a staged install' "$(cd "$stage/usr" && find . ! -type d | sed 's|^\./||' | LC_ALL=C sort)" \
    "$(stated | LC_ALL=C sort)"
check 'all may read them' "$(find "$stage/usr" ! -type l ! -perm -o=r)" ''
check 'no path of the build is in them' "$(grep -rlF "$tmp" "$stage/usr")" ''
if command -v pkg-config >/dev/null; then
    flags() { PKG_CONFIG_PATH=$1/usr/lib/here/pkgconfig pkg-config --define-variable=pcfiledir="$1/usr/lib/here/pkgconfig" "${@:2}" coatwright; }
    folder() { realpath "$(flags "$1" --variable="$2")"; }
    mv "$stage" "$tmp/moved"
    stage=$tmp/moved
    check 'pkg-config: the version' "$(flags "$stage" --modversion)" "$version"
    check 'pkg-config: headers where it was moved to' "$(folder "$stage" includedir)" "$(realpath "$stage/usr/include")"
    check 'pkg-config: library where it was moved to' "$(folder "$stage" libdir)" "$(realpath "$stage/usr/lib/here")"
fi

# Completion as the packages bring it.
export PATH=$stage/usr/bin:$PATH
share=$stage/usr/share
in_bash() { # in_bash WORD...
    bash --norc -c 'source "$0"; complete -p coatwright >/dev/null || exit; COMP_WORDS=(coatwright "$@") COMP_CWORD=$#
        _coatwright; printf "%s\n" "${COMPREPLY[@]}"' "$share/bash-completion/completions/coatwright" "$@" 2>&1
}
check 'bash: a command' "$(in_bash ti)" timetable
check 'bash: an option' "$(in_bash timetable --ch)" --chance
check 'bash: a finish' "$(in_bash finishes past)" paste-wax
check 'bash: a file' "$(in_bash area examples/desk.j)" examples/desk.json
check 'bash: a step' "$(in_bash skip examples/desk.json top/oil/1f)" top/oil/1f/apply
# What stands in a job is never run, and a blank in it stays within its word.
mkdir "$tmp/odd"
cp examples/staircase* "$tmp/odd"
sed -i 's/Leonie/Leo $(touch owned)/g' "$tmp/odd"/*
check 'bash: a name that is a command' "$(cd "$tmp/odd" && in_bash today staircase.json --person 'Leo\ $(to'; ls | grep owned)" \
    'Leo\ \$\(touch\ owned\)'
if command -v zsh >/dev/null; then
    in_zsh() { # the functions of its own completion only print what they are given
        zsh -fc 'compdef() { }; _files() { print FILES }; _describe() { print -l "${(@P)2}" }
            file=$1; shift; words=(coatwright "$@"); CURRENT=$#words; source $file' zsh "$share/zsh/site-functions/_coatwright" "$@" 2>&1
    }
    check 'zsh: syntax' "$(coatwright --completion zsh | zsh -n 2>&1; zsh -n "$share/zsh/site-functions/_coatwright" 2>&1)" ''
    check 'zsh: a command' "$(in_zsh wo)" 'woods:the woods that a part list may name'
    check 'zsh: a finish' "$(in_zsh finishes past)" paste-wax
    check 'zsh: a file' "$(in_zsh area ex)" FILES
else
    echo "$0: zsh is not tried: it is not installed"
fi
if command -v fish >/dev/null; then
    in_fish() { # in_fish LINE
        HOME=$tmp XDG_CONFIG_HOME=$tmp XDG_DATA_HOME=$tmp fish --no-config -c 'source $argv[1]; complete -C $argv[2]' "$share/fish/vendor_completions.d/coatwright.fish" "$1" 2>&1
    }
    check 'fish: syntax' "$(coatwright --completion fish | fish -n 2>&1)" ''
    check 'fish: a command' "$(in_fish 'coatwright wo')" "woods${tab}the woods that a part list may name"
    check 'fish: a finish' "$(in_fish 'coatwright finishes past')" paste-wax
    check 'fish: a file' "$(in_fish 'coatwright area examples/desk.j' | cut -f 1)" examples/desk.json
else
    echo "$0: fish is not tried: it is not installed"
fi

# What the packages say of themselves.
check 'the library is named by its SONAME' "$(sed -n 's/^Package: \(libcoatwright[0-9]*\)$/\1/p' $control)" "libcoatwright${version%%.*}"
check 'and so are its files' "$(ls src/package/debian/libcoatwright[0-9]*.install)" "src/package/debian/libcoatwright${version%%.*}.install"
check 'every package has its files' "$(ls src/package/debian/*.install | sed 's|.*/||; s|\.install||' | sort)" \
    "$(sed -n 's/^Package: //p' $control | sort)"
check 'the symbols are those of the library' "$(sed -n 's/^ \(coatwright_[a-z_]*\)@Base .*/\1/p' src/package/debian/libcoatwright0.symbols)" \
    "$(nm -D --defined-only "$stage/usr/lib/here/libcoatwright.so.$version" | awk '{ print $3 }' | LC_ALL=C sort)"
check 'no script runs as root at an installation' "$(ls src/package/debian/*.{pre,post}{inst,rm} 2>/dev/null)" ''
check 'the packages need at a build what the build needs' \
    "$(sed -n 's/^Build-Depends: //p' $control | tr -d ' ' | tr ',' '\n' | grep -v debhelper | sort)" \
    "$({ sed -n 's/^PKG_demo *:= //p' .ci/packages.mk; echo lowdown pkgconf; } | tr ' ' '\n' | grep -v '^gcc$' | sort)"
check 'the licence is the one of the program' "$(sed -n '/^ Permission/,$s/^ //p' src/package/debian/copyright | sed 's/^\.$//')" \
    "$(sed -n '/^Permission/,$p' LICENSE)"
check 'README tells the changes of this version' "$(grep -c "^### $version\$" README.md)" 1

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
