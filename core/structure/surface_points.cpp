#include "core/structure/surface_points.h"

#include "core/structure/clipping.h"

namespace waybench::statics {

std::int32_t carrierOf(const Lattice& lattice, const Vec3& point, const Vec3& outward, std::int64_t facet) {
    const Grid& grid = lattice.grid;
    const Index3 home = grid.cellOf(point);
    const Vec3 size = grid.sizeOf(home);
    for (double inward : {1e-6, 0.25, 0.5, 1.0}) {
        const Vec3 inner = point - outward.cwiseProduct(size) * inward;
        const std::int32_t e = lattice.elementHolding(grid.cellOf(inner), inner, facet);
        if (e >= 0) return e;
    }
    std::int32_t nearest = -1;
    double least = 1e300;
    for (int k = -2; k <= 2; ++k)
        for (int j = -2; j <= 2; ++j)
            for (int i = -2; i <= 2; ++i) {
                const Index3 c{home[0] + i, home[1] + j, home[2] + k};
                if (c[0] < 0 || c[1] < 0 || c[2] < 0 || c[0] >= grid.cells(0) || c[1] >= grid.cells(1) ||
                    c[2] >= grid.cells(2))
                    continue;
                const std::int32_t e = lattice.elementHolding(c, point, facet);
                if (e < 0) continue;
                const double distance = (grid.lowOf(c) + 0.5 * grid.sizeOf(c) - point).squaredNorm();
                if (distance < least) {
                    least = distance;
                    nearest = e;
                }
            }
    return nearest;
}

std::vector<SurfacePoint> surfacePoints(const Lattice& lattice, const Mesh& mesh,
                                        std::span<const std::uint32_t> triangles, double& lostArea_mm2,
                                        const Task& task) {
    std::vector<SurfacePoint> points;
    lostArea_mm2 = 0;
    std::size_t done = 0;
    for (const std::uint32_t t : triangles) {
        if (++done % 256 == 0) task.check();
        const auto& corner = mesh.triangles[t];
        const Vec3 &a = mesh.vertices[corner[0]], &b = mesh.vertices[corner[1]], &c = mesh.vertices[corner[2]];
        const Vec3 doubled = (b - a).cross(c - a);
        if (!(doubled.norm() > 0)) continue;
        const Vec3 normal = doubled.normalized();
        clipToCells(lattice.grid, a, b, c, [&](const Index3&, const Piece& piece) {
            Vec3 middle = Vec3::Zero();
            for (int i = 0; i < piece.count; ++i)
                middle += piece.corner[std::size_t(i)] / piece.count;
            const std::int32_t element = carrierOf(lattice, middle, normal, t);
            for (int i = 1; i + 1 < piece.count; ++i) {
                const Vec3 &p = piece.corner[0], &q = piece.corner[std::size_t(i)],
                           &r = piece.corner[std::size_t(i) + 1];
                const double area = 0.5 * (q - p).cross(r - p).norm();
                if (!(area > 0)) continue;
                if (element < 0) {
                    lostArea_mm2 += area;
                    continue;
                }
                const Index3 cell = lattice.cellAt(std::size_t(element));
                for (const TrianglePoint& tp : trianglePoints()) {
                    const Vec3 x = tp.a * p + tp.b * q + tp.c * r;
                    points.push_back(
                        {std::size_t(element), lattice.grid.localOf(cell, x), x, normal, area * tp.weight, t});
                }
            }
        });
    }
    return points;
}

}  // namespace waybench::statics
