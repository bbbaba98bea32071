#!/usr/bin/env python3
"""Writes the demo rig's two drawings (DXF, R12 entities with a units header) and its one surface (STL).

All sizes are invented for the demo. Run it only to change them: the files it makes stand beside it.
"""
import math
import pathlib
import struct

HERE = pathlib.Path(__file__).parent


class Drawing:
    """Group-code pairs of an ASCII DXF, millimetres."""

    def __init__(self):
        self.pairs = []

    def add(self, *pairs):
        self.pairs += pairs

    def line(self, x0, y0, x1, y1):
        self.add((0, "LINE"), (8, "OUTLINE"), (10, x0), (20, y0), (11, x1), (21, y1))

    def arc(self, cx, cy, r, start, end):
        self.add((0, "ARC"), (8, "OUTLINE"), (10, cx), (20, cy), (40, r), (50, start), (51, end))

    def circle(self, cx, cy, r):
        self.add((0, "CIRCLE"), (8, "BORES"), (10, cx), (20, cy), (40, r))

    def slot(self, cx, cy, length, width):
        """Obround along x as one polyline with half-turn bulges."""
        h, r = (length - width) / 2, width / 2
        corners = [(cx - h, cy - r, 0), (cx + h, cy - r, 1), (cx + h, cy + r, 0), (cx - h, cy + r, 1)]
        self.add((0, "LWPOLYLINE"), (8, "SLOTS"), (90, 4), (70, 1))
        for x, y, bulge in corners:
            self.add((10, x), (20, y), (42, bulge))

    def rounded_rectangle(self, length, width, r):
        x, y = length / 2, width / 2
        self.line(-x + r, -y, x - r, -y)
        self.arc(x - r, -y + r, r, 270, 360)
        self.line(x, -y + r, x, y - r)
        self.arc(x - r, y - r, r, 0, 90)
        self.line(x - r, y, -x + r, y)
        self.arc(-x + r, y - r, r, 90, 180)
        self.line(-x, y - r, -x, -y + r)
        self.arc(-x + r, -y + r, r, 180, 270)

    def write(self, path):
        head = [(0, "SECTION"), (2, "HEADER"), (9, "$ACADVER"), (1, "AC1015"), (9, "$INSUNITS"), (70, 4), (0, "ENDSEC"),
                (0, "SECTION"), (2, "ENTITIES")]
        tail = [(0, "ENDSEC"), (0, "EOF")]
        with open(path, "w", newline="\n") as out:
            for code, value in head + self.pairs + tail:
                out.write(f"{code:3d}\n{value if isinstance(value, (str, int)) else format(value, '.6f')}\n")


def cross_plate():
    """Plate that carries the gear motor: large bore, four motor screws, four frame screws, two belt slots."""
    d = Drawing()
    d.rounded_rectangle(140, 80, 8)
    d.circle(0, 0, 11)
    for x, y in ((-17.5, -17.5), (17.5, -17.5), (-17.5, 17.5), (17.5, 17.5)):
        d.circle(x, y, 2.25)
    for x, y in ((-60, -30), (60, -30), (-60, 30), (60, 30)):
        d.circle(x, y, 3.3)
    for x in (-42, 42):
        d.slot(x, 0, 18, 6.6)
    d.write(HERE / "drive_cross_plate.dxf")


def front_panel():
    """Panel with a display window and controls."""
    d = Drawing()
    d.rounded_rectangle(180, 110, 6)
    # display window as four lines with sharp corners rounded to 3 mm
    wx, wy, w, h, r = -35.0, 15.0, 76.0, 46.0, 3.0
    x0, x1, y0, y1 = wx - w / 2, wx + w / 2, wy - h / 2, wy + h / 2
    d.line(x0 + r, y0, x1 - r, y0)
    d.arc(x1 - r, y0 + r, r, 270, 360)
    d.line(x1, y0 + r, x1, y1 - r)
    d.arc(x1 - r, y1 - r, r, 0, 90)
    d.line(x1 - r, y1, x0 + r, y1)
    d.arc(x0 + r, y1 - r, r, 90, 180)
    d.line(x0, y1 - r, x0, y0 + r)
    d.arc(x0 + r, y0 + r, r, 180, 270)
    for x in (30, 52, 74):
        d.circle(x, 25, 8.1)
    d.circle(52, -20, 11.2)
    for x, y in ((-83, -48), (83, -48), (-83, 48), (83, 48)):
        d.circle(x, y, 2.25)
    d.write(HERE / "front_panel.dxf")


def hinge_clamp():
    """Clamp jaw for the hinge cup, as a surface: profile in x-z extruded along y, with a cross bore left out."""
    length, width, foot, height, jaw = 70.0, 36.0, 12.0, 40.0, 16.0
    profile = [(0, 0), (length, 0), (length, foot), (jaw + 8, foot), (jaw, foot + 8), (jaw, height), (0, height)]
    n = len(profile)
    facets = []

    def quad(a, b, c, d):
        facets.append((a, b, c))
        facets.append((a, c, d))

    for i in range(n):
        (xa, za), (xb, zb) = profile[i], profile[(i + 1) % n]
        # seen from -y the profile runs counter-clockwise, so outward walls go this way round
        quad((xa, 0, za), (xb, 0, zb), (xb, width, zb), (xa, width, za))
    # caps: convex pieces of the profile
    pieces = [[0, 5, 6], [0, 4, 5], [0, 3, 4], [0, 2, 3], [0, 1, 2]]
    for a, b, c in pieces:
        p, q, r = profile[a], profile[b], profile[c]
        facets.append(((p[0], 0, p[1]), (q[0], 0, q[1]), (r[0], 0, r[1])))
        facets.append(((p[0], width, p[1]), (r[0], width, r[1]), (q[0], width, q[1])))

    def normal(f):
        u = [f[1][k] - f[0][k] for k in range(3)]
        v = [f[2][k] - f[0][k] for k in range(3)]
        m = [u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]]
        size = math.sqrt(sum(x * x for x in m)) or 1.0
        return [x / size for x in m]

    def volume(fs):
        return sum(f[0][0] * (f[1][1] * f[2][2] - f[1][2] * f[2][1]) - f[0][1] * (f[1][0] * f[2][2] - f[1][2] * f[2][0]) +
                   f[0][2] * (f[1][0] * f[2][1] - f[1][1] * f[2][0]) for f in fs) / 6

    # orient all facets consistently outwards: flip those that disagree with their neighbours
    edges = {}
    for i, f in enumerate(facets):
        for k in range(3):
            edges.setdefault(frozenset((f[k], f[(k + 1) % 3])), []).append(i)
    seen, queue = {0}, [0]
    while queue:
        i = queue.pop()
        for k in range(3):
            a, b = facets[i][k], facets[i][(k + 1) % 3]
            for j in edges[frozenset((a, b))]:
                if j in seen:
                    continue
                g = facets[j]
                if any((g[m], g[(m + 1) % 3]) == (a, b) for m in range(3)):
                    facets[j] = (g[0], g[2], g[1])
                seen.add(j)
                queue.append(j)
    assert len(seen) == len(facets) and all(len(e) == 2 for e in edges.values())
    if volume(facets) < 0:
        facets[:] = [(a, c, b) for a, b, c in facets]

    with open(HERE / "hinge_clamp.stl", "wb") as out:
        out.write(b"hinge clamp, invented for the demo".ljust(80, b" "))
        out.write(struct.pack("<I", len(facets)))
        for f in facets:
            out.write(struct.pack("<12fH", *normal(f), *f[0], *f[1], *f[2], 0))
    print("hinge clamp volume", round(volume(facets), 3))


if __name__ == "__main__":
    cross_plate()
    front_panel()
    hinge_clamp()
