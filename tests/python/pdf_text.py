"""Compares the text of our PDF sheets, as pypdf extracts it, with the text of the same sheets as SVG.

Usage: python pdf_text.py MODEWRIGHT TUNE.abc...

Every word of the SVG must stand in the PDF just as often: titles, labels and rows can be searched
and copied. Prints what differs and ends with 1 where anything does.
"""

import collections
import io
import subprocess
import sys
import xml.etree.ElementTree as ET

import pypdf

SVG = "{http://www.w3.org/2000/svg}"


def words(text):
    return collections.Counter(text.split())


def sheet(program, path, kind):
    command = [program, "lesson", path, "--print", kind, "--rows", "count,degree,note"]
    return subprocess.run(command, capture_output=True, check=True).stdout


def main():
    program, differ = sys.argv[1], 0
    for path in sys.argv[2:]:
        root = ET.fromstring(sheet(program, path, "svg"))
        drawn = words(" ".join("".join(node.itertext()) for node in root.iter(f"{SVG}text")))
        pages = pypdf.PdfReader(io.BytesIO(sheet(program, path, "pdf"))).pages
        read = words(" ".join(page.extract_text() for page in pages))
        lost, more = drawn - read, read - drawn
        print(f"{path}: {drawn.total()} words, {lost.total()} lost, {more.total()} more")
        for name, found in (("lost", lost), ("more", more)):
            if found:
                print(f"  {name}: {dict(found.most_common(12))}")
        differ += lost.total() + more.total()
        if not drawn:
            differ += 1
    sys.exit(1 if differ else 0)


main()
