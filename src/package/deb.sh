#!/bin/sh
# deb.sh VERSION - builds the Debian packages of the last commit in build/deb, and prints their names. The same commit gives
# the same bytes on the same release of Debian: every time in them is that of the commit.
set -eu
cd "$(dirname "$0")/../.."
umask 022
export LC_ALL=C.UTF-8
version=$1 there=build/deb/coatwright-$1
rm -rf build/deb
mkdir -p build/deb
tar -xzf "$(src/package/dist.sh "$version")" -C build/deb
cp -R "$there/src/package/debian" "$there/debian"

changes=$(awk -v wanted="### $version" '/^##/ { here = $0 == wanted } here && /^- / { print substr($0, 3) }' README.md)
[ -n "$changes" ] || { echo "README.md: expected the changes of version $version, found none" >&2; exit 1; }
# Whoever builds a package says by DEBFULLNAME and DEBEMAIL, as for any of Debian's tools, who stands for it.
if [ -n "${DEBEMAIL:-}" ]; then
    sed -i "s/^Maintainer: .*/Maintainer: ${DEBFULLNAME:-Coatwright authors} <$DEBEMAIL>/" "$there/debian/control"
else
    for package in $(sed -n 's/^Package: //p' "$there/debian/control"); do
        printf '%s\n' '# The project has no address for mail; DEBEMAIL gives that of who builds the package.' \
            bogus-mail-host bogus-mail-host-in-debian-changelog >"$there/debian/$package.lintian-overrides"
    done
fi
{
    printf 'coatwright (%s) unstable; urgency=medium\n\n' "$version"
    echo "$changes" | while IFS= read -r change; do
        echo "$change" | fold -s -w 74 | sed '1s/^/  * /; 1!s/^/    /; s/ *$//'
    done
    printf '\n -- %s  %s\n' "$(sed -n 's/^Maintainer: //p' "$there/debian/control")" \
        "$(date -u -R -d "@${SOURCE_DATE_EPOCH:-$(git log -1 --format=%ct)}")"
} >"$there/debian/changelog"

# A compiler cache or a variable of the caller's make would be built in.
cd "$there"
export DEB_BUILD_OPTIONS="noautodbgsym ${DEB_BUILD_OPTIONS:-}"
unset MAKEFLAGS MAKELEVEL MFLAGS CFLAGS LDFLAGS BUILD CC CI SAN COV
dpkg-buildpackage --build=binary --no-sign >../build.log 2>&1 || { tail -n 40 ../build.log; exit 1; }
cd ..
rm -rf "coatwright-$version"
ls -1 ./*.deb | sed 's|^\.|build/deb|'
