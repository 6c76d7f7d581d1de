#!/bin/sh
exec "$BUILD/bench-mesh"
