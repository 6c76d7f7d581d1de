#!/usr/bin/env python3
"""Tests of the checkers themselves: every test_*.py beside this file; prints the closing line that the runner counts."""
import sys
import unittest
from pathlib import Path


def main():
    tests = unittest.defaultTestLoader.discover(str(Path(__file__).parent), "test_*.py")
    result = unittest.TextTestRunner(stream=sys.stdout).run(tests)
    failed = len({str(test) for test, _ in result.failures + result.errors})
    print(f"{result.testsRun - failed} passed, {failed} failed")
    return 1 if failed or not result.testsRun else 0


if __name__ == "__main__":
    sys.exit(main())
