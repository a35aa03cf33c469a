"""How time and memory grow: `python3 tests/bench/growth.py target/release/yokeward lessons`. Prints a table.

Each size is run three times, once where it takes more than ten seconds, and the quickest counts; memory is the most that the program held.
"""

import json
import os
import pathlib
import random
import re
import sys
import tempfile
import time

PROGRAM, DEMO = os.path.abspath(sys.argv[1]), pathlib.Path(sys.argv[2]).resolve()


def run(arguments, folder, piped=None):
    best = None
    for _ in range(3):
        if best and best[1] > 10:
            break
        begun = time.monotonic()
        child = os.fork()
        if child == 0:
            os.chdir(folder)
            null = os.open(os.devnull, os.O_RDWR)
            os.dup2(os.open(piped, os.O_RDONLY) if piped else null, 0)
            os.dup2(null, 1)
            os.dup2(null, 2)
            os.execv(PROGRAM, [PROGRAM, *arguments])
        _, status, used = os.wait4(child, 0)
        seconds, code = time.monotonic() - begun, os.waitstatus_to_exitcode(status)
        if code not in (0, 1):
            sys.exit(f"{arguments} ended with {code}")
        here = (used.ru_utime + used.ru_stime, seconds, used.ru_maxrss / 1000)
        best = min(best or here, here)
    return best


def row(what, count, unit, outcome):
    processor, seconds, memory = outcome
    print(f"| {what} | {count:,} | {processor:.2f} s | {seconds:.2f} s | {memory:.0f} MB | {1e6 * processor / count:,.1f} µs a {unit} |", flush=True)


def course(folder, lessons):
    """The demo course over and over."""
    (folder / "charts").mkdir(parents=True)
    for chart in sorted((DEMO / "charts").glob("*.yaml")):
        (folder / "charts" / chart.name).write_bytes(chart.read_bytes())
    (folder / "course.yaml").write_bytes((DEMO / "course.yaml").read_bytes())
    sources = sorted(DEMO.glob("[0-9]*.yaml"))
    for number in range(lessons):
        source, turn = sources[number % len(sources)], number // len(sources)
        text, name = source.read_text(), source.stem[3:]
        if turn:
            text = re.sub(r"(?m)^(title: .*?)\s*$", rf"\g<1> {turn}", text)
            name = f"{name}-{turn}"
        (folder / f"{number + 1:04}-{name}.yaml").write_text(text)


def chart(wide, high, seed=1):
    dice = random.Random(seed)
    rows = "".join("  " + "".join(dice.choice("..x") for _ in range(wide)) + "\n" for _ in range(high))
    return f'title: Chart\nrights: own\ncolours: {{ ".": ground, "x": motif }}\nrows: |\n{rows}'


LESSON = """title: Lesson
makes: {makes}
gauge: {{ colourwork: {{ stitches: 24, rows: 28 }}, plain: {{ stitches: 24, rows: 32 }} }}
colours:
  ground: {{ name: Peat, hex: "#3b2f2a" }}
  motif: {{ name: Fleece, hex: "#f2ead8" }}
{more}bands:
  - chart: {chart}
"""


def main():
    print("| what | how many | processor | clock | memory | of it |\n|---|---|---|---|---|---|")
    with tempfile.TemporaryDirectory() as place:
        place = pathlib.Path(place)
        for count in (10, 100, 1000):
            course(place / f"course-{count}", count)
            row("pack, lessons of the demo course", count, "lesson", run(["pack", f"course-{count}", "--to", "out"], place))
        for side in (125, 250, 500):
            folder = place / f"chart-{side}"
            (folder / "charts").mkdir(parents=True)
            (folder / "course.yaml").write_text("title: T\n")
            (folder / "charts/c.yaml").write_text(chart(side, side))
            (folder / "01-l.yaml").write_text(LESSON.format(makes="swatch", more="", chart="c"))
            row("pack, a chart of so many cells", side * side, "cell", run(["pack", folder.name, "--to", "out"], place))
        for count in (10, 20, 40):
            folder = place / f"sizes-{count}"
            (folder / "charts").mkdir(parents=True)
            bodies = "".join(f"  s{i}: {{ head: {45 + i * 0.4:.1f} cm }}\n" for i in range(count))
            (folder / "course.yaml").write_text(f"title: T\nbodies:\n{bodies}")
            (folder / "charts/c.yaml").write_text(chart(8, 12))
            sizes = ", ".join(f"s{i}" for i in range(count))
            (folder / "01-l.yaml").write_text(LESSON.format(makes="hat", more=f"sizes: [{sizes}]\n", chart="c"))
            row("pack, a hat in so many sizes", count, "size", run(["pack", folder.name, "--to", "out"], place))
        for count in (5000, 10000, 20000):
            folder = place / f"library-{count}"
            (folder / "charts").mkdir(parents=True)
            (folder / "course.yaml").write_text("title: T\n")
            for i in range(count):
                (folder / f"charts/c{i}.yaml").write_text(chart(8 + i % 17, 6 + i % 13, i))
            (folder / "log.yaml.log").write_text("learner: Wren\ndone:\n  - { made: c0, went: right }\n")
            row("next, a library of charts", count, "chart", run(["next", folder.name, "--log", "library-%d/log.yaml.log" % count], place))
            for i in range(0, count, 20):
                (folder / f"{i:05}-l{i}.yaml").write_text(LESSON.format(makes="swatch", more="", chart=f"c{i}"))
            row("route, a library of lessons", count // 20, "lesson", run(["route", folder.name, "--to", f"l{count - 20}"], place))
        for count in (500, 1000, 2000):
            folder = place / f"needs-{count}"
            (folder / "charts").mkdir(parents=True)
            (folder / "course.yaml").write_text("title: T\n")
            (folder / "charts/c.yaml").write_text(chart(8, 8))
            for i in range(count):
                need = f"needs: [l{i - 1}]\n" if i else ""
                (folder / f"{i:04}-l{i}.yaml").write_text(LESSON.format(makes="swatch", more=need, chart="c"))
            row("order, a chain of needs", count, "lesson", run(["order", folder.name], place))
        dice = random.Random(3)
        for high in (30, 60, 120):
            lines = place / "lines"
            with lines.open("w") as out:
                for i in range(4000):
                    rows = "\n".join("".join(dice.choice(".x") for _ in range(96)) for _ in range(high))
                    out.write(json.dumps({"id": f"c{i}", "rows": rows, "colours": {".": "ground", "x": "motif"}}) + "\n")
            row(f"measure -, 4,000 charts of 96 × {high}, cells", 4000 * 96 * high, "cell", run(["measure", "-"], place, str(lines)))
        for count in (30000, 60000):
            with lines.open("w") as out:
                for i in range(count):
                    rows = "\n".join("".join(dice.choice(".x") for _ in range(24)) for _ in range(40))
                    out.write(json.dumps({"id": f"c{i}", "rows": rows, "colours": {".": "ground", "x": "motif"}}) + "\n")
            row("measure -, charts of 24 × 40", count, "chart", run(["measure", "-"], place, str(lines)))


main()
