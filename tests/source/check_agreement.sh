#!/bin/sh
# The JSON Schemas for editors and the program's own reader against each other, on files that are wrong.
set -eu
cd "$(dirname "$0")/../.."
NODE_PATH=/usr/share/nodejs${NODE_PATH:+:$NODE_PATH} exec node tests/schema/agree.js
