#!/bin/sh
exec "$BUILD/tests/bench/bench_mesh"
