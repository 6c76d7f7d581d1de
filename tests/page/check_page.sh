#!/bin/sh
# The page of `coatwright serve` in a real browser: Debian's Chromium, driven by playwright-core, with axe-core for what a screen reader
# needs. Both come from npm in the versions of package-lock.json, once for each build folder; after that nothing but loopback is used.
set -eu
cd "$(dirname "$0")"
build=$(cd ../.. && mkdir -p "${BUILD:-build}/page" && cd "${BUILD:-build}/page" && pwd)
if ! cmp -s package-lock.json "$build/installed"; then
    cp package.json package-lock.json "$build/"
    (cd "$build" && npm ci --no-audit --no-fund --ignore-scripts --silent) || { echo "npm ci failed: the browser tests were not run"; echo "0 passed, 1 failed"; exit 1; }
    cp package-lock.json "$build/installed"
fi
PAGE_MODULES="$build/node_modules" exec node check_page.mjs "$@"
