#include "core/project/project.h"

#include <fstream>
#include <iterator>

#include "core/fault/input_fault.h"
#include "core/project/atomic_save.h"
#include "core/project/key_check.h"

namespace waybench {

namespace {

constexpr std::uintmax_t kLargestFile_bytes = 64u << 20;

}  // namespace

const Part& Project::part(const std::string& name) const {
    std::vector<std::string> names;
    std::string listed;
    for (const Part& candidate : parts) {
        if (candidate.name == name) return candidate;
        names.push_back(candidate.name);
        listed += (listed.empty() ? "'" : ", '") + candidate.name + "'";
    }
    const std::string nearest = nearestName(name, names);
    throw InputFault("part_unknown", file.string(), "", "there is no part '" + name + "'",
                     parts.empty() ? "the project has no parts yet"
                                   : (nearest.empty() ? "" : "is '" + nearest + "' meant? ") +
                                         std::string("the parts are ") + listed);
}

Project readProject(const std::filesystem::path& file, ReadReport* report) {
    std::error_code error;
    const auto status = std::filesystem::status(file, error);
    if (!std::filesystem::exists(status))
        throw InputFault("file_missing", file.string(), "", "there is no such file", "check the path");
    if (std::filesystem::is_directory(status))
        throw InputFault("file_unreadable", file.string(), "", "this is a folder",
                         "name the project file inside it (ending .waybench)");
    if (!std::filesystem::is_regular_file(status))
        throw InputFault("file_unreadable", file.string(), "", "this is no ordinary file",
                         "open a project file (ending .waybench)");
    const auto size = std::filesystem::is_regular_file(status) ? std::filesystem::file_size(file, error) : 0;
    if (!error && size > kLargestFile_bytes)
        throw InputFault("file_too_large", file.string(), "", "this file is far too large for a project",
                         "open a project file (ending .waybench)");
    std::ifstream in(file, std::ios::binary);
    if (!in)
        throw InputFault("file_unreadable", file.string(), "", "the file cannot be opened",
                         "check that you may read it");
    const std::string text{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
    if (in.bad())
        throw InputFault("file_unreadable", file.string(), "", "the file cannot be read to its end",
                         "check the disk or copy the file anew");
    Project project = projectFromJson(text, file.string(), report);
    project.file = file;
    return project;
}

void saveProject(const Project& project, const std::filesystem::path& file) {
    requireOrdinaryTarget(file);
    Project placed = project;
    std::error_code ignored;
    placed.file = std::filesystem::absolute(file, ignored);
    saveAtomically(file, projectJson(placed));
}

}  // namespace waybench
