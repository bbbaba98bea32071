#pragma once
#include <filesystem>
#include <string>

namespace waybench {

/// Replaces a file's content as a whole or not at all: writes a neighbour, flushes it to the disk, renames it over the
/// old one, flushes the folder. A crash or a full disk at any moment leaves the old file as it was. A link is followed,
/// the permissions of an existing file are kept.
/// @throws InputFault "cannot_write" with the reason; no neighbour is left behind
void saveAtomically(const std::filesystem::path& file, const std::string& content);

/// Nothing stands at the target, or an ordinary file: a pipe or device must not be replaced by one.
/// @throws InputFault "cannot_write"
void requireOrdinaryTarget(const std::filesystem::path& target);

}  // namespace waybench
