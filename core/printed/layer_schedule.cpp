#include "core/printed/layer_schedule.h"

#include <algorithm>
#include <cmath>

#include "core/motion/planner.h"
#include "core/printed/bead.h"
#include "core/printed/supports.h"

namespace waybench::printed {
namespace {

constexpr std::size_t kLookAhead = 48;
constexpr double kQuarter = 3.14159265358979323846 / 4;

std::size_t indexOf(PathKind kind) {
    return static_cast<std::size_t>(kind);
}

std::size_t nearestCorner(const Track& track, const Vec2& from) {
    std::size_t best = 0;
    double nearest = 1e300;
    for (std::size_t i = 0; i < track.points.size(); ++i) {
        const double distance = (track.points[i] - from).squaredNorm();
        if (distance < nearest) {
            nearest = distance;
            best = i;
        }
    }
    return best;
}

/// A track as it is run: where it starts and the points that follow.
struct Run {
    std::vector<Vec2> points;
};

/// Distance to the best start of the track; the start is a corner of a ring, or either end of a line.
double distanceTo(const Track& track, const Vec2& from) {
    if (track.isClosed) return (track.points[nearestCorner(track, from)] - from).norm();
    return std::min((track.points.front() - from).norm(), (track.points.back() - from).norm());
}

Run runFrom(const Track& track, const Vec2& from, bool hasPlace) {
    Run run{track.points};
    if (track.isClosed) {
        if (hasPlace)
            std::rotate(run.points.begin(),
                        run.points.begin() + static_cast<std::ptrdiff_t>(nearestCorner(track, from)), run.points.end());
        run.points.push_back(run.points.front());
    } else if (hasPlace && (track.points.back() - from).norm() < (track.points.front() - from).norm()) {
        std::reverse(run.points.begin(), run.points.end());
    }
    return run;
}

/// Moves along the layer, adding up time.
class Nozzle {
public:
    Nozzle(const Pace& pace, LayerTime& time, const SeeRun& seeRun) : pace_(pace), time_(time), seeRun_(seeRun) {}

    void follow(const Track& track, PathKind kind) {
        const Run run = runFrom(track, at_, hasPlace_);
        if (hasPlace_) travelTo(run.points.front());
        const std::size_t k = indexOf(kind);
        const double speed = pace_.speed_mm_s[k], acceleration = pace_.acceleration_mm_s2[k];
        moves_.clear();
        for (std::size_t i = 1; i < run.points.size(); ++i) {
            moves_.push_back({Vec3(run.points[i].x(), run.points[i].y(), 0), speed, acceleration});
            time_.path_mm[k] += (run.points[i] - run.points[i - 1]).norm();
        }
        const Vec3 start(run.points.front().x(), run.points.front().y(), 0);
        time_.path_s[k] += plannedTime(start, moves_, cornerDeviationFor(pace_.cornerSpeed_mm_s, acceleration));
        at_ = run.points.back();
        hasPlace_ = true;
        if (seeRun_) seeRun_(kind, run.points);
    }
    const Vec2& place() const { return at_; }
    bool hasPlace() const { return hasPlace_; }

private:
    void travelTo(const Vec2& to) {
        const double length = (to - at_).norm();
        time_.travel_mm += length;
        time_.travel_s += moveTime(length, pace_.travelSpeed_mm_s, pace_.travelAcceleration_mm_s2, 0, 0);
        if (length > kRetractBeyond_mm) {
            time_.retract_s += pace_.retractAndPrime_s;
            time_.retracts += 1;
        }
    }

    const Pace& pace_;
    LayerTime& time_;
    const SeeRun& seeRun_;
    Vec2 at_ = Vec2::Zero();
    bool hasPlace_ = false;
    std::vector<PathMove> moves_;
};

}  // namespace

const char* nameOf(PathKind kind) {
    switch (kind) {
        case PathKind::outer_contour:
            return "outer contour";
        case PathKind::inner_contour:
            return "inner contours";
        case PathKind::solid_fill:
            return "solid fill";
        case PathKind::infill:
            return "infill";
        case PathKind::support:
            return "supports";
        case PathKind::bridge:
            return "bridges";
        case PathKind::brim:
            return "brim";
    }
    return "";
}

Pace paceOf(const Printer& printer, const PrintingMaterial& material, double beadArea_mm2, bool isFirstLayer) {
    Pace pace;
    const double cap = flowLimitedSpeed_mm_s(printer.flowLimit_mm3_s.value * material.flowFactor.value, beadArea_mm2);
    const double speeds[kPathKinds] = {printer.speedOuterContour.value, printer.speedInnerContour.value,
                                       printer.speedSolidFill.value,    printer.speedInfill.value,
                                       printer.speedSupport.value,      printer.speedBridge.value,
                                       printer.speedFirstLayer.value};
    for (std::size_t k = 0; k < kPathKinds; ++k) {
        const double wanted = isFirstLayer ? std::min(printer.speedFirstLayer.value, speeds[k]) : speeds[k];
        pace.speed_mm_s[k] = std::min(wanted, cap);
        pace.isFlowLimited[k] = cap < wanted;
        pace.acceleration_mm_s2[k] = k <= indexOf(PathKind::inner_contour) ? printer.accelerationWall_mm_s2.value
                                                                           : printer.accelerationOther_mm_s2.value;
    }
    pace.travelSpeed_mm_s = printer.speedTravel.value;
    pace.travelAcceleration_mm_s2 = printer.accelerationTravel_mm_s2.value;
    pace.cornerSpeed_mm_s = printer.cornerSpeed.value;
    pace.retractAndPrime_s = printer.retractAndPrime.value;
    pace.minimumLayerTime_s = material.minimumLayerTime.value;
    pace.layerChange_s = printer.layerChange.value;
    return pace;
}

double LayerTime::busy_s() const {
    double sum = travel_s + retract_s;
    for (const double s : path_s)
        sum += s;
    return sum;
}

double LayerTime::total_s() const {
    return busy_s() + wait_s + change_s;
}

void LayerTime::add(const LayerTime& other, double weight) {
    for (std::size_t k = 0; k < kPathKinds; ++k) {
        path_s[k] += weight * other.path_s[k];
        path_mm[k] += weight * other.path_mm[k];
    }
    travel_s += weight * other.travel_s;
    travel_mm += weight * other.travel_mm;
    retract_s += weight * other.retract_s;
    retracts += weight * other.retracts;
    wait_s += weight * other.wait_s;
    change_s += weight * other.change_s;
}

LayerTime timeOf(const std::vector<TrackGroup>& groups, const Pace& pace, const SeeRun& seeRun) {
    LayerTime time;
    Nozzle nozzle(pace, time, seeRun);
    for (const TrackGroup& group : groups) {
        std::vector<bool> used(group.tracks.size(), false);
        std::size_t first = 0;
        while (first < group.tracks.size()) {
            if (used[first] || group.tracks[first].points.size() < 2) {
                ++first;
                continue;
            }
            std::size_t best = first;
            double nearest = 1e300;
            if (nozzle.hasPlace())
                for (std::size_t i = first, seen = 0; i < group.tracks.size() && seen < kLookAhead; ++i) {
                    if (used[i] || group.tracks[i].points.size() < 2) continue;
                    ++seen;
                    const double distance = distanceTo(group.tracks[i], nozzle.place());
                    if (distance < nearest) {
                        nearest = distance;
                        best = i;
                    }
                }
            used[best] = true;
            nozzle.follow(group.tracks[best], group.kind);
        }
    }
    return time;
}

void closeLayer(LayerTime& time, const Pace& pace) {
    time.wait_s = std::max(0.0, pace.minimumLayerTime_s - time.busy_s());
    time.change_s = pace.layerChange_s;
}

InfillPlace placeOf(const SectionStack& stack, std::size_t k) {
    return {k % 2 == 1, stack.layers[k].bottom_mm + 0.5 * stack.layers[k].height_mm};
}

std::vector<TrackGroup> tracksOf(const LayerContent& content, const Region& support, const Recipe& recipe,
                                 double spacing_mm, const InfillPlace& place) {
    std::vector<TrackGroup> groups;
    const double angle = place.isOddLayer ? -kQuarter : kQuarter;
    for (std::size_t i = content.brim.size(); i-- > 0;)
        groups.push_back({PathKind::brim, ringTracks(content.brim[i])});
    if (!support.empty()) groups.push_back({PathKind::support, rasterTracks(support, 0, spacing_mm / kSupportShare)});
    for (std::size_t i = content.walls.size(); i-- > 0;)
        groups.push_back({i == 0 ? PathKind::outer_contour : PathKind::inner_contour, ringTracks(content.walls[i])});
    if (!content.bridge.empty()) groups.push_back({PathKind::bridge, rasterTracks(content.bridge, angle, spacing_mm)});
    if (!content.skin.empty()) groups.push_back({PathKind::solid_fill, rasterTracks(content.skin, angle, spacing_mm)});
    if (!content.infill.empty())
        groups.push_back(
            {PathKind::infill, infillTracks(content.infill, recipe.infill, recipe.infillShare, spacing_mm, place)});
    return groups;
}

}  // namespace waybench::printed
