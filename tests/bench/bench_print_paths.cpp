// Seconds, peak memory and growth of laying out a print: ninja waybench_print_measurements, then run it.
#include <sys/resource.h>

#include <chrono>
#include <cmath>
#include <cstdio>
#include <numeric>
#include <thread>

#include "core/bench/shop.h"
#include "core/printed/print_job.h"
#include "core/progress/thread_team.h"

using namespace waybench;
using namespace waybench::printed;

namespace {

/// A round, lobed column twisted about its axis, of another size at every height: no two sections are equal.
Mesh twisted(double height, int sectors, int levels) {
    Mesh mesh;
    const auto at = [&](int level, int sector) {
        return static_cast<std::uint32_t>(1 + level * sectors + sector % sectors);
    };
    mesh.vertices.emplace_back(0, 0, 0);
    for (int i = 0; i <= levels; ++i)
        for (int j = 0; j < sectors; ++j) {
            const double share = static_cast<double>(i) / levels, angle = 2 * M_PI * j / sectors;
            const double radius = 25 + 3 * std::cos(5 * (angle - 1.5 * share)) + 4 * std::sin(6.1 * share);
            mesh.vertices.emplace_back(radius * std::cos(angle), radius * std::sin(angle), height * share);
        }
    const auto top = static_cast<std::uint32_t>(mesh.vertices.size());
    mesh.vertices.emplace_back(0, 0, height);
    for (int j = 0; j < sectors; ++j) {
        mesh.triangles.push_back({0, at(0, j + 1), at(0, j)});
        mesh.triangles.push_back({top, at(levels, j), at(levels, j + 1)});
        for (int i = 0; i < levels; ++i) {
            mesh.triangles.push_back({at(i, j), at(i, j + 1), at(i + 1, j + 1)});
            mesh.triangles.push_back({at(i, j), at(i + 1, j + 1), at(i + 1, j)});
        }
    }
    return mesh;
}

double secondsSince(std::chrono::steady_clock::time_point start) {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - start).count();
}

double peakMemory_MB() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_maxrss) / 1024;
}

double processorSeconds() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<double>(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
           1e-6 * static_cast<double>(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec);
}

/// Where the time goes, on one thread, processor seconds.
void printStages(const Mesh& mesh, const Recipe& recipe) {
    static const Shop shop = readShop(resourceFolder());
    const double spacing = beadSpacing_mm(recipe);
    double last = processorSeconds();
    const auto lap = [&] {
        const double now = processorSeconds(), lap_s = now - last;
        last = now;
        return lap_s;
    };
    const SectionStack stack = sectionStack(mesh, recipe, Task());
    const double sections_s = lap();
    const SupportStack supports = supportStack(stack, recipe, 1, Task());
    const double supports_s = lap();
    std::vector<LayerContent> contents;
    for (std::size_t k = 0; k < stack.layers.size(); ++k)
        contents.push_back(layerContent(stack, k, recipe, spacing, contents.empty() ? nullptr : &contents.back()));
    const double contents_s = lap();
    std::vector<std::vector<TrackGroup>> tracks;
    for (std::size_t k = 0; k < stack.layers.size(); ++k)
        tracks.push_back(tracksOf(contents[k], {}, recipe, spacing, placeOf(stack, k)));
    const double tracks_s = lap();
    const Pace pace = paceOf(shop.printer("bed-moving"), shop.printingMaterial("petg"), spacing * 0.2, false);
    double sum = 0;
    for (const std::vector<TrackGroup>& layer : tracks)
        sum += timeOf(layer, pace).total_s();
    std::printf(
        "processor seconds: sections %.2f, supports %.2f, walls skins and bridges %.2f, tracks %.2f, times %.2f "
        "(%.0f min of printing)\n",
        sections_s, supports_s, contents_s, tracks_s, lap(), sum / 60);
}

/// Straight pieces of bead in every 25th layer, times 25.
double beadSegments(const Mesh& mesh, const Recipe& recipe) {
    const SectionStack stack = sectionStack(mesh, recipe, Task());
    double count = 0;
    for (std::size_t k = 0; k < stack.layers.size(); k += 25) {
        const double spacing = beadSpacing_mm(recipe);
        for (const TrackGroup& group :
             tracksOf(layerContent(stack, k, recipe, spacing), {}, recipe, spacing, placeOf(stack, k)))
            for (const Track& track : group.tracks)
                count += 25 * static_cast<double>(track.points.size() - (track.isClosed ? 0 : 1));
    }
    return count;
}

struct Measured {
    PrintJob job;
    double wall_s = 0, processor_s = 0;
};

Measured measured(const Mesh& mesh, const Recipe& recipe) {
    static const Shop shop = readShop(resourceFolder());
    const auto start = std::chrono::steady_clock::now();
    Measured m;
    const double before = processorSeconds();
    m.job = printJob(mesh, recipe, shop.printer("bed-moving"), shop.printingMaterial("petg"), false, Task());
    m.wall_s = secondsSince(start);
    m.processor_s = processorSeconds() - before;
    return m;
}

void printRow(const char* what, const Mesh& mesh, const Recipe& recipe) {
    const Measured m = measured(mesh, recipe);
    std::printf("%-34s %8zu triangles %5zu layers (%zu laid out) %7.2f s  %8.2f ms a layer\n", what,
                mesh.triangles.size(), m.job.layers, m.job.layersComputed, m.wall_s,
                1000 * m.wall_s / static_cast<double>(m.job.layers));
}

/// Seconds from cancel() to the answer, for several moments of the work.
double worstCancel_s(const Mesh& mesh, double whole_s) {
    static const Shop shop = readShop(resourceFolder());
    double worst = 0;
    for (int i = 1; i < 20; ++i) {
        const Task task;
        std::chrono::steady_clock::time_point asked;
        std::thread stopper([&] {
            std::this_thread::sleep_for(std::chrono::duration<double>(whole_s * i * i / 400));
            asked = std::chrono::steady_clock::now();
            task.cancel();
        });
        bool wasCancelled = false;
        try {
            printJob(mesh, Recipe(), shop.printer("bed-moving"), shop.printingMaterial("petg"), false, task);
        } catch (const Cancelled&) {
            wasCancelled = true;
        }
        const auto end = std::chrono::steady_clock::now();
        stopper.join();
        if (wasCancelled) worst = std::max(worst, std::chrono::duration<double>(end - asked).count());
    }
    return worst;
}

}  // namespace

int main() {
    const Mesh mesh = twisted(100, 200, 250);
    const Recipe recipe;
    const double before = peakMemory_MB();
    const Measured m = measured(mesh, recipe);
    const double memory = peakMemory_MB();
    const double segments = beadSegments(mesh, recipe);
    std::printf(
        "100 mm, %zu triangles, %zu layers of %.1f mm, %s: %.2f s (asked < 3; processor %.2f s), peak %.0f MB of which "
        "%.0f "
        "before (asked < 400), %.2f million bead segments, %.2f million a second\n",
        mesh.triangles.size(), m.job.layers, recipe.layerThickness_mm, nameOf(recipe.infill), m.wall_s, m.processor_s,
        memory, before, segments / 1e6, segments / 1e6 / m.wall_s);
    printStages(mesh, recipe);
    setMostThreads(1);
    std::printf("one thread: %.2f s\n", measured(mesh, recipe).wall_s);
    setMostThreads(0);
    std::printf("worst wait after cancel: %.3f s (asked < 0.2)\n", worstCancel_s(mesh, m.wall_s));
    for (const InfillPattern pattern : {InfillPattern::lines, InfillPattern::grid, InfillPattern::triangles,
                                        InfillPattern::honeycomb, InfillPattern::gyroid}) {
        Recipe r = recipe;
        r.infill = pattern;
        printRow(nameOf(pattern), mesh, r);
    }
    for (const double height : {0.4, 0.2, 0.1}) {
        Recipe r = recipe;
        r.layerThickness_mm = height;
        printRow("growth against layers", mesh, r);
    }
    const Mesh million = twisted(100, 200, 2500);
    std::printf("worst wait after cancel, %zu triangles: %.3f s\n", million.triangles.size(),
                worstCancel_s(million, measured(million, recipe).wall_s));
    for (const int levels : {125, 500, 2500})
        printRow("growth against triangles", twisted(100, 200, levels), recipe);
    return 0;
}
