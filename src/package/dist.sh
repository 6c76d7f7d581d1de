#!/bin/sh
# dist.sh VERSION - packs the committed files into build/coatwright-VERSION.tar.gz, whose name it prints. The same commit
# gives the same bytes, whatever the time, the folder, the umask and the user's own settings of git.
set -eu
cd "$(dirname "$0")/../.."
name=coatwright-$1
mkdir -p build
git -c tar.umask=0022 -c core.autocrlf=false -c core.attributesFile=/dev/null \
    archive --format=tar --prefix="$name/" -o "build/$name.tar" HEAD
gzip -9 -n -f "build/$name.tar"
echo "build/$name.tar.gz"
