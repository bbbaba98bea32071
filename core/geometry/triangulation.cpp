#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>

#include "core/geometry/orientation.h"
#include "core/geometry/polygon.h"

namespace waybench {

namespace {

using Index = std::uint32_t;
using Triangle = std::array<Index, 3>;
using Loop = std::vector<Index>;  // indices into the points, counter-clockwise; holes clockwise
constexpr Index kNone = UINT32_MAX;

bool onSegment(const Vec2& p, const Vec2& a, const Vec2& b) {
    if (turnOf(a, b, p) != 0) return false;
    return p.x() >= std::min(a.x(), b.x()) && p.x() <= std::max(a.x(), b.x()) && p.y() >= std::min(a.y(), b.y()) &&
           p.y() <= std::max(a.y(), b.y());
}

bool segmentsMeet(const Vec2& a, const Vec2& b, const Vec2& c, const Vec2& d) {
    if (std::max(a.x(), b.x()) < std::min(c.x(), d.x()) || std::max(c.x(), d.x()) < std::min(a.x(), b.x()))
        return false;
    if (std::max(a.y(), b.y()) < std::min(c.y(), d.y()) || std::max(c.y(), d.y()) < std::min(a.y(), b.y()))
        return false;
    const int abc = turnOf(a, b, c), abd = turnOf(a, b, d), cda = turnOf(c, d, a), cdb = turnOf(c, d, b);
    if (abc * abd < 0 && cda * cdb < 0) return true;
    return onSegment(c, a, b) || onSegment(d, a, b) || onSegment(a, c, d) || onSegment(b, c, d);
}

/// Joins each hole to the outer loop by a doubled edge to the nearest corner it sees.
/// Method: D. Eberly, Triangulation by Ear Clipping, section 5 (holes from the rightmost on; then the outer loop always
/// has a visible corner).
class HoleBridging {
public:
    HoleBridging(const std::vector<Vec2>& points, Loop outer, std::vector<Loop> holes)
        : points_(points), loop_(std::move(outer)), holes_(std::move(holes)) {}

    Loop run() {
        for (Loop& hole : holes_)
            std::rotate(hole.begin(),
                        std::max_element(hole.begin(), hole.end(),
                                         [&](Index a, Index b) { return points_[a].x() < points_[b].x(); }),
                        hole.end());
        std::stable_sort(holes_.begin(), holes_.end(),
                         [&](const Loop& a, const Loop& b) { return points_[a.front()].x() > points_[b.front()].x(); });
        for (std::size_t h = 0; h < holes_.size(); ++h)
            join(h);
        return std::move(loop_);
    }

private:
    void join(std::size_t hole) {
        const Index m = holes_[hole].front();
        std::vector<Index> nearest(loop_.size());
        std::iota(nearest.begin(), nearest.end(), 0u);
        const auto farther = [&](Index a, Index b) {
            const double da = (at(loop_[a]) - at(m)).squaredNorm(), db = (at(loop_[b]) - at(m)).squaredNorm();
            return da != db ? da > db : a > b;
        };
        std::make_heap(nearest.begin(), nearest.end(), farther);
        while (!nearest.empty()) {
            std::pop_heap(nearest.begin(), nearest.end(), farther);
            const Index i = nearest.back();
            nearest.pop_back();
            if (!looksInto(i, m) || !sees(i, m, hole)) continue;
            splice(i, hole);
            return;
        }
        throw std::logic_error("polygon cannot be triangulated: a hole lies outside or touches its outline");
    }

    /// The way to point m leaves corner i of the loop to the inside.
    bool looksInto(Index i, Index m) const {
        const Vec2 &p = at(loop_[i]), &before = at(loop_[(i + loop_.size() - 1) % loop_.size()]),
                   &after = at(loop_[(i + 1) % loop_.size()]), &q = at(m);
        if (turnOf(before, p, after) > 0) return turnOf(p, q, before) > 0 && turnOf(p, after, q) > 0;
        return !(turnOf(p, q, after) >= 0 && turnOf(p, before, q) >= 0);
    }

    bool crossesLoop(const Loop& loop, const Vec2& p, const Vec2& q) const {
        for (std::size_t a = loop.size() - 1, b = 0; b < loop.size(); a = b++) {
            const Vec2 &c = at(loop[a]), &d = at(loop[b]);
            const bool cEnds = c == p || c == q, dEnds = d == p || d == q;
            if (cEnds && dEnds) continue;
            if (cEnds || dEnds) {
                const Vec2 &shared = cEnds ? c : d, &far = cEnds ? d : c;
                const Vec2& other = shared == p ? q : p;
                if (onSegment(far, p, q) || onSegment(other, c, d)) return true;
            } else if (segmentsMeet(p, q, c, d)) {
                return true;
            }
        }
        return false;
    }

    bool sees(Index i, Index m, std::size_t hole) const {
        const Vec2 &p = at(loop_[i]), &q = at(m);
        if (p == q || crossesLoop(loop_, p, q)) return false;
        for (std::size_t h = hole; h < holes_.size(); ++h)
            if (crossesLoop(holes_[h], p, q)) return false;
        return true;
    }

    void splice(Index i, std::size_t hole) {
        Loop inserted = holes_[hole];
        inserted.push_back(holes_[hole].front());
        inserted.push_back(loop_[i]);
        loop_.insert(loop_.begin() + i + 1, inserted.begin(), inserted.end());
    }

    const Vec2& at(Index point) const { return points_[point]; }

    const std::vector<Vec2>& points_;
    Loop loop_;
    std::vector<Loop> holes_;
};

/// Cuts ears off a (weakly) simple loop. Source: G. H. Meisters, Polygons have ears, Am. Math. Monthly 82 (1975).
class EarClipping {
public:
    EarClipping(const std::vector<Vec2>& points, const Loop& loop)
        : points_(points), loop_(loop), next_(loop.size()), before_(loop.size()), reflexPlace_(loop.size(), kNone) {
        const Index n = static_cast<Index>(loop.size());
        for (Index i = 0; i < n; ++i)
            next_[i] = (i + 1) % n, before_[i] = (i + n - 1) % n;
        for (Index i = 0; i < n; ++i)
            if (turnAt(i) <= 0) reflexPlace_[i] = static_cast<Index>(reflex_.size()), reflex_.push_back(i);
    }

    std::vector<Triangle> run() {
        std::vector<Triangle> triangles;
        Index left = static_cast<Index>(loop_.size()), node = 0, sinceLast = 0;
        while (left > 3) {
            // No ear in a whole round happens only to loops that touch or cross themselves: take any convex corner.
            const bool forced = sinceLast > left;
            if (isEar(node) || (forced && (turnAt(node) > 0 || sinceLast > 2 * left))) {
                const Index a = before_[node], c = next_[node];
                triangles.push_back({loop_[a], loop_[node], loop_[c]});
                dropReflex(node);
                next_[a] = c;
                before_[c] = a;
                for (Index k : {a, c})
                    if (turnAt(k) > 0) dropReflex(k);
                --left;
                sinceLast = 0;
                node = next_[c];  // skipping one keeps the triangles from fanning out of one corner
            } else {
                node = next_[node];
                ++sinceLast;
            }
        }
        triangles.push_back({loop_[before_[node]], loop_[node], loop_[next_[node]]});
        return triangles;
    }

private:
    const Vec2& at(Index node) const { return points_[loop_[node]]; }
    int turnAt(Index node) const { return turnOf(at(before_[node]), at(node), at(next_[node])); }

    void dropReflex(Index node) {
        if (reflexPlace_[node] == kNone) return;
        const Index last = reflex_.back();
        reflex_[reflexPlace_[node]] = last;
        reflexPlace_[last] = reflexPlace_[node];
        reflex_.pop_back();
        reflexPlace_[node] = kNone;
    }

    bool isEar(Index node) const {
        if (reflexPlace_[node] != kNone) return false;
        const Vec2 &a = at(before_[node]), &b = at(node), &c = at(next_[node]);
        if (turnOf(a, b, c) <= 0) return false;
        const Vec2 low = a.cwiseMin(b).cwiseMin(c), high = a.cwiseMax(b).cwiseMax(c);
        for (Index r : reflex_) {
            const Vec2& p = at(r);
            if (p.x() < low.x() || p.x() > high.x() || p.y() < low.y() || p.y() > high.y()) continue;
            if (p == a || p == b || p == c) continue;
            if (turnOf(a, b, p) >= 0 && turnOf(b, c, p) >= 0 && turnOf(c, a, p) >= 0) return false;
        }
        return true;
    }

    const std::vector<Vec2>& points_;
    const Loop& loop_;
    std::vector<Index> next_, before_, reflexPlace_, reflex_;
};

/// Turns inner edges until no opposite angles add up to more than a half turn (constrained Delaunay), which rids the
/// triangulation of needles. Source: C. L. Lawson, Software for C1 surface interpolation (1977), edge swapping.
void turnEdges(const std::vector<Vec2>& points, const std::vector<Index>& nextOnRing,
               std::vector<Triangle>& triangles) {
    struct Edge {
        std::uint64_t key;
        Index id;
        bool operator<(const Edge& o) const { return key != o.key ? key < o.key : id < o.id; }
    };
    std::vector<Edge> edges;
    for (Index t = 0; t < triangles.size(); ++t)
        for (Index k = 0; k < 3; ++k) {
            const std::uint64_t a = triangles[t][k], b = triangles[t][(k + 1) % 3];
            if (nextOnRing[a] == b) continue;
            edges.push_back({std::min(a, b) << 32 | std::max(a, b), 3 * t + k});
        }
    std::sort(edges.begin(), edges.end());
    std::vector<Index> twin(3 * triangles.size(), kNone), open;
    for (std::size_t i = 0; i + 1 < edges.size(); ++i)
        if (edges[i].key == edges[i + 1].key) {
            twin[edges[i].id] = edges[i + 1].id;
            twin[edges[i + 1].id] = edges[i].id;
            open.push_back(edges[i].id);
            ++i;
        }
    std::size_t budget = 40 * open.size() + 1000;  // rounding must not let two edges turn for ever
    while (!open.empty() && budget-- > 0) {
        const Index e = open.back();
        open.pop_back();
        const Index f = twin[e];
        if (f == kNone) continue;
        const Index t = e / 3, k = e % 3, u = f / 3, l = f % 3;
        const Index a = triangles[t][k], b = triangles[t][(k + 1) % 3], c = triangles[t][(k + 2) % 3],
                    d = triangles[u][(l + 2) % 3];
        if (triangles[u][l] != b || triangles[u][(l + 1) % 3] != a) continue;
        const Vec2 ca = points[a] - points[c], cb = points[b] - points[c], da = points[a] - points[d],
                   db = points[b] - points[d];
        const double sinC = ca.x() * cb.y() - ca.y() * cb.x(), sinD = db.x() * da.y() - db.y() * da.x();
        const double sinSum = sinC * da.dot(db) + sinD * ca.dot(cb);
        if (!(sinSum < -1e-12 * ca.norm() * cb.norm() * da.norm() * db.norm())) continue;
        if (turnOf(points[c], points[d], points[b]) <= 0 || turnOf(points[d], points[c], points[a]) <= 0) continue;
        // a b c + b a d  ->  c d b + d c a
        const Index bc = twin[3 * t + (k + 1) % 3], ca_ = twin[3 * t + (k + 2) % 3], ad = twin[3 * u + (l + 1) % 3],
                    db_ = twin[3 * u + (l + 2) % 3];
        triangles[t] = {c, d, b};
        triangles[u] = {d, c, a};
        const auto pair = [&](Index one, Index other) {
            twin[one] = other;
            if (other != kNone) twin[other] = one, open.push_back(one);
        };
        twin[3 * t] = 3 * u;
        twin[3 * u] = 3 * t;
        pair(3 * t + 1, db_);
        pair(3 * t + 2, bc);
        pair(3 * u + 1, ca_);
        pair(3 * u + 2, ad);
    }
}

}  // namespace

std::vector<std::array<std::uint32_t, 3>> triangulate(const Region& island) {
    std::vector<Vec2> points;
    std::vector<Loop> loops;
    for (std::size_t r = 0; r < island.size(); ++r) {
        Loop loop;
        for (const Vec2& p : island[r]) {
            if (!p.allFinite()) throw std::logic_error("polygon point is not a number");
            if (loop.empty() || points[loop.back()] != p) loop.push_back(static_cast<Index>(points.size()));
            points.push_back(p);
        }
        while (loop.size() > 1 && points[loop.front()] == points[loop.back()])
            loop.pop_back();
        const double area = signedArea(island[r]);
        if (loop.size() < 3 || area == 0) continue;
        if ((area > 0) != (r == 0)) std::reverse(loop.begin(), loop.end());
        loops.push_back(std::move(loop));
    }
    if (loops.empty()) return {};
    std::vector<Index> nextOnRing(points.size(), kNone);
    for (const Loop& loop : loops)
        for (std::size_t i = 0; i < loop.size(); ++i)
            nextOnRing[loop[i]] = loop[(i + 1) % loop.size()];
    Loop outer = std::move(loops.front());
    loops.erase(loops.begin());
    const Loop loop = HoleBridging(points, std::move(outer), std::move(loops)).run();
    std::vector<Triangle> triangles = EarClipping(points, loop).run();
    turnEdges(points, nextOnRing, triangles);
    return triangles;
}

}  // namespace waybench
