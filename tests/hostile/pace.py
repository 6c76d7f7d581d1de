"""How much slower a program for tests is: with sanitizers, or counting what is covered."""
import os

SLOWER = 10 if os.environ.get("SAN") or os.environ.get("COV") or os.environ.get("TSAN") else 1
