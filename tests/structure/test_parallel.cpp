#include "core/progress/thread_team.h"

#include <atomic>
#include <catch2/catch.hpp>
#include <numeric>
#include <random>
#include <stdexcept>
#include <thread>

#include "core/structure/parted_elements.h"
#include "tests/structure/reference_solids.h"

using namespace waybench;
using namespace waybench::statics;

TEST_CASE("every call is made once, also from inside and from two threads at once") {
    const auto countAll = [] {
        std::vector<std::atomic<int>> calls(1000);
        inParallel(calls.size(), [&](std::size_t i) {
            std::atomic<int> inner{0};
            inParallel(3, [&](std::size_t) { ++inner; });
            calls[i] += inner;
        });
        return std::all_of(calls.begin(), calls.end(), [](const auto& c) { return c == 3; });
    };
    std::atomic<int> right{0};
    std::thread other([&] {
        for (int i = 0; i < 50; ++i)
            right += countAll() ? 1 : 0;
    });
    for (int i = 0; i < 50; ++i)
        right += countAll() ? 1 : 0;
    other.join();
    CHECK(right == 100);
    inParallel(0, [](std::size_t) { FAIL("nothing to do"); });
}

TEST_CASE("an exception of one share reaches the caller and the next job runs as ever") {
    CHECK_THROWS_AS(inParallel(500,
                               [](std::size_t i) {
                                   if (i == 77) throw std::runtime_error("77");
                               }),
                    std::runtime_error);
    std::vector<int> done(500, 0);
    inShares(done.size(), 7, [&](std::size_t begin, std::size_t end) {
        for (std::size_t i = begin; i < end; ++i)
            done[i] = 1;
    });
    CHECK(std::accumulate(done.begin(), done.end(), 0) == 500);
}

TEST_CASE("the product by slabs and seams is the plain one, and the same bytes with any number of threads") {
    std::mt19937 random(5);
    std::uniform_real_distribution<double> any(-1, 1);
    const Index3 n{80, 31, 17};
    std::vector<ElementLink> elements;
    std::vector<Index3> cells;
    const auto node = [&](int i, int j, int k) { return std::int32_t((k * (n[1] + 1) + j) * (n[0] + 1) + i); };
    for (int k = 0; k < n[2]; ++k)
        for (int j = 0; j < n[1]; ++j)
            for (int i = 0; i < n[0]; ++i) {
                if ((i * 7 + j * 3 + k) % 11 == 0) continue;  // holes
                ElementLink e{};
                for (int a = 0; a < 8; ++a)
                    e.node[std::size_t(a)] = node(i + (a & 1), j + (a >> 1 & 1), k + (a >> 2 & 1));
                e.matrix = std::int32_t(elements.size() % 5);
                elements.push_back(e);
                cells.push_back({i, j, k});
            }
    std::vector<double> matrices(5 * 576), u(3 * std::size_t(node(n[0], n[1], n[2]) + 1)), plain(u.size(), 0.0);
    for (double& m : matrices)
        m = any(random);
    for (double& x : u)
        x = any(random);
    addProduct(elements, matrices.data(), u.data(), plain.data());
    const PartedElements parted(elements, cells);
    std::vector<double> one(u.size()), many(u.size());
    setMostThreads(1);
    parted.product(matrices.data(), u, one);
    setMostThreads(0);
    parted.product(matrices.data(), u, many);
    double apart = 0;
    for (std::size_t i = 0; i < u.size(); ++i)
        apart = std::max(apart, std::abs(one[i] - plain[i]));
    CHECK(apart < 1e-12);
    CHECK(one == many);
    CHECK(parted.elements().size() == elements.size());
}

TEST_CASE("the answer is the same to the last bit with one thread and with all") {
    for (const auto& entry : testing::referenceSolidEntries()) {
        if (entry.at("name") != "bored_plate") continue;
        testing::ReferenceSolid r = testing::referenceSolid(entry);
        setMostThreads(1);
        const StructureAnswer one = r.solve();
        setMostThreads(0);
        const StructureAnswer many = r.solve();
        CHECK(one.deflection.value == many.deflection.value);
        CHECK(one.strengthMargin.value == many.strengthMargin.value);
        CHECK(one.displacement_mm == many.displacement_mm);
        CHECK(one.stress_MPa == many.stress_MPa);
        return;
    }
    FAIL("no such reference part");
}
