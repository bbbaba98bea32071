#include "core/machined/removal.h"

#include <algorithm>
#include <cmath>
#include <map>

#include "core/geometry/orientation.h"
#include "core/machined/drilling.h"
#include "core/progress/thread_team.h"

namespace waybench::machined {
namespace {

constexpr double kAllowed_mm = 0.02;
constexpr double kCells = 3e5;
constexpr double kFinestGrid_mm = 0.1;
constexpr double kCut_mm = 1e-6;
constexpr double kCore_mm3 = 1;

HeightField fieldOver(const Vec2& low, const Vec2& high, double step, double height) {
    HeightField f;
    f.step_mm = step;
    const Vec2 size = high - low;
    f.columns = static_cast<std::size_t>(std::ceil(size.x() / step - 1e-9));
    f.rows = static_cast<std::size_t>(std::ceil(size.y() / step - 1e-9));
    // Evenly over the middle, so that mirrored parts are met alike.
    f.low = 0.5 * (low + high) - 0.5 * step * Vec2(static_cast<double>(f.columns), static_cast<double>(f.rows));
    f.height_mm.assign(f.columns * f.rows, height);
    return f;
}

/// Cells whose middles a segment passes within a distance: calls visit(i, j, distance).
template <class Visit>
void near(const HeightField& f, const Vec2& a, const Vec2& b, double reach, const Visit& visit) {
    const Vec2 way = b - a;
    const double length2 = way.squaredNorm();
    const auto clampTo = [](double x, std::size_t n) {
        return static_cast<std::size_t>(std::clamp(x, 0.0, static_cast<double>(n)));
    };
    const std::size_t j0 = clampTo(std::floor((std::min(a.y(), b.y()) - reach - f.low.y()) / f.step_mm), f.rows);
    const std::size_t j1 = clampTo(std::ceil((std::max(a.y(), b.y()) + reach - f.low.y()) / f.step_mm), f.rows);
    for (std::size_t j = j0; j < j1; ++j) {
        // Of a long oblique segment only the part near this row matters.
        const double y = f.low.y() + f.step_mm * (static_cast<double>(j) + 0.5);
        double xLow = std::min(a.x(), b.x()), xHigh = std::max(a.x(), b.x());
        if (std::abs(way.y()) > 1e-12) {
            const double s0 = (y - reach - a.y()) / way.y(), s1 = (y + reach - a.y()) / way.y();
            const double from = std::clamp(std::min(s0, s1), 0.0, 1.0), to = std::clamp(std::max(s0, s1), 0.0, 1.0);
            const double xa = a.x() + from * way.x(), xb = a.x() + to * way.x();
            xLow = std::min(xa, xb);
            xHigh = std::max(xa, xb);
        }
        const std::size_t i0 = clampTo(std::floor((xLow - reach - f.low.x()) / f.step_mm), f.columns);
        const std::size_t i1 = clampTo(std::ceil((xHigh + reach - f.low.x()) / f.step_mm), f.columns);
        for (std::size_t i = i0; i < i1; ++i) {
            const Vec2 p = f.at(i, j);
            const double s = length2 > 0 ? std::clamp((p - a).dot(way) / length2, 0.0, 1.0) : 0;
            const double distance2 = (p - a - s * way).squaredNorm();
            if (distance2 < reach * reach) visit(i, j, std::sqrt(distance2));
        }
    }
}

template <class Visit>
void nearWay(const HeightField& f, const std::vector<Vec2>& way, double reach, const Visit& visit) {
    if (way.size() == 1) near(f, way.front(), way.front(), reach, visit);
    for (std::size_t k = 1; k < way.size(); ++k)
        near(f, way[k - 1], way[k], reach, visit);
}

/// Heights at which an upright line through the middle of each cell crosses the surface, ascending.
using Crossings = std::vector<std::vector<float>>;

Crossings crossingsOf(const Mesh& mesh, const HeightField& grid, const Task& task) {
    Crossings crossings(grid.columns * grid.rows);
    std::size_t count = 0;
    for (const auto& t : mesh.triangles) {
        if (++count % 4096 == 0) task.check();
        const Vec3 &a = mesh.vertices[t[0]], &b = mesh.vertices[t[1]], &c = mesh.vertices[t[2]];
        const double twice = (b - a).x() * (c - a).y() - (b - a).y() * (c - a).x();
        if (twice == 0) continue;
        const auto cellOf = [&](double x, double low) { return (x - low) / grid.step_mm - 0.5; };
        const double y0 = std::min({a.y(), b.y(), c.y()}), y1 = std::max({a.y(), b.y(), c.y()});
        const double x0 = std::min({a.x(), b.x(), c.x()}), x1 = std::max({a.x(), b.x(), c.x()});
        const auto first = [](double s) { return static_cast<std::size_t>(std::max(0.0, std::ceil(s))); };
        const auto last = [](double s, std::size_t n) {
            return s < 0 ? std::size_t(0) : std::min(n, static_cast<std::size_t>(std::floor(s)) + 1);
        };
        for (std::size_t j = first(cellOf(y0, grid.low.y())); j < last(cellOf(y1, grid.low.y()), grid.rows); ++j)
            for (std::size_t i = first(cellOf(x0, grid.low.x())); i < last(cellOf(x1, grid.low.x()), grid.columns);
                 ++i) {
                // A line through an edge belongs to the triangle on one side of it alone.
                const Vec2 p = grid.at(i, j) + Vec2(1.37e-7, 0.73e-7);
                const auto half = [&](const Vec3& u, const Vec3& v) {
                    return (v.x() - u.x()) * (p.y() - u.y()) - (v.y() - u.y()) * (p.x() - u.x());
                };
                const double wc = half(a, b) / twice, wa = half(b, c) / twice, wb = half(c, a) / twice;
                if (wa < 0 || wb < 0 || wc < 0) continue;
                crossings[j * grid.columns + i].push_back(static_cast<float>(wa * a.z() + wb * b.z() + wc * c.z()));
            }
    }
    for (auto& column : crossings)
        std::sort(column.begin(), column.end());
    return crossings;
}

ToolEnd endOf(const Operation& o) {
    ToolEnd end;
    end.radius_mm = 0.5 * o.tool->diameter_mm;
    if (o.kind == OperationKind::drilling) end.point_mm = pointLength(o.tool->diameter_mm, o.tool->pointAngle_deg);
    return end;
}

/// Calls visit(operation, way, lowest point) for all ways of a set-up at depth.
template <class Visit>
void overWays(const OperationPlan& work, int setUp, const SetUp& frame, const Visit& visit) {
    for (const Operation& o : work.operations) {
        if (o.setUp != setUp || o.kind == OperationKind::edge_break) continue;
        for (std::size_t place = 0; place < o.passes.size(); ++place) {
            const double z = lowestPoint(o, place, frame, work.needsTurnForOutline);
            if (o.kind == OperationKind::drilling) {
                for (const Pass& pass : o.passes[place])
                    for (const Vec2& p : pass.points)
                        visit(o, std::vector<Vec2>{p}, z);
                continue;
            }
            for (const std::vector<Vec2>& way : runsOf(o.passes[place], linkFor(*o.tool)))
                visit(o, way, z);
        }
    }
}

/// One set-up carried out: what its tools left, and where they went into the part.
HeightField carriedOut(const OperationPlan& work, int number, const SetUp& setUp, HeightField field,
                       std::vector<Gouge>& gouges, const Task& task) {
    HeightField part = field;
    part.height_mm.assign(part.height_mm.size(), -1e300);
    const Crossings crossings = crossingsOf(setUp.mesh, part, task);
    for (std::size_t c = 0; c < crossings.size(); ++c)
        if (!crossings[c].empty()) part.height_mm[c] = crossings[c].back();
    std::map<std::string, Gouge> deepest;
    overWays(work, number, setUp, [&](const Operation& o, const std::vector<Vec2>& way, double z) {
        task.check();
        const ToolEnd end = endOf(o);
        sweep(field, way, z, end);
        Gouge* own = nullptr;
        nearWay(part, way, end.radius_mm - kAllowed_mm, [&](std::size_t i, std::size_t j, double distance) {
            const double depth = part.of(i, j) - (z + end.above(distance));
            if (depth <= kAllowed_mm) return;
            if (own == nullptr) {
                const std::string by = std::string(nameOf(o.kind)) + ", " + o.tool->title;
                own = &deepest[by];
                own->by = by;
            }
            if (depth <= own->depth_mm) return;
            own->depth_mm = depth;
            const Vec2 p = part.at(i, j);
            own->place = rotationToUp(setUp.direction).transpose() * Vec3(p.x(), p.y(), part.of(i, j));
        });
    });
    for (auto& [name, gouge] : deepest)
        gouges.push_back(std::move(gouge));
    return field;
}

/// A piece of blank in columns where the part has nothing.
struct Standing {
    double volume_mm3 = 0, highest_mm = 0;
    Vec2 place = Vec2::Zero();
    bool hangsOnPart = false;
};

std::vector<Standing> piecesOf(const std::vector<float>& standing, const Crossings& part, const HeightField& grid) {
    std::vector<Standing> pieces;
    std::vector<char> seen(standing.size(), 0);
    std::vector<std::size_t> open;
    for (std::size_t start = 0; start < standing.size(); ++start) {
        if (seen[start] != 0 || !(standing[start] > kCut_mm)) continue;
        Standing piece;
        open.assign(1, start);
        seen[start] = 1;
        while (!open.empty()) {
            const std::size_t c = open.back();
            open.pop_back();
            const std::size_t i = c % grid.columns, j = c / grid.columns;
            piece.volume_mm3 += double(standing[c]) * grid.step_mm * grid.step_mm;
            if (double(standing[c]) > piece.highest_mm) {
                piece.highest_mm = double(standing[c]);
                piece.place = grid.at(i, j);
            }
            const auto look = [&](std::size_t next) {
                if (!part[next].empty()) piece.hangsOnPart = true;
                if (seen[next] != 0 || !(standing[next] > kCut_mm)) return;
                seen[next] = 1;
                open.push_back(next);
            };
            if (i > 0) look(c - 1);
            if (i + 1 < grid.columns) look(c + 1);
            if (j > 0) look(c - grid.columns);
            if (j + 1 < grid.rows) look(c + grid.columns);
        }
        pieces.push_back(piece);
    }
    return pieces;
}

}  // namespace

void sweep(HeightField& field, const std::vector<Vec2>& way, double z_mm, const ToolEnd& end) {
    nearWay(field, way, end.radius_mm, [&](std::size_t i, std::size_t j, double distance) {
        double& h = field.of(i, j);
        h = std::min(h, z_mm + end.above(distance));
    });
}

RemovalProof proveRemoval(const std::vector<SetUp>& setUps, const OperationPlan& work, const Vec3& blank_mm,
                          double grid_mm, const Task& task) {
    RemovalProof proof;
    const SetUp& base = setUps.front();
    const Box3 box = boundsOf(base.mesh);
    double widest = 0;
    for (const Operation& o : work.operations)
        widest = std::max(widest, o.tool->diameter_mm);
    const Vec2 room = Vec2::Constant(widest + 1);
    const Vec2 low = box.low.head<2>() - room, high = box.high.head<2>() + room;
    proof.grid_mm = grid_mm > 0 ? grid_mm : std::max(kFinestGrid_mm, std::sqrt((high - low).prod() / kCells));
    const double step = proof.grid_mm;
    const double top = box.low.z() + blank_mm.z();

    // All set-ups, each in its own frame, and how to get there from the first one's.
    std::vector<HeightField> fields;
    std::vector<Mat3> turn;
    const Mat3 toPart = rotationToUp(base.direction).transpose();
    for (std::size_t s = 0; s < setUps.size(); ++s) {
        const SetUp& setUp = setUps[s];
        const Box3 own = boundsOf(setUp.mesh);
        turn.push_back(rotationToUp(setUp.direction) * toPart);
        HeightField whole = s == 0 ? fieldOver(low, high, step, top)
                                   : fieldOver(own.low.head<2>() - room, own.high.head<2>() + room, step, 1e300);
        fields.push_back(carriedOut(work, static_cast<int>(s), setUp, std::move(whole), proof.gouges, task));
    }
    std::sort(proof.gouges.begin(), proof.gouges.end(), [](const Gouge& a, const Gouge& b) {
        return a.depth_mm != b.depth_mm ? a.depth_mm > b.depth_mm : a.by < b.by;
    });

    const HeightField& first = fields.front();
    const Crossings part = crossingsOf(base.mesh, first, task);
    const auto remains = [&](const Vec3& p) {
        for (std::size_t s = 1; s < fields.size(); ++s) {
            const Vec3 q = turn[s] * p;
            const HeightField& f = fields[s];
            const double x = (q.x() - f.low.x()) / step, y = (q.y() - f.low.y()) / step;
            if (x < 0 || y < 0 || x >= static_cast<double>(f.columns) || y >= static_cast<double>(f.rows)) continue;
            if (q.z() > f.of(static_cast<std::size_t>(x), static_cast<std::size_t>(y))) return false;
        }
        return true;
    };
    const bool hasSides = fields.size() > 1;
    struct Row {
        double left = 0, taken = 0, kept = 0, cut = 0, most = 0;
        Vec3 mostAt = Vec3::Zero();
        bool isFree = true;
    };
    std::vector<Row> rows(first.rows);
    std::vector<float> standing(first.columns * first.rows, 0);  // in columns without part, mm
    const Region& outline = base.outline;
    const double cell = step * step;
    // A column belongs to the outline's inside when its middle does; the slot around it must be through.
    inShares(first.rows, 4, [&](std::size_t begin, std::size_t end) {
        for (std::size_t j = begin; j < end; ++j) {
            task.check();
            Row& row = rows[j];
            for (std::size_t i = 0; i < first.columns; ++i) {
                const Vec2 p = first.at(i, j);
                const double h = first.of(i, j);
                if (!contains(outline, p)) continue;
                const std::vector<float>& c = part[j * first.columns + i];
                // Pieces of the column: those of the part, and those between.
                double left = 0, middle = box.low.z();
                double from = box.low.z();
                const auto piece = [&](double a, double b, bool isPart) {
                    if (!(b > a)) return;
                    double kept = 0, moment = 0;
                    const double above = std::min(b, h);
                    if (above > a) {
                        const int samples = hasSides ? std::max(1, static_cast<int>(std::ceil((above - a) / step))) : 1;
                        const double part_mm = (above - a) / samples;
                        for (int k = 0; k < samples; ++k) {
                            const double z = a + (k + 0.5) * part_mm;
                            if (hasSides && !remains({p.x(), p.y(), z})) continue;
                            kept += part_mm;
                            moment += part_mm * z;
                        }
                    }
                    row.kept += kept * cell;
                    if (isPart) {
                        row.taken += (b - a - kept) * cell;
                    } else if (kept > 0) {
                        left += kept;
                        middle = moment / kept;
                    }
                };
                for (std::size_t k = 0; k + 1 < c.size(); k += 2) {
                    piece(from, c[k], false);
                    piece(c[k], c[k + 1], true);
                    from = c[k + 1];
                }
                piece(from, top, false);
                if (c.empty()) {
                    standing[j * first.columns + i] = static_cast<float>(left);
                    row.kept -= left * cell;  // unless it hangs on the part
                    continue;
                }
                row.left += left * cell;
                if (left > row.most) {
                    row.most = left;
                    row.mostAt = toPart * Vec3(p.x(), p.y(), middle);
                }
            }
        }
    });
    double kept = 0, most = 0;
    for (const Row& row : rows) {
        kept += row.kept;
        proof.leftover_mm3 += row.left;
        proof.taken_mm3 += row.taken;
        if (row.most > most) {
            most = row.most;
            proof.largestLeftover = row.mostAt;
        }
    }
    for (const Standing& piece : piecesOf(standing, part, first)) {
        if (!piece.hangsOnPart) {
            proof.looseCores += piece.volume_mm3 > kCore_mm3 ? 1 : 0;
            continue;
        }
        kept += piece.volume_mm3;
        proof.leftover_mm3 += piece.volume_mm3;
        if (piece.highest_mm > most) {
            most = piece.highest_mm;
            proof.largestLeftover = toPart * Vec3(piece.place.x(), piece.place.y(), box.centre().z());
        }
    }
    // Around the outline: some place on every ray out of it must be cut through.
    // A deep outline is cut half from either side: here the upper half is looked at, the lower one mirrors it.
    const double through = work.needsTurnForOutline ? box.centre().z() : box.low.z();
    proof.isFreed = true;
    for (const Ring& ring : outline)
        for (std::size_t k = 0; k < ring.size() && proof.isFreed; ++k) {
            const Vec2 a = ring[k], b = ring[(k + 1) % ring.size()];
            const double length = (b - a).norm();
            if (!(length > 0)) continue;
            const Vec2 out = Vec2((b - a).y(), -(b - a).x()) / length;
            const int places = std::max(1, static_cast<int>(length / step));
            for (int m = 0; m < places && proof.isFreed; ++m) {
                const Vec2 at = a + (b - a) * ((m + 0.5) / places);
                bool isCut = false;
                for (double d = step; d < widest + 1 && !isCut; d += 0.5 * step) {
                    const Vec2 q = (at + d * out - first.low) / step;
                    if (q.x() < 0 || q.y() < 0 || q.x() >= static_cast<double>(first.columns) ||
                        q.y() >= static_cast<double>(first.rows))
                        break;
                    isCut = first.of(static_cast<std::size_t>(q.x()), static_cast<std::size_t>(q.y())) <= through;
                }
                proof.isFreed = isCut;
            }
        }
    proof.asked_mm3 = blank_mm.prod() - std::abs(volumeOf(base.mesh));
    proof.removed_mm3 = blank_mm.prod() - kept;
    return proof;
}

}  // namespace waybench::machined
