"""Charts measured on several machines: a recipe with dask.distributed, tried on workers of this one.

    python3 -m venv cluster && cluster/bin/pip install distributed==2026.3.0
    cluster/bin/python tests/bench/cluster.py target/release/yokeward [CHARTS]

`yokeward measure -` takes a chart a line and answers a line, so a cluster needs nothing of us but the program on each
machine: partitions of lines go through it, each answers with the hardest charts of its own, and those are put together.
Tried here: the answer is that of a single run whatever the number of workers, and a worker that is killed half-way costs
nothing but its partition's time.
"""

import json
import os
import random
import signal
import subprocess
import sys
import time

TOP = 20


def charts(count):
    """Lines of charts: random motifs of 8 to 24 stitches in two colours."""
    dice = random.Random(17)
    lines = []
    for number in range(count):
        wide, high = dice.randint(8, 24), dice.randint(6, 20)
        rows = "\n".join("".join(dice.choice("..x") for _ in range(wide)) for _ in range(high))
        lines.append(json.dumps({"id": f"chart-{number:06}", "rows": rows, "colours": {".": "ground", "x": "motif"}}))
    return lines


def hardest(program, lines):
    """The hardest charts of a partition: grade and id, the hardest first; of equal ones the first by id."""
    done = subprocess.run([program, "measure", "-"], input="\n".join(lines) + "\n", capture_output=True, text=True)
    if done.returncode not in (0, 1):
        raise RuntimeError(done.stderr)
    answers = [json.loads(line) for line in done.stdout.splitlines()]
    return top([(answer["grade"], answer["id"]) for answer in answers if "grade" in answer])


def top(graded):
    return sorted(graded, key=lambda one: (-one[0], one[1]))[:TOP]


def spread(program, lines, workers, kill=False):
    from distributed import Client, LocalCluster

    size = 250
    parts = [lines[at:at + size] for at in range(0, len(lines), size)]
    with LocalCluster(n_workers=workers, threads_per_worker=1, processes=True, dashboard_address=None, silence_logs=50) as cluster:
        with Client(cluster) as client:
            asked = client.map(hardest, [program] * len(parts), parts, retries=3)
            if kill:
                while not any(one.done() for one in asked):
                    time.sleep(0.01)
                pid = next(iter(client.run(os.getpid).values()))
                os.kill(pid, signal.SIGKILL)
            found = client.gather(asked)
    return top([one for part in found for one in part])


def main():
    program = os.path.abspath(sys.argv[1])
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 20000
    lines = charts(count)
    begun = time.monotonic()
    single = hardest(program, lines)
    print(f"{count} charts in one run: {time.monotonic() - begun:.2f} s, the hardest {single[0][1]} with {single[0][0]}")
    assert len(single) == TOP
    for workers in (1, 2, 3):
        begun = time.monotonic()
        assert spread(program, lines, workers) == single, workers
        print(f"{workers} workers: the same {TOP} charts, {time.monotonic() - begun:.2f} s with the cluster's start")
    begun = time.monotonic()
    assert spread(program, lines, 2, kill=True) == single
    print(f"2 workers, one killed half-way: the same {TOP} charts, {time.monotonic() - begun:.2f} s")


if __name__ == "__main__":
    main()
