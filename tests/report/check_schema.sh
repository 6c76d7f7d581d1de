#!/bin/sh
# Shipped finishes, examples and the program's JSON against their JSON Schemas, with Debian's ajv.
set -eu
cd "$(dirname "$0")/../.."
NODE_PATH=/usr/share/nodejs${NODE_PATH:+:$NODE_PATH} exec node tests/schema/validate.js
