"""Fixture-like parts of our own invention, built with gmsh's kernel. All sizes are invented.

A part is a function that builds its solids in the current gmsh model and returns a dict:
  force      total force, N, spread evenly over the loaded surfaces
  held, loaded, measured   boxes (low corner, high corner): every surface lying inside one belongs to it; or a point on
             the one surface, as a dict with `point` and outward `normal`, where a box would take others too
  fine_edges boxes: edges inside them are meshed four times finer
  sizes      mesh sizes, mm, in place of the usual series; `refines_rounds`: rounds are refined along with them
  young, poisson           isotropic law, MPa; or `layers` for a transversely isotropic one
  core       printed parts: box inside which volumes are infill, with `core_young`, wall and skin thickness
"""
import math

import gmsh

occ = gmsh.model.occ
ALUMINIUM = dict(young=70000.0, poisson=0.33)
PLASTIC = dict(young=1800.0, poisson=0.36)


def extruded(points, height, arcs=None):
    """Closed outline of (x, y); arcs: index of a segment's start -> centre. Swept from z = 0."""
    tags = [occ.addPoint(x, y, 0) for x, y in points]
    lines = []
    for i in range(len(points)):
        a, b = tags[i], tags[(i + 1) % len(points)]
        if arcs and i in arcs:
            lines.append(occ.addCircleArc(a, occ.addPoint(*arcs[i], 0), b))
        else:
            lines.append(occ.addLine(a, b))
    face = occ.addPlaneSurface([occ.addCurveLoop(lines)])
    return [e for e in occ.extrude([(2, face)], 0, 0, height) if e[0] == 3]


def bore(x, y, radius, low=-50.0, high=100.0):
    return (3, occ.addCylinder(x, y, low, 0, 0, high - low, radius))


def cut(body, *tools):
    return occ.cut(body, list(tools))[0]


def around(x, y, radius, z0, z1):
    r = radius + 0.05
    return [[x - r, y - r, z0 - 0.05], [x + r, y + r, z1 + 0.05]]


def slab(axis, at, low, high):
    """Box that holds the face normal to the axis at a position."""
    a, b = list(low), list(high)
    a[axis], b[axis] = at - 0.05, at + 0.05
    return [[v - 0.05 if k != axis else v for k, v in enumerate(a)],
            [v + 0.05 if k != axis else v for k, v in enumerate(b)]]


def bored_plate():
    body = [(3, occ.addBox(-55, -28, 0, 110, 56, 9))]
    body = cut(body, bore(-36, 0, 10), bore(36, 0, 10), bore(0, 0, 3.5),
               *[bore(x, y, 3) for x in (-48, 48) for y in (-21, 21)])
    return dict(ALUMINIUM, force=[0, 0, -400], held=[around(x, 0, 10, 0, 9) for x in (-36, 36)],
                loaded=[around(0, 0, 3.5, 0, 9)], measured=[around(0, 0, 3.5, 0, 9)])


def slotted_plate():
    body = [(3, occ.addBox(0, 0, 0, 90, 50, 6))]
    slots = []
    for y in (14, 36):
        slots += [(3, occ.addBox(25, y - 4, -1, 40, 8, 8)), bore(25, y, 4), bore(65, y, 4)]
    body = cut(body, *slots)
    return dict(ALUMINIUM, force=[0, 0, -60], held=[slab(0, 0, [0, 0, 0], [0, 50, 6])],
                loaded=[slab(0, 90, [90, 0, 0], [90, 50, 6])], measured=[slab(0, 90, [90, 0, 0], [90, 50, 6])])


def angle_bracket():
    r, t, depth = 6, 6, 38
    points = [(0, 0), (55, 0), (55, t), (t + r, t), (t, t + r), (t, 50), (0, 50)]
    body = extruded(points, depth, {3: (t + r, t + r)})
    holes = [(3, occ.addCylinder(40, -10, z, 0, 30, 0, 3)) for z in (9, 29)]
    holes.append((3, occ.addCylinder(-10, 38, 19, 30, 0, 0, 3)))
    body = cut(body, *holes)
    held = [[[36.9, -0.05, z - 3.05], [43.1, t + 0.05, z + 3.05]] for z in (9, 29)]
    top = [[[-0.05, 34.9, 15.9], [t + 0.05, 41.1, 22.1]]]
    return dict(ALUMINIUM, force=[300, 0, 0], held=held, loaded=top, measured=top)


def channel():
    points = [(0, 0), (40, 0), (40, 30), (35, 30), (35, 7), (33, 5), (7, 5), (5, 7), (5, 30), (0, 30)]
    body = extruded(points, 80, {4: (33, 7), 6: (7, 7)})
    side = [slab(0, 40, [40, 0, 0], [40, 30, 80])]
    return dict(PLASTIC, force=[60, 0, 0], held=[slab(1, 0, [0, 0, 0], [40, 0, 80])], loaded=side, measured=side,
                sizes=[5.9, 4.2, 3, 2.15, 1.6])


def stepped_block():
    body = occ.fuse([(3, occ.addBox(0, 0, 0, 60, 40, 14))], [(3, occ.addBox(0, 0, 14, 26, 40, 16))])[0]
    body = cut(body, (3, occ.addBox(33, 7, 5, 20, 26, 20)), bore(13, 20, 5, 10, 40))
    end = [slab(0, 60, [60, 0, 0], [60, 40, 14])]
    return dict(ALUMINIUM, force=[0, 0, -900], held=[slab(0, 0, [0, 0, 0], [0, 40, 30])], loaded=end, measured=end)


def lightened_arm():
    body = [(3, occ.addBox(0, -12, 0, 120, 24, 8))]
    body = cut(body, bore(12, 0, 6), bore(110, 0, 4),
               *[(3, occ.addBox(x, -7, -1, 30, 14, 10)) for x in (27, 64)])
    tip = [around(110, 0, 4, 0, 8)]
    return dict(PLASTIC, force=[0, 0, -8], held=[around(12, 0, 6, 0, 8)], loaded=tip, measured=tip)


def lipped_clamp():
    points = [(0, 0), (45, 0), (45, 22), (43, 22), (18, 22), (16, 24), (16, 30), (18, 32), (45, 32), (45, 36), (0, 36)]
    body = extruded(points, 25, {4: (18, 24), 6: (18, 30)})
    lip = [slab(1, 32, [18, 32, 0], [45, 32, 25])]
    return dict(ALUMINIUM, force=[0, 350, 0], held=[slab(1, 0, [0, 0, 0], [45, 0, 25])], loaded=lip, measured=lip)


def ring_on_foot():
    outer = (3, occ.addCylinder(0, 0, 0, 0, 0, 10, 20))
    body = occ.fuse([outer], [(3, occ.addBox(-15, -25, 0, 30, 8.5, 10)), (3, occ.addBox(-5, 18.5, 0, 10, 6, 10))])[0]
    body = cut(body, bore(0, 0, 17, -5, 15))
    head = [slab(1, 24.5, [-5, 24.5, 0], [5, 24.5, 10])]
    return dict(PLASTIC, force=[0, -60, 0], held=[slab(1, -25, [-15, -25, 0], [15, -25, 10])], loaded=head,
                measured=head)


def hexagonal_tube():
    def hexagon(flat):
        r = flat / math.sqrt(3)
        return [(r * math.cos(math.pi / 3 * i + 0.2), r * math.sin(math.pi / 3 * i + 0.2)) for i in range(6)]
    body = cut(extruded(hexagon(30), 60), *extruded(hexagon(25), 60))
    top = [slab(2, 60, [-20, -20, 60], [20, 20, 60])]
    return dict(PLASTIC, force=[40, 15, 0], held=[slab(2, 0, [-20, -20, 0], [20, 20, 0])], loaded=top, measured=top)


def oblique_blade():
    c, s, t = math.cos(0.6), math.sin(0.6), 2.5
    # a 2.5 mm blade rising at 34 degrees out of a block, ending in a pad
    points = [(-14, 0), (0, 0), (45 * c, 45 * s), (45 * c + 12, 45 * s), (45 * c + 12, 45 * s + 8),
              (45 * c - t * s, 45 * s + 8), (45 * c - t * s, 45 * s + t * c), (-t * s, t * c), (-14, t * c)]
    body = extruded(points, 14)
    pad = [slab(0, 45 * c + 12, [45 * c + 12, 45 * s, 0], [45 * c + 12, 45 * s + 8, 14])]
    return dict(PLASTIC, force=[0, 3, 0], held=[slab(0, -14, [-14, 0, 0], [-14, t * c, 14])], loaded=pad, measured=pad)


def quarter_shell():
    points = [(30, 0), (33, 0), (0, 33), (0, 30)]
    body = extruded(points, 24, {1: (0, 0), 3: (0, 0)})
    end = [slab(0, 0, [0, 30, 0], [0, 33, 24])]
    return dict(PLASTIC, force=[0, -20, 0], held=[slab(1, 0, [30, 0, 0], [33, 0, 24])], loaded=end, measured=end)


def with_core(body, core):
    occ.fragment(body, core)
    return None


def printed_plate():
    x, y, z, wall, skin = 90, 50, 8, 1.2, 1.0
    bores = [(15, 25, 5), (75, 25, 5), (45, 25, 4)]
    body = cut([(3, occ.addBox(0, 0, 0, x, y, z))], *[bore(*b) for b in bores])
    core = cut([(3, occ.addBox(wall, wall, skin, x - 2 * wall, y - 2 * wall, z - 2 * skin))],
               *[bore(a, b, r + wall) for a, b, r in bores])
    with_core(body, core)
    middle = [around(45, 25, 4, 0, z)]
    return dict(PLASTIC, force=[0, 0, -80], held=[around(a, 25, 5, 0, z) for a in (15, 75)], loaded=middle,
                measured=middle, core=[[wall - 0.01, wall - 0.01, skin - 0.01], [x - wall + 0.01, y - wall + 0.01,
                z - skin + 0.01]], core_young=150.0, wall=wall, skin=skin)


def printed_bar():
    x, y, z, wall, skin = 80, 12, 10, 1.35, 1.0
    body = [(3, occ.addBox(0, 0, 0, x, y, z))]
    with_core(body, [(3, occ.addBox(wall, wall, skin, x - 2 * wall, y - 2 * wall, z - 2 * skin))])
    end = [slab(0, x, [x, 0, 0], [x, y, z])]
    return dict(PLASTIC, force=[0, -12, 0], held=[slab(0, 0, [0, 0, 0], [0, y, z])], loaded=end, measured=end,
                core=[[wall - 0.01, wall - 0.01, skin - 0.01], [x - wall + 0.01, y - wall + 0.01, z - skin + 0.01]],
                core_young=90.0, wall=wall, skin=skin)


def printed_post():
    x, y, z, wall, skin, r = 30, 24, 45, 1.2, 1.2, 6
    body = cut([(3, occ.addBox(0, 0, 0, x, y, z))], bore(15, 12, r))
    core = cut([(3, occ.addBox(wall, wall, skin, x - 2 * wall, y - 2 * wall, z - 2 * skin))], bore(15, 12, r + wall))
    with_core(body, core)
    side = [slab(2, z, [0, 0, z], [x, y, z])]
    return dict(PLASTIC, force=[90, 40, 0], held=[slab(2, 0, [0, 0, 0], [x, y, 0])], loaded=side, measured=side,
                core=[[wall - 0.01, wall - 0.01, skin - 0.01], [x - wall + 0.01, y - wall + 0.01, z - skin + 0.01]],
                core_young=120.0, wall=wall, skin=skin)


# Transversely isotropic: in the layers E, nu; across them a share of E.
LAYERED = dict(young=2000.0, poisson=0.35, across_young=1300.0, across_shear=480.0, poisson_in_to_across=0.35)


def layered_bracket():
    part = angle_bracket()
    part.update(LAYERED, axis=[0, 0, 1], force=[12, 0, 0])
    return part


def layered_arm():
    part = lightened_arm()
    axis = [math.sin(0.7), 0, math.cos(0.7)]
    part.update(LAYERED, axis=axis)
    return part


def gusset_bracket():
    base, upright = (3, occ.addBox(0, 0, 0, 62, 40, 5)), (3, occ.addBox(0, 0, 5, 5, 40, 47))
    rib = [(5, 5), (45, 5), (45, 7), (9, 41), (5, 41)]
    tags = [occ.addPoint(x, 17.5, z) for x, z in rib]
    lines = [occ.addLine(tags[i], tags[(i + 1) % len(tags)]) for i in range(len(tags))]
    face = occ.addPlaneSurface([occ.addCurveLoop(lines)])
    rib = [e for e in occ.extrude([(2, face)], 0, 5, 0) if e[0] == 3]
    body = occ.fuse([base], [upright] + rib)[0]
    body = cut(body, *[bore(x, y, 3.5) for x in (18, 52) for y in (8, 32)])
    back = [slab(0, 0, [0, 0, 0], [0, 40, 52])]
    return dict(ALUMINIUM, force=[500, 0, 0], held=[around(x, y, 3.5, 0, 5) for x in (18, 52) for y in (8, 32)],
                loaded=back, measured=back, sizes=[5.5, 4.2, 3.2, 2.45, 1.9], refines_rounds=True)


def tee_rail():
    points = [(-20, 0), (20, 0), (20, 5), (3.5, 5), (2.5, 6), (2.5, 28), (-2.5, 28), (-2.5, 6), (-3.5, 5), (-20, 5)]
    body = extruded(points, 110, {3: (3.5, 6), 7: (-3.5, 6)})
    end = [slab(2, 110, [-20, 0, 110], [20, 28, 110])]
    return dict(ALUMINIUM, force=[70, -120, 0], held=[slab(2, 0, [-20, 0, 0], [20, 28, 0])], loaded=end, measured=end)


def angle_rail():
    """An L profile lying on its side: the long leg flat, the short one hanging."""
    body = extruded([(0, 0), (0, -24), (4, -24), (4, -4), (42, -4), (42, 0)], 95)
    occ.rotate(body, 0, 0, 0, 1, 0, 0, math.pi / 2)
    end = [slab(1, -95, [0, -95, -24], [42, -95, 0])]
    return dict(PLASTIC, force=[5, 0, -9], held=[slab(1, 0, [0, 0, -24], [42, 0, 0])], loaded=end, measured=end)


SKEW_AXIS, SKEW_ANGLE = (1, 2, 3), math.radians(37)


def turned(x):
    """x turned by 37 degrees about the skew axis (Rodrigues)."""
    n = math.sqrt(sum(a * a for a in SKEW_AXIS))
    k = [a / n for a in SKEW_AXIS]
    c, s = math.cos(SKEW_ANGLE), math.sin(SKEW_ANGLE)
    dot = sum(a * b for a, b in zip(k, x))
    cross = [k[1] * x[2] - k[2] * x[1], k[2] * x[0] - k[0] * x[2], k[0] * x[1] - k[1] * x[0]]
    return [c * x[i] + s * cross[i] + (1 - c) * dot * k[i] for i in range(3)]


def turned_lever():
    body = occ.fuse([(3, occ.addBox(0, -11, 0, 85, 22, 7))], [(3, occ.addBox(0, -11, 7, 16, 22, 18))])[0]
    body = cut(body, bore(70, 0, 4), (3, occ.addBox(28, -6, -1, 28, 12, 9)))
    occ.rotate(body, 0, 0, 0, *SKEW_AXIS, SKEW_ANGLE)
    back = [dict(point=turned((0, 0, 12)), normal=turned((-1, 0, 0)))]
    tip = [dict(point=turned((66, 0, 3.5)), normal=turned((1, 0, 0)))]
    return dict(ALUMINIUM, force=turned((0, 60, -150)), held=back, loaded=tip, measured=tip)


def open_box():
    body = cut([(3, occ.addBox(0, 0, 0, 36, 26, 16))], (3, occ.addBox(2, 2, 2, 32, 22, 20)))
    roots = [slab(2, 2, [2, 2, 2], [34, 24, 2])]
    roots += [[[x - 0.05, y - 0.05, 1.95], [x + 0.05, y + 0.05, 16.05]] for x in (2, 34) for y in (2, 24)]
    wall = [slab(1, 24, [2, 24, 2], [34, 24, 16])]
    return dict(PLASTIC, force=[0, 40, 0], held=[slab(2, 0, [0, 0, 0], [36, 26, 0])], loaded=wall, measured=wall,
                sizes=[3.4, 2.7, 2.15, 1.7, 1.35], fine_edges=roots)


def printed_corner():
    a, b, t, z, wall, skin = 46, 38, 9, 16, 1.2, 1.0
    outline = [(0, 0), (a, 0), (a, t), (t, t), (t, b), (0, b)]
    w = wall
    inner = [(w, w), (a - w, w), (a - w, t - w), (t - w, t - w), (t - w, b - w), (w, b - w)]
    core = extruded(inner, z - 2 * skin)
    occ.translate(core, 0, 0, skin)
    with_core(extruded(outline, z), core)
    end = [slab(1, b, [0, b, 0], [t, b, z])]
    return dict(PLASTIC, force=[25, 0, 6], held=[slab(0, a, [a, 0, 0], [a, t, z])], loaded=end, measured=end,
                core=[[wall - 0.01, wall - 0.01, skin - 0.01], [a - wall + 0.01, b - wall + 0.01, z - skin + 0.01]],
                core_young=140.0, wall=wall, skin=skin)


PARTS = [bored_plate, slotted_plate, angle_bracket, channel, stepped_block, lightened_arm, lipped_clamp,
         ring_on_foot, hexagonal_tube, oblique_blade, quarter_shell, printed_plate, printed_bar, printed_post,
         layered_bracket, layered_arm, gusset_bracket, tee_rail, angle_rail, turned_lever, open_box, printed_corner]
