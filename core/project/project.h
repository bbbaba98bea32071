#pragma once
#include <filesystem>
#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/comparison/part.h"

namespace waybench {

/// A rig: its parts and the workshop rates. File format: resources/schema/project.schema.json, ending .waybench.
struct Project {
    static constexpr int kVersion = 1;
    std::string title, author, identification, note;
    std::string date;  ///< ISO, of issue; goes on the page, so that a report has no clock in it
    std::string tariff = "workshop";
    std::vector<Part> parts;
    std::map<std::string, std::string> unknownKeys;  ///< keys at the top we do not know: kept, written back
    std::filesystem::path file;                      ///< where it was read from or saved to; empty = never saved
    /// Drawings and bodies the file names by their whole path on purpose: written so again.
    std::set<std::filesystem::path> wholePaths;

    std::filesystem::path folder() const { return file.empty() ? std::filesystem::path(".") : file.parent_path(); }
    const Part& part(const std::string& name) const;  ///< throws InputFault "part_unknown" listing the parts
};

struct ReadReport {
    std::vector<std::string> notes;          ///< unknown keys with the nearest known name; they are kept
    std::vector<std::string> defaultsTaken;  ///< keys the file leaves out, with the value taken
};
/// @throws InputFault "file_missing", "file_unreadable", "not_json" (line, column), "schema_newer", "key_missing",
///         "key_twice", "value_wrong_type", "value_out_of_range", "value_unknown", "direction_zero", "face_said_twice",
///         "shape_said_twice", "part_name_twice", "load_case_said_twice", "load_cases_empty", with the JSON place: "parts[2].load_case.deflection_limit_mm".
/// Whether a family, a dimension, a material exists is not asked here but when the part is built, so that a project
/// with a gap can be opened and mended. Unknown keys are reported, kept, and written back (A10).
Project readProject(const std::filesystem::path& file, ReadReport* report = nullptr);
Project projectFromJson(const std::string& text, const std::string& fileName, ReadReport* report = nullptr);
/// Whole paths of drawings and bodies are written relative to the project's folder where it has one, see pathFrom().
std::string projectJson(const Project& project);
/// Writes beside, then renames; paths as seen from the file's folder. @throws InputFault "cannot_write"
void saveProject(const Project& project, const std::filesystem::path& file);

}  // namespace waybench
