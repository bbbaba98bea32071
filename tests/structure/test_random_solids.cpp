#include <catch2/catch.hpp>
#include <cstdlib>
#include <random>

#include "tests/structure/test_bodies.h"

using namespace waybench;
using namespace waybench::testing;

namespace {

using Random = std::mt19937;

double between(Random& random, double low, double high) {
    // whole hundredths: the clipping rounds to a ten-thousandth
    return std::round(100 * (low + (high - low) * double(random() % 100000) / 99999.0)) / 100;
}

Ring rectangle(double x0, double y0, double x1, double y1) {
    return {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
}

/// A hole or a slot, narrow ones among them, clear of the ends that are held and loaded.
Ring randomCut(Random& random, double length, double width) {
    const double x = between(random, 0.15, 0.7) * length, y = between(random, 0.2, 0.6) * width;
    if (random() % 2 == 0) return circle(between(random, 0.04, 0.15) * width, 24, false, {x, y});
    return rectangle(x, y, x + between(random, 0.05, 0.2) * length, y + between(random, 0.02, 0.2) * width);
}

struct RandomSolid {
    Region outline;
    double length = 0, width = 0, height = 0;

    explicit RandomSolid(Random& random)
        : length(between(random, 30, 120)), width(between(random, 10, 60)), height(between(random, 3, 25)) {
        outline = {rectangle(0, 0, length, width)};
        if (random() % 3 == 0)  // an L: a corner taken away
            outline = differenceOf(outline,
                                   {rectangle(0.3 * length, between(random, 0.5, 0.8) * width, length + 1, width + 1)});
        for (unsigned n = random() % 4; n > 0; --n)
            cut(random);
    }
    /// Leaves the outline as it is where the cut would part it.
    void cut(Random& random) {
        const std::vector<Region> left = islandsOf(differenceOf(outline, {randomCut(random, length, width)}));
        if (left.size() == 1) outline = left.front();
    }

    StructureAnswer solve(const Mat3& turn, const Vec3& load) const {
        const Mesh straight = extruded(outline, height);
        const Solid solid = solidOf(transformed(straight, turn, Vec3::Zero()));
        Body body;
        body.solid = &solid;
        body.law = isotropicLaw(2000, 0.35);
        StrengthLaw strength;
        strength.inLayer_MPa = 40;
        Resolution resolution;
        resolution.cellBudget = 5000;
        const auto end = facetsOn(straight, 0, length);
        return solveStructure(body, strength,
                              loadedBy(solid, turn * load, facetsOn(straight, 0, 0), end, end, turn * load), resolution,
                              Task());
    }
};

/// 60 in the suite; WAYBENCH_RANDOM_SOLIDS asks for more.
int solidsAsked() {
    const char* asked = std::getenv("WAYBENCH_RANDOM_SOLIDS");
    return asked != nullptr ? std::max(1, std::atoi(asked)) : 60;
}

}  // namespace

TEST_CASE("random plates with holes and slots: energy balances, and less material never bends less") {
    Random random(11);
    const int asked = solidsAsked();
    for (int i = 0; i < asked; ++i) {
        RandomSolid solid(random);
        const Vec3 axis(between(random, -1, 1), between(random, -1, 1), between(random, 0.1, 1));
        const bool isTurned = random() % 2 == 0;
        const Mat3 turn = isTurned ? Eigen::AngleAxisd(between(random, 0, 3), axis.normalized()).toRotationMatrix()
                                   : Mat3(Mat3::Identity());
        const Vec3 load = random() % 2 == 0 ? Vec3(0, 0, -5) : Vec3(0, 5, 0);
        INFO("solid " << i << ", " << solid.length << " x " << solid.width << " x " << solid.height
                      << (isTurned ? ", turned" : ""));
        const StructureAnswer before = solid.solve(turn, load);
        CHECK(before.work_Nmm == Approx(before.strainEnergy_Nmm).epsilon(1e-4));
        CHECK((before.reaction + turn * load).norm() < 1e-3 * load.norm());
        CHECK(before.deflection.low <= before.deflection.value);
        CHECK(before.deflection.value <= before.deflection.high);
        solid.cut(random);
        const StructureAnswer after = solid.solve(turn, load);
        CHECK(after.deflection.high >= before.deflection.low);
    }
}
