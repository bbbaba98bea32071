#pragma once
#include <QColor>
#include <QImage>
#include <array>
#include <cstdint>
#include <span>
#include <vector>

#include "app/twinview/camera.h"
#include "core/geometry/solid.h"

namespace waybench {

/// A solid made ready for drawing: corner normals per face, edges where faces meet. Made once per solid.
class PaintableSolid {
public:
    explicit PaintableSolid(const Solid& solid);
    const Solid& solid() const { return *solid_; }

private:
    friend class MeshPainter;
    const Solid* solid_;
    std::vector<std::array<Vec3, 3>> cornerNormals_;
    struct Edge {
        std::uint32_t a, b;
    };
    std::vector<Edge> edges_;
};

/// What to show on the surface and how.
struct PaintStyle {
    QColor ground = Qt::transparent;
    QColor body = QColor(0xc9, 0xcf, 0xd6);
    QColor edge = QColor(0x2b, 0x32, 0x3a);
    QColor highlight = QColor(0xf0, 0xa2, 0x02);
    std::span<const Vec3> displacement;  ///< per vertex, mm; empty = undeformed
    double displacementScale = 1;        ///< common to both views
    std::span<const double> field;  ///< per vertex, coloured by fieldColour(field / fieldMaximum); empty = body colour
    double fieldMaximum = 1;        ///< shared by both views
    std::vector<int> highlightedFaces;  ///< face indices
    int supersampling = 2;              ///< 1 while dragging, 2 at rest
};

/// Picture with the triangle seen at every pixel of it (-1 = ground), row by row in device pixels of `image`.
struct PaintedMesh {
    QImage image;
    std::vector<std::int32_t> triangleAt;
    int triangleAtPixel(QPointF logical) const;  ///< -1 outside or ground
};

/// Software rasteriser with a depth buffer; needs no display and no graphics hardware, so that view, page, thumbnails
/// and tests draw the very same picture. The result does not depend on anything but its arguments.
class MeshPainter {
public:
    /// @param size logical size; the image has size * ratio device pixels and that device pixel ratio
    static PaintedMesh paint(const PaintableSolid& mesh, const Camera& camera, QSize size, double ratio,
                             const PaintStyle& style);
};

}  // namespace waybench
