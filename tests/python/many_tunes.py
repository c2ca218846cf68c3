"""Asks the modewright command about many tunes by PySpark, with local workers, and compares every
answer with a single run of the command over the same packs.

many_tunes.py COMMAND FILE…

A pack is some hundred tunes, one element of the data set: `pipe` hands the packs of a partition to
one process of the command, so that starting it costs nothing. On a cluster the packs would come
from shared storage and the answers would go back there; the line in the middle stays what it is.
"""

import json
import subprocess
import sys
import time

from pyspark import SparkContext

TUNES_IN_A_PACK = 200


def packs(files):
    """Texts of some hundred tunes, none of them cut."""
    pack = []
    for name in files:
        with open(name, "rb") as file:
            text = file.read().decode("utf-8", errors="replace").replace("\r\n", "\n")
        # What stands before the first tune is the header of its own book and is left out, so that
        # packs can be put together.
        for tune in ("\n" + text).split("\nX:")[1:]:
            # A line of its own for each tune is what `pipe` needs at the least; lines inside stay.
            pack.append("X:" + tune.strip("\n") + "\n")
            if len(pack) == TUNES_IN_A_PACK:
                yield "\n".join(pack)
                pack = []
    if pack:
        yield "\n".join(pack)


def answers(lines):
    """Answers in an order that does not depend on who gave them, without what counts the lines of
    the stream that they came from."""
    kept = []
    for line in lines:
        answer = json.loads(line)
        for problem in answer["problems"]:
            del problem["line"]
        kept.append(json.dumps(answer, sort_keys=True))
    return sorted(kept)


def main(command, files):
    all_packs = list(packs(files))
    begun = time.monotonic()
    single = subprocess.run(
        [command, "find", "--json", "-"],
        input="\n".join(all_packs).encode(),
        stdout=subprocess.PIPE,
        check=False,
    )
    if single.returncode not in (0, 1):
        sys.exit(f"the single run ended with {single.returncode}")
    took = time.monotonic() - begun
    wanted = answers(single.stdout.decode().splitlines())

    spark = SparkContext("local[2]", "many tunes")
    spark.setLogLevel("ERROR")
    begun = time.monotonic()
    # The one line that spreads the work. Exit code 1 says that some tune could not be read whole.
    told = spark.parallelize(all_packs, 8).pipe(f"sh -c '{command} find --json - || [ $? = 1 ]'")
    found = answers(told.collect())
    spread = time.monotonic() - begun
    spark.stop()

    if found != wanted:
        apart = next((i for i, pair in enumerate(zip(found, wanted)) if pair[0] != pair[1]), None)
        sys.exit(f"{len(found)} answers for {len(wanted)}; the first that differs is {apart}")
    print(
        f"{len(found)} answers of {len(all_packs)} packs are the same; {took:.1f} s in one run, "
        f"{spread:.1f} s spread"
    )


main(sys.argv[1], sys.argv[2:])
