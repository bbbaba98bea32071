#pragma once
#include <filesystem>

namespace waybench {

struct Project;

/// The path a file's text means: a relative one starts at the folder. Neither links nor ".." are resolved, so that
/// pathFrom() gives the text back letter by letter.
std::filesystem::path wholePath(const std::filesystem::path& written, const std::filesystem::path& folder);

/// How a whole path is written in a file that lies in the folder; from there it is found even through links. Stays
/// whole when there is no relative way (another root, a folder that cannot be asked).
std::filesystem::path pathFrom(const std::filesystem::path& whole, const std::filesystem::path& folder);

/// Drawings and bodies by their whole paths, so that a part means the same file wherever the project is saved.
/// @pre project.file is absolute, or empty
void makePathsWhole(Project& project);

}  // namespace waybench
