#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>

#include "core/project/shape_paths.h"
#include "tests/project/sample_project.h"

using namespace waybench;
using namespace waybench::testing;
namespace fs = std::filesystem;

namespace {

/// Two folders, "in" with a drawing and "out"; "link" leads to "in/deep". Gone at the end.
struct Folders {
    fs::path root, drawing;
    Folders() {
        std::string name = (fs::temp_directory_path() / "waybench-paths-XXXXXX").string();
        root = ::mkdtemp(name.data());
        fs::create_directories(root / "in/deep");
        fs::create_directories(root / "out");
        fs::create_directory_symlink("in/deep", root / "link");
        drawing = root / "in/plate.dxf";
        std::ofstream(drawing) << "0\nEOF\n";
    }
    ~Folders() { fs::remove_all(root); }
};

Project withDrawing(const fs::path& file) {
    Project project = sampleProject();
    project.parts.resize(1);
    project.parts[0].shape = Shape();
    project.parts[0].shape.kind = ShapeKind::drawing;
    project.parts[0].shape.file = file;
    return project;
}

fs::path fileFoundBy(const Project& project) {
    return wholePath(project.parts.at(0).shape.file, project.folder());
}

}  // namespace

TEST_CASE("a path made whole is written again letter by letter") {
    for (const char* written : {"plate.dxf", "../plate.dxf", "./a/../plate.dxf", "parts/cross plate.dxf"}) {
        const fs::path whole = wholePath(written, "/rigs/hinge");
        CHECK(whole.is_absolute());
        CHECK(pathFrom(whole, "/rigs/hinge").string() == written);
    }
    CHECK(wholePath("", "/rigs").empty());
    CHECK(wholePath("/else/plate.dxf", "/rigs") == "/else/plate.dxf");
}

TEST_CASE("from another folder the file is still found, through links as well") {
    const Folders folders;
    for (const char* to : {"out", "in", "in/deep", "link"}) {
        const fs::path folder = folders.root / to, written = pathFrom(folders.drawing, folder);
        INFO(to << ": " << written);
        CHECK(written.is_relative());
        CHECK(fs::equivalent(folder / written, folders.drawing));
    }
    // ".." in a file that lies behind a link climbs from where the folder really is.
    const fs::path climbing = wholePath("../plate.dxf", folders.root / "link");
    CHECK(fs::equivalent(climbing, folders.drawing));
    CHECK(fs::equivalent(folders.root / "out" / pathFrom(climbing, folders.root / "out"), folders.drawing));
}

TEST_CASE("a project saved in another folder finds its drawing there") {
    const Folders folders;
    const fs::path first = folders.root / "in/rig.waybench", second = folders.root / "out/rig.waybench";
    saveProject(withDrawing("plate.dxf"), first);
    Project project = readProject(first);
    CHECK(project.parts[0].shape.file == "plate.dxf");
    makePathsWhole(project);
    CHECK(project.parts[0].shape.file == folders.drawing);
    saveProject(project, second);
    const Project moved = readProject(second);
    CHECK(moved.parts[0].shape.file == "../in/plate.dxf");
    CHECK(fs::equivalent(fileFoundBy(moved), folders.drawing));
}

TEST_CASE("whole paths in memory do not show in the project's text") {
    const Folders folders;
    const fs::path file = folders.root / "in/rig.waybench";
    saveProject(withDrawing("plate.dxf"), file);
    const Project asWritten = readProject(file);
    Project whole = asWritten;
    makePathsWhole(whole);
    CHECK(whole.parts[0].shape.file != asWritten.parts[0].shape.file);
    CHECK(projectJson(whole) == projectJson(asWritten));
}

TEST_CASE("a path written whole on purpose stays whole") {
    const Folders folders;
    const fs::path file = folders.root / "in/rig.waybench";
    std::ofstream(file) << projectJson(withDrawing(folders.drawing));
    Project project = readProject(file);
    makePathsWhole(project);
    saveProject(project, folders.root / "out/rig.waybench");
    CHECK(readProject(folders.root / "out/rig.waybench").parts[0].shape.file == folders.drawing);
}
