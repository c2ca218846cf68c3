"""Times music21's ABC reader and key analysis on the tunes of a file.

Usage: python time_music21.py FILE

Prints one JSON object: tunes, seconds (reading and analysing, without the import and
without splitting the file) and failed (tunes that it could not read or analyse).
"""

import json
import sys
import time

from music21 import converter


def split(text):
    """The tunes of a file, each from its X: line to the next."""
    tunes = []
    for line in text.splitlines(keepends=True):
        if line.startswith("X:"):
            tunes.append([])
        if tunes:
            tunes[-1].append(line)
    return ["".join(tune) for tune in tunes]


def main(path):
    with open(path, encoding="latin-1") as file:
        tunes = split(file.read())
    # The first use of the toolkit loads tables; that is not the work to be timed.
    converter.parseData("X:1\nM:4/4\nL:1/8\nK:C\nCDEF GABc|\n", format="abc").analyze("key")
    failed = 0
    start = time.perf_counter()
    for tune in tunes:
        try:
            converter.parseData(tune, format="abc").analyze("key")
        except Exception:  # noqa: BLE001 - whatever it was, the tune is counted as failed
            failed += 1
    seconds = time.perf_counter() - start
    print(json.dumps({"tunes": len(tunes), "seconds": seconds, "failed": failed}))


if __name__ == "__main__":
    main(sys.argv[1])
