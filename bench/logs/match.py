"""Counts, with Python's re, the lines that match the first of some patterns. Usage: match.py LOG PATTERNS_FILE"""
import re
import sys


def main() -> None:
    log, patterns_file = sys.argv[1:3]
    with open(patterns_file, encoding="utf-8") as lines:
        patterns = [re.compile(line.rstrip("\n")) for line in lines]
    counts = [0] * len(patterns)
    caught = 0
    with open(log, encoding="utf-8") as lines:
        for line in lines:
            for number, pattern in enumerate(patterns):
                match = pattern.search(line)
                if match:
                    counts[number] += 1
                    caught += len(match.groups())
                    break
    print(sum(counts))


main()
