#!/usr/bin/env python3
"""Solves the parts of parts.py with second-order tetrahedra in CalculiX at three refinements and writes
reference_solids.json and one STEP file per part. Needs gmsh's Python module, ccx and numpy; only to regenerate.

usage: make_reference.py [--most=UNKNOWNS] [part ...]
"""
import json
import math
import os
import subprocess
import sys
import tempfile
import time

import gmsh
import numpy

import parts as catalogue

HERE = os.path.dirname(os.path.abspath(__file__))
MOST_UNKNOWNS = 330000
PER_TURN = 14


def inside(low, high, box):
    return all(low[k] >= box[0][k] - 1e-6 and high[k] <= box[1][k] + 1e-6 for k in range(3))


def lies_on(tag, place):
    nearest, parameters = gmsh.model.getClosestPoint(2, tag, place["point"])
    if numpy.linalg.norm(numpy.subtract(nearest, place["point"])) > 1e-3:
        return False
    return abs(numpy.dot(gmsh.model.getNormal(tag, parameters), place["normal"])) > 0.99


def surfaces_in(places, outer):
    found = []
    for _, tag in gmsh.model.getEntities(2):
        if tag not in outer:
            continue
        b = gmsh.model.getBoundingBox(2, tag)
        low, high = [v + 1e-6 for v in b[:3]], [v - 1e-6 for v in b[3:]]
        if any(lies_on(tag, p) if isinstance(p, dict) else inside(low, high, p) for p in places):
            found.append(tag)
    return found


def refine_at_edges(boxes, size):
    """A quarter of the size along the edges inside the boxes, where stress is singular and answers converge slowly."""
    edges = []
    for _, tag in gmsh.model.getEntities(1):
        b = gmsh.model.getBoundingBox(1, tag)
        if any(inside([v + 1e-6 for v in b[:3]], [v - 1e-6 for v in b[3:]], box) for box in boxes):
            edges.append(tag)
    field = gmsh.model.mesh.field
    distance, grown = field.add("Distance"), field.add("Threshold")
    field.setNumbers(distance, "CurvesList", edges)
    field.setNumber(distance, "NumPointsPerCurve", 200)
    for name, value in (("InField", distance), ("SizeMin", size / 4), ("SizeMax", size), ("DistMin", size / 4),
                        ("DistMax", 1.5 * size)):
        field.setNumber(grown, name, value)
    field.setAsBackgroundMesh(grown)


def triangles_of(surfaces):
    nodes = []
    for tag in surfaces:
        kinds, _, node_tags = gmsh.model.mesh.getElements(2, tag)
        for kind, tags in zip(kinds, node_tags):
            if kind == 9:
                nodes.append(numpy.array(tags, dtype=int).reshape(-1, 6))
    return numpy.vstack(nodes)


# Six points exact to degree 4 (Dunavant, Int. J. Numer. Methods Eng. 21 (1985) 1129-1148, from memory).
RULE = [(a, b, 1 - a - b, w / 2) for A, w in ((0.445948490915965, 0.223381589678011), (0.091576213509771, 0.109951743655322))
        for a, b in ((A, A), (A, 1 - 2 * A), (1 - 2 * A, A))]


def surface_weights(triangles, place):
    """Per node the integral of its shape function over the curved facets; their sum is the area."""
    weights = {}
    for t in triangles:
        x = numpy.array([place[n] for n in t])
        for l1, l2, l3, w in RULE:
            n = numpy.array([l1 * (2 * l1 - 1), l2 * (2 * l2 - 1), l3 * (2 * l3 - 1), 4 * l1 * l2, 4 * l2 * l3, 4 * l3 * l1])
            d1 = numpy.array([4 * l1 - 1, 0, -(4 * l3 - 1), 4 * l2, -4 * l2, 4 * (l3 - l1)])
            d2 = numpy.array([0, 4 * l2 - 1, -(4 * l3 - 1), 4 * l1, 4 * (l3 - l2), -4 * l1])
            area = numpy.linalg.norm(numpy.cross(d1 @ x, d2 @ x)) * w
            for node, value in zip(t, n):
                weights[node] = weights.get(node, 0.0) + area * value
    return weights


def engineering_constants(part):
    e, nu, a, g = part["young"], part["poisson"], part["across_young"], part["across_shear"]
    return [e, e, a, nu, part["poisson_in_to_across"], part["poisson_in_to_across"], e / (2 * (1 + nu)), g, g]


def write_input(path, part, place, elements, held, force, measured):
    with open(path, "w") as f:
        f.write("*NODE, NSET=ALL\n")
        for n, x in place.items():
            f.write("%d, %.10g, %.10g, %.10g\n" % (n, *x))
        number = 0
        for name, tets in elements.items():
            f.write("*ELEMENT, TYPE=C3D10, ELSET=%s\n" % name)
            for t in tets:
                number += 1
                f.write("%d, %s\n" % (number, ", ".join(str(n) for n in t[[0, 1, 2, 3, 4, 5, 6, 7, 9, 8]])))
        f.write("*MATERIAL, NAME=MSHELL\n")
        if "axis" in part:
            f.write("*ELASTIC, TYPE=ENGINEERING CONSTANTS\n%s\n%s\n" % (
                ", ".join("%.10g" % v for v in engineering_constants(part)[:8]),
                "%.10g, 293." % engineering_constants(part)[8]))
            axis = numpy.array(part["axis"]) / numpy.linalg.norm(part["axis"])
            first = numpy.cross([0, 1, 0], axis)
            second = numpy.cross(axis, first)
            f.write("*ORIENTATION, NAME=LAYERS\n%s\n" % ", ".join("%.10g" % v for v in (*first, *second)))
        else:
            f.write("*ELASTIC\n%.10g, %.10g\n" % (part["young"], part["poisson"]))
        f.write("*SOLID SECTION, ELSET=SHELL, MATERIAL=MSHELL%s\n" % (", ORIENTATION=LAYERS" if "axis" in part else ""))
        if "CORE" in elements:
            f.write("*MATERIAL, NAME=MCORE\n*ELASTIC\n%.10g, %.10g\n*SOLID SECTION, ELSET=CORE, MATERIAL=MCORE\n" %
                    (part["core_young"], part["poisson"]))
        f.write("*NSET, NSET=HELD\n" + "".join("%d,\n" % n for n in held))
        f.write("*NSET, NSET=MEASURED\n" + "".join("%d,\n" % n for n in measured))
        f.write("*STEP\n*STATIC, SOLVER=SPOOLES\n*BOUNDARY\nHELD, 1, 3\n*CLOAD\n")
        for n, v in force.items():
            for k in range(3):
                if v[k] != 0:
                    f.write("%d, %d, %.12g\n" % (n, k + 1, v[k]))
        f.write("*NODE PRINT, NSET=MEASURED\nU\n*END STEP\n")


def solved(part, size, folder, threads=1, per_turn=PER_TURN):
    """One refinement, with so many elements to a full turn of a round: (unknowns, deflection along the force, seconds to
    mesh, seconds to solve)."""
    started = time.time()
    gmsh.option.setNumber("Mesh.MeshSizeMax", size)
    gmsh.option.setNumber("Mesh.MeshSizeMin", size / 6)
    gmsh.option.setNumber("Mesh.MeshSizeFromCurvature", per_turn)
    gmsh.option.setNumber("Mesh.ElementOrder", 2)
    gmsh.option.setNumber("Mesh.HighOrderOptimize", 1)
    gmsh.option.setNumber("General.NumThreads", threads)
    if "fine_edges" in part:
        refine_at_edges(part["fine_edges"], size)
    gmsh.model.mesh.clear()
    gmsh.model.mesh.generate(3)
    meshed = time.time() - started
    tags, coordinates, _ = gmsh.model.mesh.getNodes()
    volumes = [t for _, t in gmsh.model.getEntities(3)]
    elements, used = {"SHELL": []}, set()
    for v in volumes:
        b = gmsh.model.getBoundingBox(3, v)
        is_core = "core" in part and inside([x + 1e-6 for x in b[:3]], [x - 1e-6 for x in b[3:]], part["core"])
        kinds, _, nodes = gmsh.model.mesh.getElements(3, v)
        for kind, n in zip(kinds, nodes):
            assert kind == 11
            elements.setdefault("CORE" if is_core else "SHELL", []).append(numpy.array(n, dtype=int).reshape(-1, 10))
    elements = {k: numpy.vstack(v) for k, v in elements.items() if v}
    for tets in elements.values():
        used.update(tets.ravel().tolist())
    place = {int(t): coordinates[3 * i:3 * i + 3] for i, t in enumerate(tags) if int(t) in used}
    outer = {abs(t) for _, t in gmsh.model.getBoundary([(3, v) for v in volumes], combined=True, oriented=False)}
    held = sorted(set(triangles_of(surfaces_in(part["held"], outer)).ravel().tolist()))
    loaded = surface_weights(triangles_of(surfaces_in(part["loaded"], outer)), place)
    measured = surface_weights(triangles_of(surfaces_in(part["measured"], outer)), place)
    area = sum(loaded.values())
    force = {n: [w / area * f for f in part["force"]] for n, w in loaded.items()}
    job = os.path.join(folder, "job")
    write_input(job + ".inp", part, place, elements, held, force, measured)
    started = time.time()
    subprocess.run(["ccx", "job"], cwd=folder, check=True, stdout=subprocess.DEVNULL,
                   env=dict(os.environ, OMP_NUM_THREADS=str(threads), CCX_NPROC_EQUATION_SOLVER=str(threads)))
    took = time.time() - started
    direction = numpy.array(part["force"]) / numpy.linalg.norm(part["force"])
    total = weight = 0.0
    for line in open(job + ".dat"):
        words = line.split()
        if len(words) == 4 and words[0].isdigit():
            w = measured[int(words[0])]
            total += w * float(numpy.dot([float(x) for x in words[1:]], direction))
            weight += w
    assert abs(weight - sum(measured.values())) < 1e-6 * weight
    return 3 * (len(place) - len(held)), total / weight, meshed, took


def volume_size():
    gmsh.model.occ.synchronize()
    low, high = gmsh.model.getBoundingBox(-1, -1)[:3], gmsh.model.getBoundingBox(-1, -1)[3:]
    mass = sum(gmsh.model.occ.getMass(3, t) for _, t in gmsh.model.getEntities(3))
    return mass, max(h - l for l, h in zip(low, high))


def extrapolated(runs):
    """Aitken on the last three, where they settle: half of what it adds is uncertain, and a quarter of the last step at
    least, or all of it where they settle faster than the mesh is refined. Else the finest, uncertain by its last step."""
    (n1, u1, *_), (n2, u2, *_), (n3, u3, *_) = runs[-3:]
    d1, d2 = u2 - u1, u3 - u2
    if d1 != 0 and 0 < d2 / d1 < 0.8:
        value = u3 + d2 * (d2 / d1) / (1 - d2 / d1)
        uncertainty = max(abs(value - u3) * 0.5, abs(d2) * (0.25 if d2 / d1 > 0.3 else 1))
    else:
        value, uncertainty = u3, abs(d2)
    return value, 100 * uncertainty / abs(value)


def write_outer_body(make, part):
    """A printed part's solid without its core: the volumes joined again, in a model of its own."""
    gmsh.model.add(make.__name__ + "_outer")
    make()
    volumes = catalogue.occ.getEntities(3)
    catalogue.occ.fuse(volumes[:1], volumes[1:])
    catalogue.occ.synchronize()
    gmsh.write(os.path.join(HERE, make.__name__ + ".step"))
    gmsh.model.remove()
    gmsh.model.setCurrent(make.__name__)


def size_of(run):
    return dict(size_mm=round(run[4], 4), per_turn=run[5], unknowns=run[0])


def seconds_of(run):
    return dict(mesh_s=round(run[2], 2), solve_s=round(run[3], 2))


def reference(make, most_unknowns):
    gmsh.model.add(make.__name__)
    part = make()
    mass, longest = volume_size()
    if "core" not in part:
        gmsh.write(os.path.join(HERE, make.__name__ + ".step"))
    else:
        write_outer_body(make, part)
    runs = []
    size = part["sizes"][0] if "sizes" in part else longest / 6
    with tempfile.TemporaryDirectory() as folder:
        while len(runs) < 7:
            per_turn = round(PER_TURN * part["sizes"][0] / size) if part.get("refines_rounds") else PER_TURN
            run = solved(part, size, folder, per_turn=per_turn) + (size, per_turn)
            runs.append(run)
            print("  %-16s size %6.2f  unknowns %7d  %.6g mm  mesh %.1f s  solve %.1f s" %
                  (make.__name__, size, run[0], run[1], run[2], run[3]), flush=True)
            if "sizes" in part:
                if len(runs) == len(part["sizes"]):
                    break
                size = part["sizes"][len(runs)]
                continue
            shrink = 1.5
            if run[0] * shrink ** 3 > most_unknowns:
                if len(runs) >= 3 or run[0] > 0.6 * most_unknowns:
                    break
                shrink = (most_unknowns / run[0]) ** (1 / 3)
            size /= shrink
    value, uncertainty = extrapolated(runs)
    gmsh.model.remove()
    coarsest = next(r for r in runs if abs(r[1] / value - 1) < 0.02)
    keys = ("fine_edges", "force", "held", "loaded", "measured", "young", "poisson", "axis", "across_young", "across_shear",
            "poisson_in_to_across", "core", "core_young", "wall", "skin")
    return dict({k: part[k] for k in keys if k in part}, name=make.__name__, volume_mm3=mass, deflection_mm=value,
                uncertainty_percent=uncertainty,
                runs=[dict(size_of(r), deflection_mm=r[1], **seconds_of(r)) for r in runs],
                coarsest_within_2_percent=dict(size_of(coarsest), **seconds_of(coarsest)))


def main():
    wanted = [a for a in sys.argv[1:] if not a.startswith("--most=")]
    most_unknowns = next((int(a[7:]) for a in sys.argv[1:] if a.startswith("--most=")), MOST_UNKNOWNS)
    target = os.path.join(HERE, "reference_solids.json")
    known = {}
    if os.path.exists(target):
        known = {p["name"]: p for p in json.load(open(target))["parts"]}
    gmsh.initialize()
    gmsh.option.setNumber("General.Terminal", 0)
    for make in catalogue.PARTS:
        if wanted and make.__name__ not in wanted:
            continue
        known[make.__name__] = reference(make, most_unknowns)
        p = known[make.__name__]
        print("%-16s %.6g mm, uncertain by %.2f %%" % (p["name"], p["deflection_mm"], p["uncertainty_percent"]), flush=True)
        document = dict(source="gmsh and CalculiX, second-order tetrahedra; see make_reference.py",
                        parts=[known[m.__name__] for m in catalogue.PARTS if m.__name__ in known])
        with open(target, "w") as f:
            json.dump(document, f, indent=1)
            f.write("\n")


if __name__ == "__main__":
    main()
