#!/usr/bin/env python3
"""The solver and a general-purpose peer (gmsh's tets in CalculiX) side by side in one run, from STEP file to answer.

usage: side_by_side.py PROGRAM [--rounds=N] [part ...]
  PROGRAM  waybench_reference_measurements as built; `ninja waybench_side_by_side` fills it in

Every part of tests/checks/reference_solids is answered in turn by the solver (standard), by the peer and by the solver's
draft, on the same cores in the same minutes, `rounds` times over; the least time of each counts. The peer gets the
coarsest mesh of its series within 2 % of the reference, and two threads. Both are timed as run from a command line: the
solver by the whole life of its process, the peer by the start of gmsh's program, reading, meshing and solving; what this
script does between its two programs is left out, in the peer's favour.
Printed parts go to the peer as two bodies, shell and core, and to the solver as the outer body. The peer needs Debian's
gmsh python3-gmsh calculix-ccx python3-numpy; without them the solver's half is printed alone.
"""
import contextlib
import json
import os
import statistics
import subprocess
import sys
import tempfile
import time

REFERENCES = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "checks", "reference_solids")
sys.path.insert(0, REFERENCES)
sys.dont_write_bytecode = True
try:
    import gmsh
    import make_reference
    import parts as catalogue
    for program in ("ccx", "gmsh"):
        subprocess.run([program, "-version"], stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
    PEER_MISSING = None
except (ImportError, OSError) as missing:
    PEER_MISSING = str(missing)


def ours(program, name, fidelity):
    started = time.time()
    answered = subprocess.run([program, "--figures", name, fidelity], check=True, stdout=subprocess.PIPE)
    took = time.time() - started
    return dict(json.loads(answered.stdout), seconds=took)


def start_of_peer():
    started = time.time()
    subprocess.run(["gmsh", "-version"], check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    return time.time() - started


@contextlib.contextmanager
def silenced():
    """The kernel's STEP writer talks to standard output whatever gmsh is told."""
    sys.stdout.flush()
    kept, nowhere = os.dup(1), os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, 1)
    try:
        yield
    finally:
        os.dup2(kept, 1)
        os.close(kept)
        os.close(nowhere)


def file_for_peer(entry, folder):
    """The STEP file the solver reads; of a printed part one with both bodies."""
    if "core_young" not in entry:
        return os.path.join(REFERENCES, entry["name"] + ".step")
    path = os.path.join(folder, entry["name"] + ".step")
    gmsh.clear()
    getattr(catalogue, entry["name"])()
    gmsh.model.occ.synchronize()
    with silenced():
        gmsh.write(path)
    return path


def peer(entry, file, mesh, folder):
    """Seconds, error in percent, unknowns."""
    start = start_of_peer()
    gmsh.clear()
    started = time.time()
    bodies = gmsh.model.occ.importShapes(file)
    if len(bodies) > 1:
        gmsh.model.occ.fragment(bodies[:1], bodies[1:])
    gmsh.model.occ.synchronize()
    read = time.time() - started
    unknowns, deflection, meshed, took = make_reference.solved(entry, mesh["size_mm"], folder, 2, mesh["per_turn"])
    return start + read + meshed + took, 100 * (deflection / entry["deflection_mm"] - 1), unknowns


def meshes_for_peer(entry):
    """From the coarsest mesh of its series within 2 % on; the finer ones in case it is not in this run."""
    return [run for run in entry["runs"] if run["size_mm"] <= entry["coarsest_within_2_percent"]["size_mm"]]


def measured(program, entry, rounds, folder):
    """Figures of standard, draft and peer (None without it), each with the least seconds of its rounds."""
    standard = draft = other = None
    if not PEER_MISSING:
        file = file_for_peer(entry, folder)
        meshes = meshes_for_peer(entry)

    def quicker(old, new, seconds):
        return new if old is None or seconds(new) < seconds(old) else old

    for _ in range(rounds):
        standard = quicker(standard, ours(program, entry["name"], "standard"), lambda f: f["seconds"])
        if not PEER_MISSING:
            now = peer(entry, file, meshes[0], folder)
            while abs(now[1]) > 2 and len(meshes) > 1:
                meshes.pop(0)
                now = peer(entry, file, meshes[0], folder)
            other = quicker(other, now, lambda f: f[0])
        draft = quicker(draft, ours(program, entry["name"], "draft"), lambda f: f["seconds"])
    return standard, draft, other


def print_row(name, standard, draft, other):
    def figures(f):
        return "%+6.2f %% %5.1f %%%s %8d %3d %7.2f" % (f["error_percent"], f["band_percent"], " " if f["band_holds"]
                                                      else "!", f["unknowns"], f["iterations"], f["seconds"])
    if other:
        last = "%+6.2f %% %8d %7.2f | %6.1f %6.1f" % (other[1], other[2], other[0], other[0] / standard["seconds"],
                                                     other[0] / draft["seconds"])
    else:
        last = "%8s %8s %7s | %6s %6s" % ("-", "-", "-", "-", "-")
    print("%-16s %s | %s | %s" % (name, figures(standard), figures(draft), last), flush=True)


def main():
    program, rounds, wanted = None, 3, []
    for argument in sys.argv[1:]:
        if argument.startswith("--rounds="):
            rounds = max(1, int(argument[9:]))
        elif program is None:
            program = argument
        else:
            wanted.append(argument)
    if program is None:
        sys.exit(__doc__)
    entries = [e for e in json.load(open(os.path.join(REFERENCES, "reference_solids.json")))["parts"]
               if not wanted or e["name"] in wanted]
    if not entries:
        sys.exit("no such part")
    if PEER_MISSING:
        print("The peer is missing (%s): the solver alone. Debian: gmsh python3-gmsh calculix-ccx python3-numpy" %
              PEER_MISSING)
    else:
        gmsh.initialize()
        gmsh.option.setNumber("General.Terminal", 0)
    answer = "%8s %7s  %8s %3s %7s" % ("error", "band", "unknowns", "it", "s")
    print("%-16s %-38s | %-38s | %-26s | %s" % ("", "standard", "draft", "peer", "peer / ours"))
    print("%-16s %s | %s | %8s %8s %7s | %6s %6s" % ("part", answer, answer, "error", "unknowns", "s", "stand.", "draft"))
    rows = []
    with tempfile.TemporaryDirectory() as folder:
        for entry in entries:
            rows.append(measured(program, entry, rounds, folder))
            print_row(entry["name"], *rows[-1])
    errors = sorted(abs(s["error_percent"]) for s, _, _ in rows)
    print("error: median %.2f %%, worst %.2f %%; drafts: median %.2f %%, worst %.2f %%" % (
        statistics.median(errors), errors[-1], statistics.median(abs(d["error_percent"]) for _, d, _ in rows),
        max(abs(d["error_percent"]) for _, d, _ in rows)))
    print("bands that hold the reference (! marks those that do not): %d of %d" % (
        sum(s["band_holds"] + d["band_holds"] for s, d, _ in rows), 2 * len(rows)))
    if not PEER_MISSING:
        for k, what in enumerate(("standard", "draft")):
            ratios = sorted(row[2][0] / row[k]["seconds"] for row in rows)
            print("peer's time over that of the %s: median %.1f, least %.1f" % (what, statistics.median(ratios), ratios[0]))


if __name__ == "__main__":
    main()
