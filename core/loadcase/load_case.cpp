#include "core/loadcase/load_case.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <set>
#include <utility>

#include "core/fault/input_fault.h"
#include "core/loadcase/bolt_seat.h"
#include "core/loadcase/traction.h"

namespace waybench {

namespace {

constexpr std::array<std::pair<LoadKind, const char*>, 4> kLoadKinds{{{LoadKind::force, "force"},
                                                                      {LoadKind::pressure, "pressure"},
                                                                      {LoadKind::moment, "moment"},
                                                                      {LoadKind::bearing, "bearing"}}};
constexpr std::array<std::pair<HoldKind, const char*>, 3> kHoldKinds{
    {{HoldKind::fixed, "fixed"}, {HoldKind::sliding, "sliding"}, {HoldKind::bolted, "bolted"}}};
constexpr std::array<std::pair<Duration, const char*>, 3> kDurations{
    {{Duration::brief, "brief"}, {Duration::hours, "hours"}, {Duration::cyclic, "cyclic"}}};
constexpr double kAbsoluteZero_celsius = -273.15;
constexpr double kHottest_celsius = 1000;

InputFault fault(const std::string& code, const std::string& place, const std::string& problem,
                 const std::string& remedy) {
    return {code, "", place, problem, remedy};
}

std::string placeOf(const Load& load, std::size_t index) {
    return "load " + std::to_string(index + 1) + " (" + nameOf(load.kind) + " on " + load.face.text() + ")";
}

void requireFinite(double value, const std::string& place) {
    if (!std::isfinite(value))
        throw fault("number_not_finite", place, "the value is not a finite number", "correct it");
}

void checkLoad(const Load& load, const std::string& place) {
    const bool isPressure = load.kind == LoadKind::pressure;
    requireFinite(isPressure ? load.pressure_MPa : load.vector.squaredNorm(), place);
    const double size = isPressure ? std::abs(load.pressure_MPa) : load.vector.norm();
    if (size == 0) throw fault("load_zero", place, "the load is zero", "enter its size, or remove the load");
}

void checkDuration(const LoadCase& c) {
    if (c.duration == Duration::hours && !(c.duration_h > 0 && std::isfinite(c.duration_h)))
        throw fault("duration_missing", "duration", "a sustained load needs the hours it lasts",
                    "enter them, e.g. 8 h");
    if (c.duration == Duration::cyclic && !(c.cycles > 0 && std::isfinite(c.cycles)))
        throw fault("cycles_missing", "cycles", "a cyclic load needs the number of cycles", "enter it, e.g. 200000");
}

constexpr double kHeaviest_g = 1e6;

void checkNumbers(const LoadCase& c) {
    if (!(c.deflectionLimit_mm > 0) || !std::isfinite(c.deflectionLimit_mm))
        throw fault("limit_missing", "deflection limit", "there is no deflection limit above zero",
                    "enter the deflection the part may have, e.g. 0.1 mm");
    if (!(c.strengthFactor > 0) || !std::isfinite(c.strengthFactor))
        throw fault("strength_factor_missing", "strength factor", "the required strength factor is not above zero",
                    "enter a factor, e.g. 2");
    if (!(c.loadSpread >= 0 && c.loadSpread < 1))
        throw fault("load_spread_absurd", "load spread", "the uncertainty of the load is not between 0 and 100 %",
                    "enter a share, e.g. 10 %");
    if (!(c.temperature_celsius > kAbsoluteZero_celsius && c.temperature_celsius < kHottest_celsius))
        throw fault("temperature_absurd", "temperature", "no fixture works at this temperature",
                    "enter the temperature of use in degrees Celsius, e.g. 23");
    checkDuration(c);
}

std::vector<std::uint32_t> selected(const Solid& solid, const FaceSelector& selector, const std::string& place) {
    try {
        return select(solid, selector);
    } catch (const InputFault& f) {
        throw InputFault(f.code(), f.file(), place, f.problem(), f.remedy());
    }
}

/// Takes away what lies under heads, and refuses what is held otherwise. A pressure stays: the head passes it on.
void keepOffHolds(const Solid& solid, const std::vector<BoundHold>& holds, LoadKind kind,
                  std::vector<std::uint32_t>& loaded, const std::string& place) {
    const auto isIn = [](const std::vector<std::uint32_t>& facets, std::uint32_t t) {
        return std::binary_search(facets.begin(), facets.end(), t);
    };
    const auto isHeld = [&](std::uint32_t t) {
        return std::any_of(holds.begin(), holds.end(), [&](const BoundHold& h) { return isIn(h.triangles, t); });
    };
    const auto isUnderHead = [&](std::uint32_t t) {
        return std::any_of(holds.begin(), holds.end(), [&](const BoundHold& h) { return isIn(h.ring, t); });
    };
    const bool allUnderHeads = std::all_of(loaded.begin(), loaded.end(), isUnderHead);
    if (!allUnderHeads && kind != LoadKind::pressure) std::erase_if(loaded, isUnderHead);
    for (const std::uint32_t t : loaded) {
        if (!allUnderHeads && !isHeld(t)) continue;
        throw fault("face_held_and_loaded", place,
                    "the same surface is held and loaded (face '" + solid.faces[solid.faceOfTriangle[t]].name +
                        "'), so the load would go straight into the support",
                    "hold or load another face, or use boxes that do not overlap");
    }
}

void sortUnique(std::vector<std::uint32_t>& triangles) {
    std::sort(triangles.begin(), triangles.end());
    triangles.erase(std::unique(triangles.begin(), triangles.end()), triangles.end());
}

BoundHold boundHold(const Solid& solid, const Hold& hold, const std::string& place) {
    BoundHold bound;
    bound.kind = hold.kind;
    bound.triangles = selected(solid, hold.face, place);
    if (hold.kind == HoldKind::bolted) {
        const BoltSeat seat = boltSeatOf(solid, hold, place);
        bound.triangles = seat.wall;
        for (std::uint32_t t = 0; t < solid.mesh.triangles.size(); ++t)
            if (seat.isUnderHead(solid, t)) bound.ring.push_back(t);
        if (bound.ring.empty()) refuseSeat(place);
        bound.boreRadius_mm = seat.boreRadius_mm;
        bound.headRadius_mm = seat.head.radius_mm;
        bound.grip_mm = seat.length_mm;
    }
    sortUnique(bound.triangles);
    return bound;
}

template <class Kind, std::size_t N>
const char* nameIn(const std::array<std::pair<Kind, const char*>, N>& table, Kind kind) {
    for (const auto& [k, name] : table)
        if (k == kind) return name;
    return "";
}

template <class Kind, std::size_t N>
Kind kindIn(const std::array<std::pair<Kind, const char*>, N>& table, const std::string& name, const std::string& code,
            const std::string& what) {
    std::string known;
    for (const auto& [kind, n] : table) {
        if (name == n) return kind;
        known += (known.empty() ? "" : ", ") + std::string(n);
    }
    throw fault(code, "", what + " '" + name + "' is not known", "use one of " + known);
}

}  // namespace

const char* nameOf(HoldKind kind) {
    return nameIn(kHoldKinds, kind);
}

HoldKind holdKindFromName(const std::string& name) {
    return kindIn(kHoldKinds, name, "hold_kind_unknown", "the kind of hold");
}

const char* nameOf(LoadKind kind) {
    return nameIn(kLoadKinds, kind);
}

LoadKind loadKindFromName(const std::string& name) {
    return kindIn(kLoadKinds, name, "load_kind_unknown", "the kind of load");
}

const char* nameOf(Duration duration) {
    return nameIn(kDurations, duration);
}

Duration durationFromName(const std::string& name) {
    return kindIn(kDurations, name, "duration_unknown", "the duration");
}

std::vector<LoadCase> inOneRow(const LoadCase& first, const std::vector<LoadCase>& further) {
    std::vector<LoadCase> all{first};
    all.insert(all.end(), further.begin(), further.end());
    return all;
}

Solid refinedFor(const LoadCase& loadCase, const Solid& solid) {
    Solid refined = solid;
    const auto refine = [&](const FaceSelector& selector) {
        if (selector.kind == FaceSelector::Kind::box) refined = refinedForBox(refined, selector.box);
    };
    for (const Hold& hold : loadCase.holds)
        refine(hold.face);
    for (const Load& load : loadCase.loads)
        refine(load.face);
    for (const AttachedMass& mass : loadCase.masses)
        refine(mass.face);
    refine(loadCase.measuredFace);
    for (const Hold& hold : loadCase.holds) {
        if (hold.kind != HoldKind::bolted) continue;
        try {
            refined = cutRoundHead(boltSeatOf(refined, hold, ""), refined);
        } catch (const InputFault&) {
            // bind says what is wrong with it
        }
    }
    return refined;
}

BoundLoadCase bind(const LoadCase& loadCase, const Solid& solid) {
    if (loadCase.holds.empty())
        throw fault("no_support", "load case '" + loadCase.name + "'", "the part is held nowhere",
                    "choose at least one face that is held");
    if (loadCase.loads.empty() && loadCase.gravity.isZero())
        throw fault("no_load", "load case '" + loadCase.name + "'", "nothing loads the part",
                    "choose at least one face and a load on it");
    checkNumbers(loadCase);
    BoundLoadCase bound;
    bound.loadCase = loadCase;

    const double length = loadCase.measuredDirection.norm();
    requireFinite(length, "measured direction");
    if (length == 0)
        throw fault("direction_zero", "measured direction", "the direction of the measured deflection is zero",
                    "enter a direction such as (0 0 1)");
    bound.loadCase.measuredDirection = loadCase.measuredDirection / length;
    bound.measuredTriangles = selected(solid, loadCase.measuredFace, "measured face");
    sortUnique(bound.measuredTriangles);

    requireFinite(loadCase.gravity.squaredNorm(), "gravity");
    for (std::size_t i = 0; i < loadCase.masses.size(); ++i) {
        const std::string place = "attached mass " + std::to_string(i + 1);
        if (!(loadCase.masses[i].mass_g > 0 && loadCase.masses[i].mass_g <= kHeaviest_g))
            throw fault("mass_absurd", place, "the attached mass is not between zero and a tonne",
                        "enter it in grams, e.g. 500");
        bound.attachedTriangles.push_back(selected(solid, loadCase.masses[i].face, place));
        sortUnique(bound.attachedTriangles.back());
    }

    for (std::size_t i = 0; i < loadCase.holds.size(); ++i)
        bound.holds.push_back(boundHold(solid, loadCase.holds[i], "hold " + std::to_string(i + 1)));

    for (std::size_t i = 0; i < loadCase.loads.size(); ++i) {
        const Load& load = loadCase.loads[i];
        const std::string place = placeOf(load, i);
        checkLoad(load, place);
        auto loaded = selected(solid, load.face, place);
        sortUnique(loaded);
        keepOffHolds(solid, bound.holds, load.kind, loaded, place);
        bound.laws.push_back(tractionLaw(solid, load, loaded, place));
        bound.loadedTriangles.push_back(std::move(loaded));
    }
    return bound;
}

std::vector<BoundLoadCase> bindAll(const std::vector<LoadCase>& loadCases, const Solid& solid) {
    std::set<std::string> names;
    std::vector<BoundLoadCase> bound;
    for (const LoadCase& loadCase : loadCases) {
        if (!names.insert(loadCase.name).second)
            throw fault("load_case_name_twice", "load case '" + loadCase.name + "'",
                        "two load cases of the part have this name", "rename one of them");
        try {
            bound.push_back(bind(loadCase, solid));
        } catch (const InputFault& f) {
            const std::string name = "load case '" + loadCase.name + "'";
            if (loadCases.size() == 1 || f.place() == name) throw;
            throw f.within(name);
        }
    }
    return bound;
}

}  // namespace waybench
