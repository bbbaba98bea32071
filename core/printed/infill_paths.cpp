#include "core/printed/infill_paths.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace waybench::printed {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr std::size_t kLookAhead = 24;  // lines to choose the next one from; hatches come in order of line

/// The bend of a line that is not straight: offsets across it at even steps along it, repeated.
struct Wave {
    double length_mm = 0;       ///< of one repeat along the line
    std::vector<Vec2> offsets;  ///< share along, mm across; starts at the line's own start
    double pathOverAdvance = 1;
};

Wave honeycombWave(double edge) {
    const double rise = edge * std::sin(kPi / 3), run = edge * std::cos(kPi / 3), repeat = 2 * (edge + run);
    Wave wave{repeat, {}, 4.0 / 3.0};
    wave.offsets = {{0, -rise / 2},
                    {edge / repeat, -rise / 2},
                    {(edge + run) / repeat, rise / 2},
                    {(2 * edge + run) / repeat, rise / 2}};
    return wave;
}

Wave gyroidWave(double length) {
    constexpr int kSteps = 16;
    Wave wave{length, {}, 0};
    const double amplitude = length / (2 * kPi);  // flanks at 45 degrees
    Vec2 before(0, 0);
    for (int i = 0; i <= kSteps; ++i) {
        const Vec2 at(length * i / kSteps, amplitude * std::sin(2 * kPi * i / kSteps));
        wave.pathOverAdvance += (at - before).norm() / length;
        before = at;
        if (i < kSteps) wave.offsets.emplace_back(static_cast<double>(i) / kSteps, at.y());
    }
    return wave;
}

std::vector<Vec2> bent(const Vec2& from, const Vec2& to, const Wave& wave) {
    const double length = (to - from).norm();
    if (length < 1e-9) return {from, to};
    const Vec2 along = (to - from) / length, across(-along.y(), along.x());
    std::vector<Vec2> points{from};
    for (double start = 0; start < length; start += wave.length_mm)
        for (const Vec2& o : wave.offsets) {
            const double at = start + o.x() * wave.length_mm;
            if (at > 0 && at < length) points.push_back(from + at * along + o.y() * across);
        }
    points.push_back(to);
    return points;
}

/// Lines joined into tracks, nearest end first among the next few; each line is bent when a wave is given.
std::vector<Track> joined(const std::vector<Segment2>& lines, double reach_mm, const Wave* wave) {
    std::vector<Track> tracks;
    std::vector<bool> used(lines.size(), false);
    std::size_t first = 0;
    Track track;
    while (first < lines.size()) {
        if (used[first]) {
            ++first;
            continue;
        }
        std::size_t best = first;
        bool isReversed = false;
        double nearest = 1e300;
        if (!track.points.empty())
            for (std::size_t i = first, seen = 0; i < lines.size() && seen < kLookAhead; ++i) {
                if (used[i]) continue;
                ++seen;
                const double toStart = (lines[i].from - track.points.back()).norm();
                const double toEnd = (lines[i].to - track.points.back()).norm();
                if (std::min(toStart, toEnd) < nearest) {
                    nearest = std::min(toStart, toEnd);
                    best = i;
                    isReversed = toEnd < toStart;
                }
            }
        used[best] = true;
        if (!track.points.empty() && nearest > reach_mm) {
            tracks.push_back(std::move(track));
            track = {};
        }
        const Vec2 from = isReversed ? lines[best].to : lines[best].from;
        const Vec2 to = isReversed ? lines[best].from : lines[best].to;
        if (wave) {
            const std::vector<Vec2> points = bent(from, to, *wave);
            track.points.insert(track.points.end(), points.begin(), points.end());
        } else {
            track.points.push_back(from);
            track.points.push_back(to);
        }
    }
    if (!track.points.empty()) tracks.push_back(std::move(track));
    return tracks;
}

void addRaster(std::vector<Track>& tracks, const Region& region, double angle, double spacing, const Wave* wave) {
    std::vector<Track> more = joined(hatch(region, angle, spacing, 0.5 * spacing), 2 * spacing, wave);
    tracks.insert(tracks.end(), std::make_move_iterator(more.begin()), std::make_move_iterator(more.end()));
}

}  // namespace

std::vector<Track> ringTracks(const Region& lines) {
    std::vector<Track> tracks;
    for (const Ring& ring : lines)
        tracks.push_back({ring, true});
    return tracks;
}

std::vector<Track> rasterTracks(const Region& region, double angle_rad, double spacing_mm) {
    std::vector<Track> tracks;
    if (!region.empty()) addRaster(tracks, region, angle_rad, spacing_mm, nullptr);
    return tracks;
}

std::vector<Track> infillTracks(const Region& region, InfillPattern pattern, double share, double spacing_mm,
                                bool isOddLayer) {
    std::vector<Track> tracks;
    if (region.empty() || share <= 0) return tracks;
    const double angle = isOddLayer ? -kPi / 4 : kPi / 4;
    const double step = spacing_mm / share;
    if (share >= 1) return rasterTracks(region, angle, spacing_mm);
    switch (pattern) {
        case InfillPattern::lines:
            addRaster(tracks, region, angle, step, nullptr);
            break;
        case InfillPattern::grid:
            addRaster(tracks, region, angle, 2 * step, nullptr);
            addRaster(tracks, region, angle + kPi / 2, 2 * step, nullptr);
            break;
        case InfillPattern::triangles:
            for (int i = 0; i < 3; ++i)
                addRaster(tracks, region, kPi / 4 + i * kPi / 3, 3 * step, nullptr);
            break;
        case InfillPattern::honeycomb: {
            const Wave wave = honeycombWave(1.155 * step);
            addRaster(tracks, region, angle, wave.pathOverAdvance * step, &wave);
            break;
        }
        case InfillPattern::gyroid: {
            const Wave wave = gyroidWave(3.09 * step);
            addRaster(tracks, region, angle, wave.pathOverAdvance * step, &wave);
            break;
        }
    }
    return tracks;
}

double lengthOf(const Track& track) {
    double length = 0;
    for (std::size_t i = 1; i < track.points.size(); ++i)
        length += (track.points[i] - track.points[i - 1]).norm();
    if (track.isClosed && track.points.size() > 1) length += (track.points.front() - track.points.back()).norm();
    return length;
}

}  // namespace waybench::printed
