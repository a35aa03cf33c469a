"""Reads charts back from pages of the program's own PDFs, printed as pictures at 100 and 200 dots an inch, in colour and in
black with symbols: `traced.py YOKEWARD COLOUR_SET BLACK_SET LESSONS`. What poppler draws is what a scanner would see."""

import json
import pathlib
import subprocess
import sys
import tempfile

# Chart files by their lessons, each alone on the second page of its handout; in colour, and in black where no mark of a
# catch stands on a symbol.
COLOUR = {"02": "sanderling-tracks", "03": "drizzle", "04": "cockle", "05": "turnstone", "06": "pebble"}
BLACK = {"02": "sanderling-tracks", "03": "drizzle", "04": "cockle", "05": "turnstone"}


def rows(lessons, name):
    """The lines of a chart file, top first."""
    text = (lessons / "charts" / f"{name}.yaml").read_text()
    lines = text.split("rows: |\n")[1].split("\n")
    return [line.strip() for line in lines if line.startswith("  ")]


def same(read, drawn):
    """Whether one is the other with its letters changed; a narrow chart is drawn more than once, to show the join."""
    if read and len(read[0]) > len(drawn[0]):
        drawn = [line * (len(read[0]) // len(line)) for line in drawn]
    if [len(line) for line in read] != [len(line) for line in drawn]:
        return False
    pairs = set(zip("".join(read), "".join(drawn)))
    return len(pairs) == len({a for a, _ in pairs}) == len({b for _, b in pairs})


def main():
    yokeward, colour, black, lessons = sys.argv[1:5]
    lessons = pathlib.Path(lessons)
    right, faults = 0, []
    with tempfile.TemporaryDirectory() as folder:
        for folder_of, charts in ((colour, COLOUR), (black, BLACK)):
            for number, name in charts.items():
                pdf = next(pathlib.Path(folder_of).glob(f"lessons/{number}-*/handout.pdf"))
                for dots in (100, 200):
                    page = pathlib.Path(folder) / f"{len(faults) + right}"
                    subprocess.run(
                        ["pdftoppm", "-r", str(dots), "-png", "-f", "2", "-l", "2", "-singlefile", pdf, page], check=True
                    )
                    answer = subprocess.run(
                        [yokeward, "trace", "--json", f"{page}.png"], capture_output=True, text=True, check=False
                    )
                    read = json.loads(answer.stdout)["chart"].split("\n") if answer.returncode == 0 else []
                    if same(read, rows(lessons, name)):
                        right += 1
                    else:
                        faults.append(f"{pdf} at {dots}: {answer.stderr or read}")
    print("\n".join(faults))
    print(f"{right} of {right + len(faults)} printed charts read back cell by cell")
    # It can fail: a cell changed, a letter too many.
    assert not same(["ab", "ba"], ["xy", "xx"]) and not same(["ab"], ["xx"]) and same(["ab"], ["yx"])
    sys.exit(1 if faults else 0)


main()
