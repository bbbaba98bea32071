#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/geometry/adjacency.h"
#include "core/geometry/circle_fit.h"
#include "core/geometry/solid.h"

namespace waybench {

namespace {

constexpr double kDegree = M_PI / 180;
constexpr double kFlatAngle = 0.3 * kDegree;
constexpr std::size_t kFewestStrips = 4;  ///< fewer flats than this are chamfers, not a round
constexpr std::uint32_t kNone = UINT32_MAX;

/// Facets that lie in one plane: a flat face, or one strip of a faceted round.
struct Patch {
    std::vector<std::uint32_t> triangles, vertices, smoothNeighbours;
    Vec3 normal = Vec3::Zero(), centroid = Vec3::Zero();
    double area = 0;
};

struct Round {
    Vec3 axis = Vec3::Zero(), point = Vec3::Zero();
    double radius = 0;
    bool isHollow = false;
};

class Segmentation {
public:
    Segmentation(const Mesh& mesh, double smoothAngle)
        : mesh_(mesh), smoothCosine_(std::cos(smoothAngle)), twins_(edgeTwins(mesh.triangles)) {
        const Vec3 size = mesh.vertices.empty() ? Vec3(Vec3::Zero()) : boundsOf(mesh).size();
        noise_ = std::max(2e-6 * size.norm(), 1e-6);
        findPatches();
        orderPatches();
        linkPatches();
    }

    Solid run() {
        faceOfPatch_.assign(patches_.size(), kNone);
        mark_.assign(patches_.size(), 0);
        inBend_.assign(patches_.size(), false);
        for (std::uint32_t p = 0; p < patches_.size(); ++p)
            for (std::uint32_t q : patches_[p].smoothNeighbours)
                if (p < q && faceOfPatch_[p] == kNone && faceOfPatch_[q] == kNone && !(inBend_[p] && inBend_[q]))
                    growRound(p, q);
        groupTheRest();
        return solid();
    }

private:
    void findPatches() {
        const std::size_t count = mesh_.triangles.size();
        std::vector<Vec3> normals(count);
        std::vector<double> areas(count);
        for (std::size_t t = 0; t < count; ++t) {
            const auto& c = mesh_.triangles[t];
            normals[t] = normalOf(mesh_, t);
            areas[t] =
                0.5 *
                (mesh_.vertices[c[1]] - mesh_.vertices[c[0]]).cross(mesh_.vertices[c[2]] - mesh_.vertices[c[0]]).norm();
        }
        std::vector<std::uint32_t> order(count);
        std::iota(order.begin(), order.end(), 0u);
        std::stable_sort(order.begin(), order.end(),
                         [&](std::uint32_t a, std::uint32_t b) { return areas[a] > areas[b]; });
        patchOfTriangle_.assign(count, kNone);
        const double flatCosine = std::cos(kFlatAngle);
        for (std::uint32_t seed : order) {
            if (patchOfTriangle_[seed] != kNone) continue;
            const auto id = static_cast<std::uint32_t>(patches_.size());
            Patch patch;
            const Vec3 normal = normals[seed], on = mesh_.vertices[mesh_.triangles[seed][0]];
            patchOfTriangle_[seed] = id;
            patch.triangles.push_back(seed);
            for (std::size_t i = 0; i < patch.triangles.size(); ++i)
                for (std::uint32_t k = 0; k < 3; ++k) {
                    const std::uint32_t twin = twins_[3 * patch.triangles[i] + k];
                    if (twin == kNoEdge || patchOfTriangle_[twin / 3] != kNone) continue;
                    const std::uint32_t t = twin / 3;
                    double off = 0, longest = 0;
                    for (int j = 0; j < 3; ++j) {
                        const Vec3& v = mesh_.vertices[mesh_.triangles[t][j]];
                        off = std::max(off, std::abs(normal.dot(v - on)));
                        longest = std::max(longest, (v - mesh_.vertices[mesh_.triangles[t][(j + 1) % 3]]).norm());
                    }
                    // The normal of a needle is noise: its corners decide alone.
                    const bool isNeedle = areas[t] < 20 * noise_ * longest;
                    if (off > 10 * noise_ || (!isNeedle && normals[t].dot(normal) < flatCosine)) continue;
                    patchOfTriangle_[t] = id;
                    patch.triangles.push_back(t);
                }
            for (std::uint32_t t : patch.triangles) {
                const auto& c = mesh_.triangles[t];
                patch.normal += areas[t] * normals[t];
                patch.area += areas[t];
                patch.centroid += areas[t] * (mesh_.vertices[c[0]] + mesh_.vertices[c[1]] + mesh_.vertices[c[2]]) / 3;
                patch.vertices.insert(patch.vertices.end(), c.begin(), c.end());
            }
            if (patch.area > 0) patch.centroid /= patch.area;
            if (patch.normal.norm() > 0) patch.normal.normalize();
            std::sort(patch.vertices.begin(), patch.vertices.end());
            patch.vertices.erase(std::unique(patch.vertices.begin(), patch.vertices.end()), patch.vertices.end());
            patches_.push_back(std::move(patch));
        }
    }

    /// By place, so that the outcome does not hang on the order of facets in a file.
    void orderPatches() {
        std::vector<std::array<double, 3>> keys;
        for (const Patch& p : patches_)
            keys.push_back(
                {std::round(p.centroid.x() * 1e4), std::round(p.centroid.y() * 1e4), std::round(p.centroid.z() * 1e4)});
        std::vector<std::uint32_t> order(patches_.size());
        std::iota(order.begin(), order.end(), 0u);
        std::stable_sort(order.begin(), order.end(),
                         [&](std::uint32_t a, std::uint32_t b) { return keys[a] < keys[b]; });
        std::vector<Patch> sorted;
        for (std::uint32_t p : order) {
            for (std::uint32_t t : patches_[p].triangles)
                patchOfTriangle_[t] = static_cast<std::uint32_t>(sorted.size());
            sorted.push_back(std::move(patches_[p]));
        }
        patches_ = std::move(sorted);
    }

    void linkPatches() {
        for (std::uint32_t p = 0; p < patches_.size(); ++p) {
            auto& neighbours = patches_[p].smoothNeighbours;
            for (std::uint32_t t : patches_[p].triangles)
                for (std::uint32_t k = 0; k < 3; ++k) {
                    const std::uint32_t twin = twins_[3 * t + k];
                    if (twin == kNoEdge) continue;
                    const std::uint32_t q = patchOfTriangle_[twin / 3];
                    if (q != p && patches_[p].normal.dot(patches_[q].normal) > smoothCosine_) neighbours.push_back(q);
                }
            std::sort(neighbours.begin(), neighbours.end());
            neighbours.erase(std::unique(neighbours.begin(), neighbours.end()), neighbours.end());
        }
    }

    /// Cylinder through all corners of the patches, if there is one within noise.
    bool fit(const std::vector<std::uint32_t>& patches, Round& round) const {
        // The axis is the direction that no normal has a share in.
        Mat3 spread = Mat3::Zero();
        for (std::uint32_t p : patches)
            spread += patches_[p].area * patches_[p].normal * patches_[p].normal.transpose();
        const Eigen::SelfAdjointEigenSolver<Mat3> eigen(spread);
        if (!(eigen.eigenvalues()[1] > 1e-9 * eigen.eigenvalues()[2])) return false;
        Vec3 axis = eigen.eigenvectors().col(0);
        // One sense for one axis, so that the same bore reads the same in every file.
        int lead = 0;
        axis.cwiseAbs().maxCoeff(&lead);
        if (axis[lead] < 0) axis = -axis;
        const Vec3 u = axis.unitOrthogonal(), v = axis.cross(u);
        std::vector<Vec2> places;
        for (std::uint32_t p : patches)
            for (std::uint32_t i : patches_[p].vertices)
                places.emplace_back(u.dot(mesh_.vertices[i]), v.dot(mesh_.vertices[i]));
        const auto circle = fittedCircle(places);
        if (!circle) return false;
        round.axis = axis;
        round.point = circle->centre.x() * u + circle->centre.y() * v;
        round.radius = circle->radius;
        const Vec3 outward = patches_[patches[0]].centroid - round.point;
        round.isHollow = outward.dot(patches_[patches[0]].normal) < 0;
        for (std::uint32_t p : patches)
            if (!liesOn(round, p)) return false;
        return true;
    }

    bool liesOn(const Round& round, std::uint32_t p) const {
        const Patch& patch = patches_[p];
        if (std::abs(patch.normal.dot(round.axis)) > std::sin(1.5 * kDegree)) return false;
        const double slack = std::max(std::min(1e-4 * round.radius, 0.002), 4 * noise_);
        const auto radial = [&](const Vec3& at) {
            const Vec3 d = at - round.point;
            return Vec3(d - d.dot(round.axis) * round.axis);
        };
        for (std::uint32_t i : patch.vertices)
            if (std::abs(radial(mesh_.vertices[i]).norm() - round.radius) > slack) return false;
        const Vec3 out = radial(patch.centroid).normalized();
        return (round.isHollow ? -out.dot(patch.normal) : out.dot(patch.normal)) > smoothCosine_;
    }

    void growRound(std::uint32_t p, std::uint32_t q) {
        Round round;
        std::vector<std::uint32_t> strips{p, q};
        if (!fit(strips, round)) return;
        for (int pass = 0; pass < 2; ++pass) {  // once more from the better fit of all strips of the first pass
            std::vector<std::uint32_t> grown{p};
            mark_[p] = ++stamp_;
            for (std::size_t i = 0; i < grown.size(); ++i)
                for (std::uint32_t n : patches_[grown[i]].smoothNeighbours) {
                    if (faceOfPatch_[n] != kNone || mark_[n] == stamp_) continue;
                    mark_[n] = stamp_;
                    if (liesOn(round, n)) grown.push_back(n);
                }
            strips = grown;
            if (strips.size() < kFewestStrips || !fit(strips, round)) return;
        }
        if (hasOneWideStrip(round, strips)) return;
        if (isBend(round, strips)) {
            for (std::uint32_t s : strips)
                inBend_[s] = true;
            return;
        }
        Face face;
        face.kind = SurfaceKind::cylinder;
        face.point = round.point;
        face.direction = round.axis;
        face.radius_mm = round.radius;
        face.isHollow = round.isHollow;
        face.isFullTurn = closesOnItself(round, strips);
        for (std::uint32_t s : strips)
            faceOfPatch_[s] = static_cast<std::uint32_t>(faces_.size());
        faces_.push_back(face);
    }

    using Arcs = std::vector<std::pair<double, double>>;

    /// From where to where each strip reaches around the axis, rad.
    Arcs arcsOf(const Round& round, const std::vector<std::uint32_t>& strips) const {
        Arcs arcs;
        const Vec3 u = round.axis.unitOrthogonal();
        for (std::uint32_t s : strips) {
            const Vec3 d = patches_[s].centroid - round.point;
            const Vec3 middle = (d - d.dot(round.axis) * round.axis).normalized(), side = round.axis.cross(middle);
            double low = 0, high = 0;
            for (std::uint32_t i : patches_[s].vertices) {
                const Vec3 r = mesh_.vertices[i] - round.point;
                const double angle = std::atan2(r.dot(side), r.dot(middle));
                low = std::min(low, angle);
                high = std::max(high, angle);
            }
            const double at = std::atan2(middle.dot(round.axis.cross(u)), middle.dot(u));
            arcs.emplace_back(at + low, at + high);
        }
        return arcs;
    }

    /// A flat with a piece of a tangent round on either side also has its corners near one very large circle.
    bool hasOneWideStrip(const Round& round, const std::vector<std::uint32_t>& strips) const {
        std::vector<double> widths;
        for (const auto& [low, high] : arcsOf(round, strips))
            widths.push_back(high - low);
        std::sort(widths.begin(), widths.end());
        return widths.back() > 3 * widths[widths.size() - 2];
    }

    /// A faceted bend is made of short straight pieces: strips that go on smoothly at both ends into others alike.
    bool isBend(const Round& round, const std::vector<std::uint32_t>& strips) const {
        std::size_t goingOn = 0;
        for (std::uint32_t s : strips) {
            bool before = false, after = false;
            for (std::uint32_t n : patches_[s].smoothNeighbours) {
                const Vec3 d = patches_[n].centroid - patches_[s].centroid;
                const double along = d.dot(round.axis);
                if (patches_[n].area < 0.3 * patches_[s].area || std::abs(along) < 0.5 * d.norm()) continue;
                (along < 0 ? before : after) = true;
            }
            goingOn += before && after ? 1 : 0;
        }
        return 2 * goingOn > strips.size();
    }

    bool closesOnItself(const Round& round, const std::vector<std::uint32_t>& strips) const {
        Arcs arcs = arcsOf(round, strips);
        for (std::size_t i = 0, n = arcs.size(); i < n; ++i)
            arcs.emplace_back(arcs[i].first + 2 * M_PI, arcs[i].second + 2 * M_PI);
        std::sort(arcs.begin(), arcs.end());
        const double begin = arcs.front().first;
        double reached = arcs.front().second;
        for (const auto& [low, high] : arcs) {
            if (low > reached + 1e-3) break;
            reached = std::max(reached, high);
        }
        return reached >= begin + 2 * M_PI - 1e-3;
    }

    /// A flat stands by itself where it is much larger than the facets it runs into smoothly; small facets that run
    /// into each other make one free-form face.
    bool isFlat(std::uint32_t p) const {
        double neighbours = 0;
        int count = 0;
        for (std::uint32_t n : patches_[p].smoothNeighbours)
            if (faceOfPatch_[n] == kNone) neighbours += patches_[n].area, ++count;
        return count == 0 || patches_[p].area > 6 * neighbours / count;
    }

    void groupTheRest() {
        std::vector<bool> flat(patches_.size(), false);
        for (std::uint32_t p = 0; p < patches_.size(); ++p)
            flat[p] = faceOfPatch_[p] == kNone && isFlat(p);
        for (std::uint32_t p = 0; p < patches_.size(); ++p) {
            if (faceOfPatch_[p] != kNone) continue;
            Face face;
            face.kind = SurfaceKind::plane;
            face.direction = patches_[p].normal;
            const auto id = static_cast<std::uint32_t>(faces_.size());
            faceOfPatch_[p] = id;
            if (!flat[p]) {
                std::vector<std::uint32_t> grown{p};
                for (std::size_t i = 0; i < grown.size(); ++i)
                    for (std::uint32_t n : patches_[grown[i]].smoothNeighbours) {
                        if (faceOfPatch_[n] != kNone || flat[n]) continue;
                        faceOfPatch_[n] = id;
                        grown.push_back(n);
                    }
                if (grown.size() > 1) {
                    face.kind = SurfaceKind::other;
                    face.direction = Vec3::Zero();
                }
            }
            faces_.push_back(face);
        }
    }

    Solid solid() const {
        Solid result{mesh_, std::vector<std::uint32_t>(mesh_.triangles.size(), 0), faces_};
        for (std::size_t t = 0; t < mesh_.triangles.size(); ++t)
            result.faceOfTriangle[t] = faceOfPatch_[patchOfTriangle_[t]];
        return namedBySize(std::move(result));
    }

    const Mesh& mesh_;
    double smoothCosine_, noise_ = 0;
    std::vector<std::uint32_t> twins_, patchOfTriangle_, faceOfPatch_;
    std::vector<Patch> patches_;
    std::vector<Face> faces_;
    std::vector<std::uint32_t> mark_;  ///< stamp of the last growth that looked at the patch
    std::uint32_t stamp_ = 0;
    std::vector<bool> inBend_;  ///< found to be part of a faceted bend: not tried again as a cylinder
};

}  // namespace

Solid segmented(Mesh mesh, double smoothAngle_deg) {
    return Segmentation(mesh, smoothAngle_deg * kDegree).run();
}

}  // namespace waybench
