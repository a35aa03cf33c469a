#!/usr/bin/env python3
"""Plants bugs by the hundred: draws a random sample of the mutants of cargo-mutants (crates.io: `cargo install
cargo-mutants`), equally over the rooms that measure, size and print, runs the tests on each, and counts what was caught.

    python3 tests/bench/mutants.py --number 150 --seed 1 [--jobs 2] [--all-tests]

Without --all-tests the slowest tests (every variant of every page, kills, structure of all PDFs) are left out, so the
share that is caught is at least what is printed. Takes about half a minute a mutant and core.
"""
import argparse
import json
import pathlib
import random
import re
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


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--number", type=int, default=150)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--jobs", type=int, default=2)
    parser.add_argument("--all-tests", action="store_true")
    options = parser.parse_args()
    files = [f"--file=src/{name}/**/*.rs" for name in ROOMS]
    listed = subprocess.run(["cargo", "mutants", "--list", "--json", *files], capture_output=True, text=True, check=True)
    by_room = {}
    for mutant in json.loads(listed.stdout):
        by_room.setdefault(room(mutant["file"]), []).append(mutant["name"])
    draw = random.Random(options.seed)
    sample = []
    for name in sorted(by_room):
        share = min(len(by_room[name]), -(-options.number // len(by_room)))
        sample += draw.sample(sorted(by_room[name]), share)
    sample = sample[: options.number]
    print(f"{sum(map(len, by_room.values()))} mutants in {len(by_room)} rooms, {len(sample)} drawn", flush=True)
    out = tempfile.mkdtemp(prefix="mutants-")
    skip = [] if options.all_tests else [word for test in SLOW for word in ("--skip", test)]
    patterns = [f"--re=^{re.escape(name)}$" for name in sample]
    run = ["cargo", "mutants", *files, *patterns, f"--jobs={options.jobs}", f"--output={out}", "--no-shuffle",
           "--timeout=120", "--colors=never", "--", "--lib", "--test", "suite", "--", *skip]
    subprocess.run(run, check=False)
    outcomes = json.loads((pathlib.Path(out) / "mutants.out/outcomes.json").read_text())["outcomes"]
    table, missed = {}, []
    for outcome in outcomes:
        mutant = outcome["scenario"].get("Mutant") if isinstance(outcome["scenario"], dict) else None
        if mutant is None:
            continue
        row = table.setdefault(room(mutant["file"]), {"caught": 0, "missed": 0, "unviable": 0})
        kind = {"CaughtMutant": "caught", "Timeout": "caught", "MissedMutant": "missed"}.get(outcome["summary"], "unviable")
        row[kind] += 1
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
