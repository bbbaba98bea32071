#include "app/twinview/mesh_painter.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

#include "app/twinview/colour_scale.h"

namespace waybench {

namespace {

struct Rgb {
    float r, g, b;
};

Rgb toRgb(const QColor& c) {
    return {float(c.redF()), float(c.greenF()), float(c.blueF())};
}

QRgb packed(const Rgb& c, float light) {
    auto byte = [&](float v) { return int(std::lround(255.0f * std::clamp(v * light, 0.0f, 1.0f))); };
    return qRgba(byte(c.r), byte(c.g), byte(c.b), 255);
}

/// Key light from the eye's upper left, a weak fill from below right; never black.
float lightOn(const Vec3& normalInView) {
    static const Vec3 kKey = Vec3(-0.45, 0.62, 0.64).normalized(), kFill = Vec3(0.6, -0.3, 0.5).normalized();
    const double key = std::max(0.0, normalInView.dot(kKey)), fill = std::max(0.0, normalInView.dot(kFill));
    return float(0.46 + 0.50 * key + 0.12 * fill);
}

/// Device-pixel canvas with depth.
struct Canvas {
    int width, height;
    std::vector<QRgb> colour;
    std::vector<float> depth;
    std::vector<std::int32_t> triangle;

    Canvas(int w, int h, QRgb ground)
        : width(w),
          height(h),
          colour(std::size_t(w) * h, ground),
          depth(std::size_t(w) * h, -std::numeric_limits<float>::infinity()),
          triangle(std::size_t(w) * h, -1) {}
};

struct Corner {
    double x, y, z;
    float light, field;
};

void fillTriangle(Canvas& canvas, const std::array<Corner, 3>& c, std::int32_t index, const std::vector<Rgb>& palette,
                  const Rgb& flat, bool byField) {
    const double area = (c[1].x - c[0].x) * (c[2].y - c[0].y) - (c[2].x - c[0].x) * (c[1].y - c[0].y);
    if (std::abs(area) < 1e-12) return;
    const int y0 = std::max(0, int(std::ceil(std::min({c[0].y, c[1].y, c[2].y}) - 0.5)));
    const int y1 = std::min(canvas.height - 1, int(std::floor(std::max({c[0].y, c[1].y, c[2].y}) - 0.5)));
    const int x0 = std::max(0, int(std::ceil(std::min({c[0].x, c[1].x, c[2].x}) - 0.5)));
    const int x1 = std::min(canvas.width - 1, int(std::floor(std::max({c[0].x, c[1].x, c[2].x}) - 0.5)));
    const double inverse = 1.0 / area;
    for (int y = y0; y <= y1; ++y) {
        const double py = y + 0.5;
        for (int x = x0; x <= x1; ++x) {
            const double px = x + 0.5;
            const double w0 = ((c[1].x - px) * (c[2].y - py) - (c[2].x - px) * (c[1].y - py)) * inverse;
            const double w1 = ((c[2].x - px) * (c[0].y - py) - (c[0].x - px) * (c[2].y - py)) * inverse;
            const double w2 = 1.0 - w0 - w1;
            if (w0 < -1e-9 || w1 < -1e-9 || w2 < -1e-9) continue;
            const auto z = float(w0 * c[0].z + w1 * c[1].z + w2 * c[2].z);
            const std::size_t at = std::size_t(y) * canvas.width + x;
            if (z <= canvas.depth[at]) continue;
            canvas.depth[at] = z;
            canvas.triangle[at] = index;
            const auto light = float(w0 * c[0].light + w1 * c[1].light + w2 * c[2].light);
            if (byField) {
                const double f = w0 * c[0].field + w1 * c[1].field + w2 * c[2].field;
                canvas.colour[at] = packed(palette[std::size_t(std::clamp(f, 0.0, 1.0) * 255.0)], light);
            } else {
                canvas.colour[at] = packed(flat, light);
            }
        }
    }
}

void drawEdge(Canvas& canvas, const Corner& a, const Corner& b, const Rgb& colour, double width_px, float lift) {
    const double dx = b.x - a.x, dy = b.y - a.y;
    const double length = std::max(1.0, std::hypot(dx, dy));
    const int steps = int(std::ceil(length * 2));
    const int reach = std::max(0, int(std::floor(width_px / 2)));
    for (int i = 0; i <= steps; ++i) {
        const double t = double(i) / steps;
        const int cx = int(std::floor(a.x + t * dx)), cy = int(std::floor(a.y + t * dy));
        const auto z = float(a.z + t * (b.z - a.z)) + lift;
        for (int y = cy - reach; y <= cy + reach; ++y) {
            for (int x = cx - reach; x <= cx + reach; ++x) {
                if (x < 0 || y < 0 || x >= canvas.width || y >= canvas.height) continue;
                const std::size_t at = std::size_t(y) * canvas.width + x;
                if (z < canvas.depth[at]) continue;
                canvas.colour[at] = packed(colour, 1.0f);
            }
        }
    }
}

}  // namespace

PaintableSolid::PaintableSolid(const Solid& solid) : solid_(&solid) {
    const Mesh& mesh = solid.mesh;
    std::map<std::pair<std::uint32_t, std::uint32_t>, Vec3> normalSum;  // (vertex, face) -> area-weighted normal
    std::map<std::pair<std::uint32_t, std::uint32_t>, std::uint32_t> firstTriangle;
    std::vector<Vec3> normals(mesh.triangles.size());
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        const auto& tri = mesh.triangles[t];
        const Vec3 n =
            (mesh.vertices[tri[1]] - mesh.vertices[tri[0]]).cross(mesh.vertices[tri[2]] - mesh.vertices[tri[0]]);
        normals[t] = n.norm() > 0 ? Vec3(n.normalized()) : Vec3::Zero();
        for (const std::uint32_t v : tri) {
            auto [it, isNew] = normalSum.try_emplace({v, solid.faceOfTriangle[t]}, n);
            if (!isNew) it->second += n;
        }
    }
    cornerNormals_.resize(mesh.triangles.size());
    for (std::size_t t = 0; t < mesh.triangles.size(); ++t) {
        const auto& tri = mesh.triangles[t];
        for (int k = 0; k < 3; ++k) {
            const Vec3 n = normalSum.at({tri[k], solid.faceOfTriangle[t]});
            const Vec3 unit = n.norm() > 0 ? Vec3(n.normalized()) : normals[t];
            cornerNormals_[t][k] = unit.dot(normals[t]) > 0.5 ? unit : normals[t];
            const std::uint32_t a = tri[k], b = tri[(k + 1) % 3];
            const auto [it, isNew] = firstTriangle.try_emplace({std::min(a, b), std::max(a, b)}, std::uint32_t(t));
            if (isNew) continue;
            const std::uint32_t other = it->second;
            const bool differs = solid.faceOfTriangle[other] != solid.faceOfTriangle[t];
            if ((differs && normals[other].dot(normals[t]) < 0.995) || normals[other].dot(normals[t]) < 0.7)
                edges_.push_back({a, b});
        }
    }
}

int PaintedMesh::triangleAtPixel(QPointF logical) const {
    const double ratio = image.devicePixelRatio();
    const int x = int(std::floor(logical.x() * ratio)), y = int(std::floor(logical.y() * ratio));
    if (x < 0 || y < 0 || x >= image.width() || y >= image.height()) return -1;
    return triangleAt[std::size_t(y) * image.width() + x];
}

PaintedMesh MeshPainter::paint(const PaintableSolid& mesh, const Camera& camera, QSize size, double ratio,
                               const PaintStyle& style) {
    const int samples = std::clamp(style.supersampling, 1, 4);
    const int width = std::max(1, int(std::lround(size.width() * ratio)));
    const int height = std::max(1, int(std::lround(size.height() * ratio)));
    Canvas canvas(width * samples, height * samples, qPremultiply(style.ground.rgba()));

    const Solid& solid = mesh.solid();
    const Vec3 right = camera.right(), up = camera.up(), eye = camera.towardsEye();
    const double pixelsPerMm = canvas.height / (2.0 * camera.halfHeight_mm);
    const bool isDeformed = style.displacement.size() == solid.mesh.vertices.size();
    const bool byField = style.field.size() == solid.mesh.vertices.size() && style.fieldMaximum > 0;

    std::vector<Corner> corners(solid.mesh.vertices.size());
    for (std::size_t v = 0; v < corners.size(); ++v) {
        Vec3 p = solid.mesh.vertices[v] - camera.target;
        if (isDeformed) p += style.displacement[v] * style.displacementScale;
        corners[v] = {canvas.width / 2.0 + p.dot(right) * pixelsPerMm, canvas.height / 2.0 - p.dot(up) * pixelsPerMm,
                      p.dot(eye), 1.0f, byField ? float(style.field[v] / style.fieldMaximum) : 0.0f};
    }
    std::vector<Rgb> palette(256);
    if (byField)
        for (int i = 0; i < 256; ++i)
            palette[std::size_t(i)] = toRgb(fieldColour(i / 255.0));
    std::vector<char> isHighlighted(solid.faces.size(), 0);
    for (const int f : style.highlightedFaces)
        if (f >= 0 && f < int(solid.faces.size())) isHighlighted[std::size_t(f)] = 1;

    const Rgb body = toRgb(style.body), highlight = toRgb(style.highlight);
    for (std::size_t t = 0; t < solid.mesh.triangles.size(); ++t) {
        const auto& tri = solid.mesh.triangles[t];
        std::array<Corner, 3> c = {corners[tri[0]], corners[tri[1]], corners[tri[2]]};
        // Seen from behind (screen y points down, so front facets wind clockwise there).
        if ((c[1].x - c[0].x) * (c[2].y - c[0].y) - (c[2].x - c[0].x) * (c[1].y - c[0].y) >= 0) continue;
        for (int k = 0; k < 3; ++k) {
            const Vec3& n = mesh.cornerNormals_[t][std::size_t(k)];
            c[std::size_t(k)].light = lightOn({n.dot(right), n.dot(up), n.dot(eye)});
        }
        const bool marked = isHighlighted[solid.faceOfTriangle[t]];
        fillTriangle(canvas, c, std::int32_t(t), palette, marked ? highlight : body, byField && !marked);
    }
    const Rgb edge = toRgb(style.edge);
    const auto lift = float(1.5 / pixelsPerMm + 0.002 * camera.halfHeight_mm);
    for (const auto& e : mesh.edges_)
        drawEdge(canvas, corners[e.a], corners[e.b], edge, ratio * samples * 1.1, lift);

    PaintedMesh result;
    result.image = QImage(width, height, QImage::Format_ARGB32_Premultiplied);
    result.triangleAt.resize(std::size_t(width) * height);
    const int share = samples * samples;
    for (int y = 0; y < height; ++y) {
        auto* line = reinterpret_cast<QRgb*>(result.image.scanLine(y));
        for (int x = 0; x < width; ++x) {
            int r = 0, g = 0, b = 0, a = 0;
            for (int sy = 0; sy < samples; ++sy) {
                const std::size_t row = std::size_t(y * samples + sy) * canvas.width + std::size_t(x) * samples;
                for (int sx = 0; sx < samples; ++sx) {
                    const QRgb c = canvas.colour[row + std::size_t(sx)];
                    r += qRed(c), g += qGreen(c), b += qBlue(c), a += qAlpha(c);
                }
            }
            line[x] = qRgba(r / share, g / share, b / share, a / share);
            result.triangleAt[std::size_t(y) * width + x] =
                canvas.triangle[std::size_t(y * samples) * canvas.width + std::size_t(x) * samples];
        }
    }
    result.image.setDevicePixelRatio(ratio);
    return result;
}

}  // namespace waybench
