"""A course of a hundred lessons packed here, and the same lessons as one document set by a general typesetter.

    python3 -m venv race && race/bin/pip install typst==0.15.2
    race/bin/python tests/bench/race.py target/release/yokeward [PAIRS]

Each lesson is a heading, three paragraphs, a table of five rows and one chart of 34 × 24 cells in three colours, with a
symbol in each cell that is not ground. The typesetter makes one tagged PDF of them. `pack` makes of each lesson its PDF,
its page for the screen, its Markdown and its drawings, and of all of them the course's PDF, the guide, the quiz and the
index; once with a template of those parts alone, and once with whole handouts. They run in turn; of each the processor
time, the time on the clock and the most memory, then the medians of the ratios of pairs.
"""

import os
import pathlib
import random
import resource
import statistics
import subprocess
import sys
import tempfile
import time

LESSONS, WIDE, HIGH = 100, 34, 24
COLOURS = [("ground", "Peat", "#3b2f2a"), ("foam", "Foam", "#f2ead8"), ("rust", "Rust", "#a5502f")]
WORDS = """the tide leaves a line of wrack and shells along the sand each morning and the knitters of the guild walk out to
see what colours it has brought before they cast on for another round of foam over slate with rust between them""".split()


def paragraph(dice):
    words = [dice.choice(WORDS) for _ in range(60)]
    return " ".join(words).capitalize() + "."


def lesson(number):
    dice = random.Random(number)
    # A motif mirrored across and upwards, two colours to a row, as charts are.
    half = []
    for _ in range(HIGH // 2):
        pair = dice.choice([".x", ".x", ".o"])
        row = "".join(pair[(i // dice.choice([1, 1, 2, 3])) % 2] for i in range(WIDE // 2))
        half.append(row + row[::-1])
    rows = half + half[::-1]
    table = [[f"Size {i + 1}", str(96 + 4 * i), f"{48 + 2 * i} cm", f"{20 + i} g"] for i in range(5)]
    return {"title": f"Shore lesson {number + 1}", "rows": rows, "text": [paragraph(dice) for _ in range(3)], "table": table}


ALL = [lesson(number) for number in range(LESSONS)]
HEADS = ["Size", "Stitches", "Girth", "Yarn"]

TEMPLATE = """# {{ title }}

```text
```

```charts
```
"""


def course(folder, own):
    (folder / "charts").mkdir(parents=True)
    (folder / "course.yaml").write_text("id: race\ntitle: A hundred lessons\nguild: Saltmarsh Guild\n")
    if own:
        (folder / "templates").mkdir()
        (folder / "templates/handout.md").write_text(TEMPLATE)
    for number, one in enumerate(ALL, 1):
        yarns = "".join(f'  {role}: {{ name: {name}, hex: "{ink}" }}\n' for role, name, ink in COLOURS)
        (folder / f"charts/chart-{number}.yaml").write_text(
            f"title: Chart {number}\nworked: flat\nrights: own\ncolours: {{ \".\": ground, \"x\": foam, \"o\": rust }}\nrows: |\n"
            + "".join(f"  {row}\n" for row in one["rows"]))
        table = ["| " + " | ".join(HEADS) + " |", "|---|---|---|---|"] + ["| " + " | ".join(row) + " |" for row in one["table"]]
        words = "\n\n".join([*one["text"], "\n".join(table)])
        text = "".join(f"  {line}\n" if line else "\n" for line in words.split("\n"))
        (folder / f"{number:03}-lesson-{number}.yaml").write_text(
            f"title: {one['title']}\nmakes: swatch\nworked: flat\n"
            "gauge: { colourwork: { stitches: 24, rows: 28 }, plain: { stitches: 24, rows: 32 } }\n"
            f"colours:\n{yarns}bands:\n  - chart: chart-{number}\ntext: |\n{text}")


def drawing(rows):
    """A chart as a picture: a path for the cells of each colour, one for the lines, one for each symbol."""
    inks = {".": "#3b2f2a", "x": "#f2ead8", "o": "#a5502f"}
    cells = {letter: "" for letter in inks}
    symbols = {"x": "", "o": ""}
    for y, row in enumerate(rows):
        for x, letter in enumerate(row):
            cells[letter] += f"M{x * 4} {y * 4}h4v4h-4z"
            if letter == "x":
                symbols["x"] += f"M{x * 4 + 1} {y * 4 + 1}l2 2m0 -2l-2 2"
            elif letter == "o":
                symbols["o"] += f"M{x * 4 + 1} {y * 4 + 2}a1 1 0 1 0 2 0a1 1 0 1 0 -2 0"
    lines = "".join(f"M{x * 4} 0v{HIGH * 4}" for x in range(WIDE + 1)) + "".join(f"M0 {y * 4}h{WIDE * 4}" for y in range(HIGH + 1))
    paths = "".join(f'<path fill="{inks[letter]}" d="{path}"/>' for letter, path in cells.items() if path)
    paths += f'<path fill="none" stroke="#777" stroke-width=".2" d="{lines}"/>'
    paths += "".join(f'<path fill="none" stroke="#111" stroke-width=".4" d="{path}"/>' for path in symbols.values() if path)
    return f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDE * 4} {HIGH * 4}">{paths}</svg>'


def document(path):
    """The same for the typesetter, each chart a drawing in paths, which it takes faster than cells placed one by one."""
    out = ['#set document(title: "A hundred lessons")\n#set page(paper: "a4", margin: 20mm)\n#set text(size: 10.5pt)\n']
    for number, one in enumerate(ALL, 1):
        (path.parent / f"chart-{number}.svg").write_text(drawing(one["rows"]))
        out.append(f"#pagebreak(weak: true)\n= {one['title']}\n\n")
        out += [text + "\n\n" for text in one["text"]]
        cells = ", ".join(f"[{cell}]" for row in [HEADS, *one["table"]] for cell in row)
        out.append(f"#table(columns: 4, {cells})\n")
        alt = f"A chart of {WIDE} stitches and {HIGH} rows"
        out.append(f'#image("chart-{number}.svg", width: {WIDE * 4}mm, alt: "{alt}")\n')
    path.write_text("".join(out))


def run(command):
    begun = time.monotonic()
    child = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    child.returncode = os.waitstatus_to_exitcode(status)
    if child.returncode != 0:
        sys.exit(f"{command} ended with {child.returncode}")
    return used.ru_utime + used.ru_stime, time.monotonic() - begun, used.ru_maxrss / 1000


def main():
    program = os.path.abspath(sys.argv[1])
    pairs = int(sys.argv[2]) if len(sys.argv) > 2 else 7
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        course(folder / "same", True)
        course(folder / "whole", False)
        document(folder / "race.typ")
        typeset = [sys.executable, "-c", "import sys, typst; typst.compile(sys.argv[1], output=sys.argv[2])",
                   str(folder / "race.typ"), str(folder / "race.pdf")]
        idle = statistics.median(run([sys.executable, "-c", "import typst"])[0] for _ in range(5))
        ours = {name: [program, "pack", str(folder / name), "--to", str(folder / "out" / name)] for name in ("same", "whole")}
        print(f"{'':34}{'processor':>12}{'clock':>10}{'memory':>10}")
        ratios = {name: [] for name in ours}
        for pair in range(pairs + 1):
            theirs = run(typeset)
            theirs = (theirs[0] - idle, *theirs[1:])
            for name, command in ours.items():
                mine = run(command)
                if pair:
                    ratios[name].append([a / b for a, b in zip(mine, theirs)])
                    print(f"pack, {name + ' parts' if name == 'same' else name + ' handouts':28}{mine[0]:10.2f} s{mine[1]:8.2f} s{mine[2]:7.0f} MB")
            if pair:
                print(f"{'typst, one PDF':34}{theirs[0]:10.2f} s{theirs[1]:8.2f} s{theirs[2]:7.0f} MB")
        for name, all_of in ratios.items():
            medians = [statistics.median(column) for column in zip(*all_of)]
            print(f"{name}: median of {pairs} pairs, pack to typst: processor {medians[0]:.2f}, clock {medians[1]:.2f}, memory {medians[2]:.2f}")
        files = sum(1 for path in (folder / "out").rglob("*") if path.is_file())
        size = sum(path.stat().st_size for path in (folder / "out").rglob("*") if path.is_file())
        print(f"written: {files} files, {size / 1e6:.1f} MB; the typesetter's PDF: {(folder / 'race.pdf').stat().st_size / 1e6:.1f} MB")


main()
