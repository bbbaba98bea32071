#include "core/printed/track.h"

#include <algorithm>
#include <iterator>
#include <utility>

namespace waybench::printed {
namespace {

constexpr std::size_t kLookAhead = 24;  // curves to choose the next one from; they come in order of row

struct Choice {
    std::size_t curve = 0;
    double distance_mm = 0;
    bool isReversed = false;
};

Choice nearestTo(const Vec2& place, const std::vector<Curve>& curves, const std::vector<bool>& used,
                 std::size_t first) {
    Choice best{first, 1e300, false};
    for (std::size_t i = first, seen = 0; i < curves.size() && seen < kLookAhead; ++i) {
        if (used[i]) continue;
        ++seen;
        const double toStart = (curves[i].front() - place).norm(), toEnd = (curves[i].back() - place).norm();
        if (std::min(toStart, toEnd) < best.distance_mm) best = {i, std::min(toStart, toEnd), toEnd < toStart};
    }
    return best;
}

}  // namespace

double lengthOf(const Track& track) {
    double length = waybench::lengthOf(track.points);
    if (track.isClosed && track.points.size() > 1) length += (track.points.front() - track.points.back()).norm();
    return length;
}

std::vector<Track> ringTracks(const Region& lines) {
    std::vector<Track> tracks;
    tracks.reserve(lines.size());
    for (const Ring& ring : lines)
        tracks.push_back({ring, true});
    return tracks;
}

std::vector<Track> joinedTracks(std::vector<Curve> curves, double reach_mm) {
    std::erase_if(curves, [](const Curve& curve) { return curve.empty(); });
    std::vector<Track> tracks;
    std::vector<bool> used(curves.size(), false);
    std::size_t first = 0;
    Track track;
    while (first < curves.size()) {
        if (used[first]) {
            ++first;
            continue;
        }
        Choice next{first, 0, false};
        if (!track.points.empty()) next = nearestTo(track.points.back(), curves, used, first);
        if (next.distance_mm > reach_mm) tracks.push_back(std::exchange(track, {}));
        used[next.curve] = true;
        Curve& curve = curves[next.curve];
        if (next.isReversed) std::reverse(curve.begin(), curve.end());
        if (track.points.empty())
            track.points = std::move(curve);
        else
            track.points.insert(track.points.end(), curve.begin(), curve.end());
    }
    if (!track.points.empty()) tracks.push_back(std::move(track));
    return tracks;
}

}  // namespace waybench::printed
