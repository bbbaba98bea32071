#include <catch2/catch.hpp>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>

namespace {

namespace fs = std::filesystem;
const fs::path kSource = WAYBENCH_SOURCE;

std::map<std::string, std::set<std::string>> allowedDirections() {
    std::map<std::string, std::set<std::string>> allowed;
    std::ifstream in(kSource / "tests/architecture/allowed_includes.txt");
    for (std::string line; std::getline(in, line);) {
        if (line.empty() || line[0] == '#') continue;
        const auto colon = line.find(':');
        REQUIRE(colon != std::string::npos);
        std::istringstream names(line.substr(colon + 1));
        std::set<std::string>& entry = allowed[line.substr(0, colon)];
        for (std::string name; names >> name;)
            entry.insert(name);
    }
    return allowed;
}

bool isSourceFile(const fs::path& p) {
    return p.extension() == ".h" || p.extension() == ".cpp";
}

/// "core/geometry/mesh.h" -> "geometry", "app/..." -> "app", anything else -> "".
std::string folderOf(const std::string& path) {
    if (path.rfind("app/", 0) == 0) return "app";
    if (path.rfind("core/", 0) != 0) return "";
    return path.substr(5, path.find('/', 5) - 5);
}

}  // namespace

TEST_CASE("every include follows the written list of allowed directions") {
    const auto allowed = allowedDirections();
    const std::regex include("^\\s*#\\s*include\\s*\"([^\"]+)\"");
    int seen = 0;
    for (const char* top : {"core", "app"})
        for (const auto& entry : fs::recursive_directory_iterator(kSource / top)) {
            if (!entry.is_regular_file() || !isSourceFile(entry.path())) continue;
            const std::string file = fs::relative(entry.path(), kSource).generic_string();
            const std::string from = folderOf(file);
            INFO(file);
            REQUIRE(allowed.count(from) == 1);
            std::ifstream in(entry.path());
            for (std::string line; std::getline(in, line);) {
                std::smatch match;
                if (!std::regex_search(line, match, include)) continue;
                const std::string to = folderOf(match[1]);
                if (to.empty() || to == from) continue;
                ++seen;
                INFO("includes " << match[1]);
                CHECK(allowed.at(from).count(to) == 1);
            }
        }
    CHECK(seen > 50);
}

TEST_CASE("core knows no Qt") {
    const std::regex qt("#\\s*include\\s*<Q[A-Za-z]+");
    for (const auto& entry : fs::recursive_directory_iterator(kSource / "core")) {
        if (!entry.is_regular_file() || !isSourceFile(entry.path())) continue;
        std::ifstream in(entry.path());
        for (std::string line; std::getline(in, line);) {
            INFO(entry.path().string() << ": " << line);
            CHECK_FALSE(std::regex_search(line, qt));
        }
    }
}

TEST_CASE("the list of allowed directions has no circle") {
    const auto allowed = allowedDirections();
    for (const auto& [folder, uses] : allowed)
        for (const std::string& used : uses) {
            INFO(folder << " and " << used);
            REQUIRE(allowed.count(used) == 1);
            CHECK(allowed.at(used).count(folder) == 0);
        }
    CHECK(allowed.at("printed").count("machined") == 0);
    CHECK(allowed.at("machined").count("printed") == 0);
}

TEST_CASE("no file is longer than 700 lines") {
    for (const char* top : {"core", "app", "tests"})
        for (const auto& entry : fs::recursive_directory_iterator(kSource / top)) {
            if (!entry.is_regular_file() || !isSourceFile(entry.path())) continue;
            std::ifstream in(entry.path());
            int lines = 0;
            for (std::string line; std::getline(in, line);)
                ++lines;
            INFO(entry.path().string());
            CHECK(lines <= 700);
        }
}

TEST_CASE("no two files of one kind share a name") {
    std::map<std::string, std::string> seen;
    for (const char* top : {"core", "app", "tests"})
        for (const auto& entry : fs::recursive_directory_iterator(kSource / top)) {
            if (!entry.is_regular_file() || !isSourceFile(entry.path())) continue;
            const auto [it, isNew] = seen.emplace(entry.path().filename().string(), entry.path().string());
            INFO(it->second << " and " << entry.path().string());
            CHECK(isNew);
        }
}
