#!/bin/sh
# install.sh - what `make install` and `make uninstall` do. From the environment: BUILD (the manual pages are below it), TO
# (where to), LIBDIR (the library's folder below TO), VERSION, SO and SONAME (libcoatwright.so, libcoatwright.so.0), LIBS.
# install.sh away: removes it again.
set -eu
cd "$(dirname "$0")/../.."
umask 022
share=$TO/share lib=$TO/$LIBDIR

if [ "${1:-}" = away ]; then
    rm -rf "$TO/bin/coatwright" "$lib"/libcoatwright.* "$lib/pkgconfig/coatwright.pc" "$TO"/include/coatwright*.h \
        "$share/coatwright" "$share"/man/man?/coatwright[-.]* "$share/bash-completion/completions/coatwright" \
        "$share/zsh/site-functions/_coatwright" "$share/fish/vendor_completions.d/coatwright.fish" \
        "$share/applications/coatwright.desktop" "$share/icons/hicolor/scalable/apps/coatwright.svg"
    exit
fi

install -D -m 755 -t "$TO/bin" "$BUILD/install/coatwright"
install -D -m 644 -t "$lib" "$BUILD/install/libcoatwright.a" "$BUILD/install/$SO.$VERSION"
ln -sf "$SO.$VERSION" "$lib/$SONAME"
ln -sf "$SONAME" "$lib/$SO"
# The folders of coatwright.pc begin at its own, so that all of it may be moved.
mkdir -p "$lib/pkgconfig"
sed "s|@PREFIX@|$(realpath -ms --relative-to="/$LIBDIR/pkgconfig" /)|; s/@VERSION@/$VERSION/; s/@LIBS@/$LIBS/" \
    src/api/coatwright.pc >"$lib/pkgconfig/coatwright.pc"
install -D -m 644 -t "$TO/include" include/*.h
mkdir -p "$share/coatwright"
cp -R finishes examples "$share/coatwright/"
chmod -R u=rwX,go=rX "$share/coatwright"
for page in src/man/*.md; do
    page=$BUILD/man/$(basename "$page" .md)
    install -D -m 644 -t "$share/man/man${page##*.}" "$page"
done
install -D -m 644 -t "$share/applications" src/package/coatwright.desktop
install -D -m 644 src/page/assets/icon.svg "$share/icons/hicolor/scalable/apps/coatwright.svg"
install -D -m 644 src/package/completion/bash "$share/bash-completion/completions/coatwright"
install -D -m 644 src/package/completion/zsh "$share/zsh/site-functions/_coatwright"
install -D -m 644 src/package/completion/fish "$share/fish/vendor_completions.d/coatwright.fish"
