#include "core/structure/cell_pieces.h"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>

#include "core/geometry/adjacency.h"
#include "core/structure/piece_moments.h"

namespace waybench::statics {

namespace {

constexpr double kOnFace = 1e-9;        // cell coordinates: a corner lies on a face of the cell
constexpr double kInwards = 1e-4;       // step from a facet into its material
constexpr int kSamplesAcross = 4;       // sample points per axis that may join two facets out of sight of each other
constexpr double kSumTolerance = 1e-5;  // pieces over the whole cell

class Groups {
public:
    explicit Groups(std::size_t count) : parent_(count) { std::iota(parent_.begin(), parent_.end(), 0); }
    int root(int i) {
        while (parent_[std::size_t(i)] != i)
            i = parent_[std::size_t(i)] = parent_[std::size_t(parent_[std::size_t(i)])];
        return i;
    }
    void join(int a, int b) {
        a = root(a);
        b = root(b);
        if (a != b) parent_[std::size_t(std::max(a, b))] = std::min(a, b);
    }

private:
    std::vector<int> parent_;
};

bool edgeReachesCell(const Vec3& a, const Vec3& b, const Vec3& low, const Vec3& high) {
    double from = 0, to = 1;
    for (int axis = 0; axis < 3; ++axis) {
        const double slack = 1e-9 * (high[axis] - low[axis]);
        const double d = b[axis] - a[axis];
        if (d == 0) {
            if (a[axis] < low[axis] - slack || a[axis] > high[axis] + slack) return false;
            continue;
        }
        double t0 = (low[axis] - slack - a[axis]) / d, t1 = (high[axis] + slack - a[axis]) / d;
        if (t0 > t1) std::swap(t0, t1);
        from = std::max(from, t0);
        to = std::min(to, t1);
    }
    return from <= to;
}

/// The triangle's part in the cube -1..1 (Sutherland, Hodgman 1974).
std::vector<Vec3> clippedToCube(std::vector<Vec3> polygon) {
    std::vector<Vec3> next;
    for (int axis = 0; axis < 3; ++axis)
        for (const double side : {-1.0, 1.0}) {
            next.clear();
            for (std::size_t i = 0; i < polygon.size(); ++i) {
                const Vec3 &p = polygon[i], &q = polygon[(i + 1) % polygon.size()];
                double dp = side * p[axis] - 1, dq = side * q[axis] - 1;
                if (std::abs(dp) < kOnFace) dp = 0;
                if (std::abs(dq) < kOnFace) dq = 0;
                if (dp <= 0) {
                    next.push_back(p);
                    if (dp == 0) next.back()[axis] = side;
                }
                if ((dp < 0 && dq > 0) || (dp > 0 && dq < 0)) {
                    next.push_back(p + (q - p) * (dp / (dp - dq)));
                    next.back()[axis] = side;
                }
            }
            polygon = next;
        }
    return polygon;
}

Vec3 middleOf(const FacetInside& f) {
    Vec3 sum = Vec3::Zero();
    for (const Vec3& c : f.corners)
        sum += c;
    return sum / double(f.corners.size());
}

/// Where the line from p to q meets the facet: parameter 0..1, or nothing.
std::optional<double> hit(const FacetInside& f, const Vec3& p, const Vec3& q) {
    const double dp = (p - f.corners[0]).dot(f.outward), dq = (q - f.corners[0]).dot(f.outward);
    if ((dp > 0) == (dq > 0) || dp == dq) return std::nullopt;
    const double t = dp / (dp - dq);
    const Vec3 x = p + t * (q - p);
    for (std::size_t i = 0; i < f.corners.size(); ++i) {
        const Vec3 &a = f.corners[i], &b = f.corners[(i + 1) % f.corners.size()];
        if ((b - a).cross(x - a).dot(f.outward) < -1e-9) return std::nullopt;
    }
    return t;
}

/// First facet on the way from p towards and beyond q, with the side met; -1 when none.
struct Sight {
    int facet = -1;
    bool fromInside = false;
};
Sight firstOnTheWay(const std::vector<FacetInside>& facets, const Vec3& p, const Vec3& q) {
    Sight sight;
    double nearest = 2;
    const Vec3 beyond = p + 1.001 * (q - p);
    for (std::size_t i = 0; i < facets.size(); ++i) {
        const auto t = hit(facets[i], p, beyond);
        if (!t || *t >= nearest) continue;
        nearest = *t;
        sight = {int(i), (beyond - p).dot(facets[i].outward) > 0};
    }
    return sight;
}

std::vector<FacetInside> facetsIn(const Mesh& mesh, const Grid& grid, std::size_t cell, const std::uint32_t* first,
                                  const std::uint32_t* last) {
    const Index3 at = grid.cellAt(cell);
    std::vector<FacetInside> facets;
    for (const std::uint32_t* t = first; t != last; ++t) {
        FacetInside f;
        f.facet = *t;
        const auto& v = mesh.triangles[*t];
        std::vector<Vec3> corners;
        for (const std::uint32_t c : v)
            corners.push_back(grid.localOf(at, mesh.vertices[c]));
        f.outward = (corners[1] - corners[0]).cross(corners[2] - corners[0]);
        if (!(f.outward.norm() > 0)) continue;
        f.outward.normalize();
        f.corners = clippedToCube(std::move(corners));
        if (f.corners.size() < 3) continue;
        // A facet on the cell's own boundary parts nothing inside it; one on a low face says where material begins.
        bool isBoundary = false;
        for (int axis = 0; axis < 3; ++axis)
            for (const double side : {-1.0, 1.0})
                isBoundary = isBoundary || ((side > 0 || f.outward[axis] > 0) &&
                                            std::all_of(f.corners.begin(), f.corners.end(),
                                                        [&](const Vec3& c) { return c[axis] == side; }));
        if (!isBoundary) facets.push_back(std::move(f));
    }
    return facets;
}

/// Groups of facets (by index) that hang together along mesh edges inside the cell.
Groups sheetsOf(const Mesh& mesh, const Grid& grid, std::size_t cell, const std::vector<FacetInside>& facets,
                const std::vector<std::uint32_t>& twins) {
    const Index3 at = grid.cellAt(cell);
    const Vec3 low = grid.lowOf(at), high = low + grid.sizeOf(at);
    Groups groups(facets.size());
    for (std::size_t i = 0; i < facets.size(); ++i)
        for (std::uint32_t k = 0; k < 3; ++k) {
            const std::uint32_t twin = twins[3 * facets[i].facet + k];
            if (twin == kNoEdge) continue;
            const auto other = std::lower_bound(facets.begin(), facets.end(), twin / 3,
                                                [](const FacetInside& f, std::uint32_t t) { return f.facet < t; });
            if (other == facets.end() || other->facet != twin / 3) continue;
            const auto& t = mesh.triangles[facets[i].facet];
            if (edgeReachesCell(mesh.vertices[t[k]], mesh.vertices[t[(k + 1) % 3]], low, high))
                groups.join(int(i), int(other - facets.begin()));
        }
    return groups;
}

int groupCount(Groups& groups, std::size_t facets) {
    int count = 0;
    for (std::size_t i = 0; i < facets; ++i)
        count += groups.root(int(i)) == int(i) ? 1 : 0;
    return count;
}

/// A few facets of every group: the first, the last and some between.
std::vector<int> speakersOf(Groups& groups, std::size_t facets) {
    std::vector<int> speakers;
    for (std::size_t g = 0; g < facets; ++g) {
        if (groups.root(int(g)) != int(g)) continue;
        std::vector<int> members;
        for (std::size_t i = g; i < facets; ++i)
            if (groups.root(int(i)) == int(g)) members.push_back(int(i));
        const std::size_t step = std::max<std::size_t>(1, members.size() / 4);
        for (std::size_t i = 0; i < members.size(); i += step)
            speakers.push_back(members[i]);
    }
    return speakers;
}

/// Joins groups that see each other through material.
void joinBySight(const std::vector<FacetInside>& facets, Groups& groups) {
    const std::vector<int> speakers = speakersOf(groups, facets.size());
    std::vector<Vec3> middle;
    for (const int s : speakers)
        middle.push_back(middleOf(facets[std::size_t(s)]));
    for (std::size_t i = 0; i < speakers.size(); ++i) {
        const Vec3 from = middle[i] - kInwards * facets[std::size_t(speakers[i])].outward;
        for (std::size_t j = 0; j < speakers.size(); ++j) {
            if (groups.root(speakers[i]) == groups.root(speakers[j])) continue;
            const Sight sight = firstOnTheWay(facets, from, middle[j]);
            if (sight.facet >= 0 && sight.fromInside) groups.join(speakers[i], sight.facet);
        }
    }
    for (int a = 0; a < kSamplesAcross * kSamplesAcross * kSamplesAcross; ++a) {
        if (groupCount(groups, facets.size()) == 1) return;
        const auto place = [](int i) { return -1 + (2 * i + 1.0) / kSamplesAcross; };
        const Vec3 p(place(a % kSamplesAcross), place(a / kSamplesAcross % kSamplesAcross),
                     place(a / (kSamplesAcross * kSamplesAcross)));
        int seen = -1;
        for (std::size_t j = 0; j < speakers.size(); ++j) {
            const Sight sight = firstOnTheWay(facets, p, middle[j]);
            if (sight.facet < 0) continue;
            if (!sight.fromInside) break;  // the point lies in the void
            if (seen >= 0) groups.join(seen, sight.facet);
            seen = sight.facet;
        }
    }
}

bool addsUp(const std::vector<Moments>& pieces, const Moments& whole) {
    Moments sum;
    for (const Moments& m : pieces) {
        if (!(m.volume() > -kSumTolerance)) return false;
        sum += m;
    }
    for (std::size_t i = 0; i < 27; ++i)
        if (std::abs(sum.value[i] - whole.value[i]) > 8 * kSumTolerance) return false;
    return true;
}

}  // namespace

int SplitCell::pieceAt(const Vec3& local, bool* isInside) const {
    double nearest = 1e300;
    int piece = 0;
    for (const FacetInside& f : facets) {
        const Vec3 middle = middleOf(f);
        const double distance = (middle - local).squaredNorm();
        if (distance >= nearest) continue;
        const Sight sight = firstOnTheWay(facets, local, middle);
        nearest = distance;
        piece = sight.facet >= 0 ? facets[std::size_t(sight.facet)].piece : f.piece;
        if (isInside != nullptr) *isInside = sight.facet >= 0 && sight.fromInside;
    }
    return piece;
}

int SplitCell::pieceBoundedBy(std::uint32_t facet) const {
    const auto f = std::lower_bound(facets.begin(), facets.end(), facet,
                                    [](const FacetInside& a, std::uint32_t t) { return a.facet < t; });
    return f != facets.end() && f->facet == facet ? f->piece : -1;
}

const SplitCell* SplitCells::at(std::size_t cell) const {
    const auto found = std::lower_bound(cells.begin(), cells.end(), cell,
                                        [](const SplitCell& c, std::size_t i) { return c.cell < i; });
    return found != cells.end() && found->cell == cell ? &*found : nullptr;
}

SplitCells findPieces(const Mesh& mesh, const Grid& grid, const CellMoments& moments, const SurfaceInCells& surface,
                      const Task& task) {
    SplitCells result;
    const std::vector<std::uint32_t> twins = edgeTwins(mesh.triangles);
    std::vector<std::uint32_t> here;
    std::size_t visited = 0;
    for (std::size_t begin = 0; begin < surface.facets.size();) {
        std::size_t end = begin;
        here.clear();
        const std::size_t cell = surface.facets[begin].first;
        for (; end < surface.facets.size() && surface.facets[end].first == cell; ++end)
            here.push_back(surface.facets[end].second);
        begin = end;
        if (++visited % 256 == 0) task.check();
        if (here.size() < 2 || moments.entry[cell] < 0) continue;
        std::vector<FacetInside> facets = facetsIn(mesh, grid, cell, here.data(), here.data() + here.size());
        if (facets.size() < 2) continue;
        Groups groups = sheetsOf(mesh, grid, cell, facets, twins);
        if (groupCount(groups, facets.size()) == 1) continue;
        joinBySight(facets, groups);
        std::vector<int> roots;
        for (std::size_t i = 0; i < facets.size(); ++i) {
            const int root = groups.root(int(i));
            const auto known = std::find(roots.begin(), roots.end(), root);
            facets[i].piece = int(known - roots.begin());
            if (known == roots.end()) roots.push_back(root);
        }
        if (roots.size() < 2) continue;
        SplitCell split{cell, {}, std::move(facets)};
        split.pieces = momentsOfPieces(split, int(roots.size()));
        if (addsUp(split.pieces, moments.of(cell)))
            result.cells.push_back(std::move(split));
        else
            ++result.weldedCells;
    }
    return result;
}

std::vector<std::pair<int, int>> joinedPieces(const SplitCell* low, const SplitCell* high, int axis) {
    std::vector<std::pair<int, int>> joined;
    const auto put = [&](int a, int b) {
        if (std::find(joined.begin(), joined.end(), std::pair(a, b)) == joined.end()) joined.emplace_back(a, b);
    };
    // Facets that cross the face between the cells bound the same piece on both sides of it.
    const auto crossing = [&](const SplitCell& cell, double side) {
        std::vector<std::pair<std::uint32_t, int>> facets;
        for (const FacetInside& f : cell.facets)
            for (std::size_t i = 0; i < f.corners.size(); ++i) {
                const Vec3 &a = f.corners[i], &b = f.corners[(i + 1) % f.corners.size()];
                if (a[axis] == side && b[axis] == side && (a - b).norm() > 1e-6) facets.emplace_back(f.facet, f.piece);
            }
        return facets;
    };
    Vec3 centre = Vec3::Zero();
    if (low != nullptr && high != nullptr) {
        const auto above = crossing(*high, -1);
        for (const auto& [facet, piece] : crossing(*low, 1))
            for (const auto& [other, upper] : above)
                if (facet == other) put(piece, upper);
        if (joined.empty()) {
            bool isIn = false, isInToo = false;
            centre[axis] = 1 - 1e-6;
            const int a = low->pieceAt(centre, &isIn);
            centre[axis] = -1 + 1e-6;
            const int b = high->pieceAt(centre, &isInToo);
            if (isIn && isInToo) put(a, b);
        }
    } else if (low != nullptr) {
        for (const auto& [facet, piece] : crossing(*low, 1))
            put(piece, 0);
        centre[axis] = 1 - 1e-6;
        if (joined.empty()) put(low->pieceAt(centre), 0);
    } else if (high != nullptr) {
        for (const auto& [facet, piece] : crossing(*high, -1))
            put(0, piece);
        centre[axis] = -1 + 1e-6;
        if (joined.empty()) put(0, high->pieceAt(centre));
    } else {
        put(0, 0);
    }
    return joined;
}

}  // namespace waybench::statics
