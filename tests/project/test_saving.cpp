#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <iterator>

#include "core/fault/input_fault.h"
#include "core/project/atomic_save.h"
#include "tests/project/sample_project.h"

using namespace waybench;
using namespace waybench::testing;
namespace fs = std::filesystem;

namespace {

/// A folder of its own, gone at the end.
struct Folder {
    fs::path path;
    Folder() {
        std::string name = (fs::temp_directory_path() / "waybench-save-XXXXXX").string();
        path = ::mkdtemp(name.data());
    }
    ~Folder() {
        ::chmod(path.c_str(), 0700);
        fs::remove_all(path);
    }
    std::size_t entries() const { return static_cast<std::size_t>(std::distance(fs::directory_iterator(path), {})); }
};

std::string contentOf(const fs::path& file) {
    std::ifstream in(file, std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
}

std::string codeOf(const std::function<void()>& act) {
    try {
        act();
    } catch (const InputFault& fault) {
        CHECK_FALSE(fault.remedy().empty());
        return fault.code();
    }
    return "";
}

}  // namespace

TEST_CASE("a saved project is read back from the file, with nothing left beside it") {
    const Folder folder;
    const fs::path file = folder.path / "rig.waybench";
    saveProject(sampleProject(), file);
    CHECK(readProject(file).parts.size() == sampleProject().parts.size());
    CHECK(readProject(file).file == file);
    CHECK(readProject(file).folder() == folder.path);
    saveProject(sampleProject(), file);
    CHECK(folder.entries() == 1);
}

TEST_CASE("saving keeps permissions and follows links") {
    const Folder folder;
    const fs::path file = folder.path / "rig.waybench", link = folder.path / "link.waybench";
    saveAtomically(file, "old");
    ::chmod(file.c_str(), 0640);
    fs::create_symlink("rig.waybench", link);
    saveAtomically(link, "new");
    CHECK(fs::is_symlink(link));
    CHECK(contentOf(file) == "new");
    CHECK((fs::status(file).permissions() & fs::perms::mask) == fs::perms(0640));
    CHECK(folder.entries() == 2);
}

TEST_CASE("what cannot be written is refused and the old file stays") {
    const Folder folder;
    const fs::path file = folder.path / "rig.waybench";
    saveAtomically(file, "old");
    CHECK(codeOf([&] { saveAtomically(file / "below", "x"); }) == "cannot_write");
    CHECK(codeOf([&] { saveAtomically(folder.path / "no" / "such" / "f", "x"); }) == "cannot_write");
    CHECK(codeOf([&] { saveAtomically(folder.path, "x"); }) == "cannot_write");
    CHECK(codeOf([&] { saveAtomically("/proc/rig.waybench", "x"); }) == "cannot_write");
    CHECK(codeOf([&] { saveAtomically(folder.path / std::string(300, 'n'), "x"); }) == "cannot_write");
    CHECK(contentOf(file) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a read-only folder refuses the save and keeps the old file") {
    const Folder folder;
    const fs::path file = folder.path / "rig.waybench";
    saveAtomically(file, "old");
    ::chmod(folder.path.c_str(), 0555);
    // no folder refuses the superuser: then the save is tried as a plain user
    constexpr uid_t kNobody = 65534;
    const bool isSuperuser = ::geteuid() == 0;
    if (isSuperuser) REQUIRE(::seteuid(kNobody) == 0);
    const std::string code = codeOf([&] { saveAtomically(file, "x"); });
    const std::string besides = codeOf([&] { saveAtomically(folder.path / "other", "x"); });
    if (isSuperuser) REQUIRE(::seteuid(0) == 0);
    CHECK(code == "cannot_write");
    CHECK(besides == "cannot_write");
    CHECK(contentOf(file) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a file too large for its owner's limit refuses the save and keeps the old file") {
    // stands for the full disk: the kernel cuts the write short and refuses the rest
    const Folder folder;
    const fs::path file = folder.path / "rig.waybench";
    saveAtomically(file, "old");
    rlimit before{};
    ::getrlimit(RLIMIT_FSIZE, &before);
    const auto handlerBefore = std::signal(SIGXFSZ, SIG_IGN);
    rlimit tight = before;
    tight.rlim_cur = 4096;
    ::setrlimit(RLIMIT_FSIZE, &tight);
    const std::string code = codeOf([&] { saveAtomically(file, std::string(100000, 'x')); });
    ::setrlimit(RLIMIT_FSIZE, &before);
    std::signal(SIGXFSZ, handlerBefore);
    CHECK(code == "cannot_write");
    CHECK(contentOf(file) == "old");
    CHECK(folder.entries() == 1);
}

TEST_CASE("a leftover of a killed save does not hinder the next") {
    const Folder folder;
    const fs::path file = folder.path / "rig.waybench";
    std::ofstream(folder.path / (".rig.waybench." + std::to_string(::getpid()) + "-0")) << "half";
    saveAtomically(file, "whole");
    CHECK(contentOf(file) == "whole");
}

TEST_CASE("files that are none are refused by name") {
    const Folder folder;
    CHECK(codeOf([&] { readProject(folder.path / "absent.waybench"); }) == "file_missing");
    CHECK(codeOf([&] { readProject(folder.path); }) == "file_unreadable");
    std::ofstream(folder.path / "text.waybench") << "not a project";
    CHECK(codeOf([&] { readProject(folder.path / "text.waybench"); }) == "not_json");
}
