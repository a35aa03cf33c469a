#!/usr/bin/env python3
"""Plants bugs by the hundred: draws a random sample of the mutants that cargo-mutants lists (crates.io: `cargo install
cargo-mutants`), equally over the rooms that measure, size and print, plants each in a clone, runs the tests, and counts
what was caught.

    python3 tests/bench/mutants.py --number 150 --seed 1 [--all-tests] [--clone FOLDER]

Without --all-tests the slowest tests (every variant of every page, kills, structure of all PDFs) are left out, so the
share that is caught is at least what is printed. Takes half a minute to a minute a mutant.
"""
import argparse
import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile

ROOMS = ["ground", "course", "rows", "piece", "words", "report", "picture", "handout", "page"]
SLOW = [
    "frames::every_page_keeps_its_margins_in_every_variant",
    "packs::a_killed_run_leaves_a_whole_set",
    "tagged::",
    "prints::charts_that_are_not_ours",
    "prints::pages_are_at_least",
    "circles::",
    "tidy::",
]


def room(path):
    return pathlib.PurePath(path).parts[1].removesuffix(".rs")


def planted(text, span, replacement):
    """The text with the span (lines and columns from 1) replaced."""
    lines = text.splitlines(keepends=True)

    def offset(place):
        return sum(map(len, lines[: place["line"] - 1])) + place["column"] - 1

    return text[: offset(span["start"])] + replacement + text[offset(span["end"]) :]


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--number", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--clone")
    parser.add_argument("--all-tests", action="store_true")
    options = parser.parse_args()
    files = [f"--file=src/{name}/**/*.rs" for name in ROOMS]
    listed = subprocess.run(["cargo", "mutants", "--list", "--json", *files], capture_output=True, text=True, check=True)
    by_room = {}
    for mutant in json.loads(listed.stdout):
        by_room.setdefault(room(mutant["file"]), []).append(mutant)
    draw = random.Random(options.seed)
    sample = []
    for name in sorted(by_room):
        share = min(len(by_room[name]), -(-options.number // len(by_room)))
        sample += draw.sample(sorted(by_room[name], key=lambda m: m["name"]), share)
    sample = sample[: options.number]
    print(f"{sum(map(len, by_room.values()))} mutants in {len(by_room)} rooms, {len(sample)} drawn", flush=True)
    clone = options.clone or tempfile.mkdtemp(prefix="mutants-")
    if not (pathlib.Path(clone) / "Cargo.toml").exists():
        subprocess.run(["git", "clone", "--quiet", ".", clone], check=True)
    skip = [] if options.all_tests else [word for test in SLOW for word in ("--skip", test)]
    test = ["cargo", "test", "--quiet", "--lib", "--test", "suite", "--", *skip]
    quiet = {"cwd": clone, "capture_output": True, "text": True, "env": dict(os.environ, RUST_BACKTRACE="0")}
    if subprocess.run(test, **quiet).returncode != 0:
        sys.exit("the tests fail before anything is planted")
    table, missed = {}, []
    for mutant in sample:
        path = pathlib.Path(clone) / mutant["file"]
        whole = path.read_text()
        path.write_text(planted(whole, mutant["span"], mutant["replacement"]))
        if subprocess.run(["cargo", "build", "--quiet"], **quiet).returncode != 0:
            kind = "unviable"
        else:
            try:
                kind = "missed" if subprocess.run(test, timeout=300, **quiet).returncode == 0 else "caught"
            except subprocess.TimeoutExpired:
                kind = "caught"
        path.write_text(whole)
        row = table.setdefault(room(mutant["file"]), {"caught": 0, "missed": 0, "unviable": 0})
        row[kind] += 1
        print(f"{kind:8} {mutant['name']}", flush=True)
        if kind == "missed":
            missed.append(mutant["name"])
    caught = sum(row["caught"] for row in table.values())
    viable = caught + sum(row["missed"] for row in table.values())
    for name in sorted(table):
        print(f"{name:10}", table[name])
    print(f"caught {caught} of {viable} viable: {100 * caught / max(1, viable):.0f} %")
    print("\n".join(missed))
    return 0


sys.exit(main())
