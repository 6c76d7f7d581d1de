#!/bin/sh
exec "$(dirname "$0")/golden.sh"
