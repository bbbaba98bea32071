#include "core/project/shape_paths.h"

#include <algorithm>
#include <system_error>

#include "core/project/project.h"

namespace waybench {

namespace fs = std::filesystem;

fs::path wholePath(const fs::path& written, const fs::path& folder) {
    return written.empty() || written.is_absolute() ? written : folder / written;
}

fs::path pathFrom(const fs::path& whole, const fs::path& folder) {
    if (!whole.is_absolute() || !folder.is_absolute()) return whole;
    auto [rest, beyond] = std::mismatch(whole.begin(), whole.end(), folder.begin(), folder.end());
    if (beyond == folder.end() && rest != whole.end()) {
        fs::path written;
        for (; rest != whole.end(); ++rest)
            written /= *rest;
        return written;
    }
    // ".." climbs from where a linked folder really lies.
    std::error_code noFolder, noParent;
    const fs::path from = fs::weakly_canonical(folder, noFolder);
    const fs::path parent = fs::weakly_canonical(whole.parent_path(), noParent);
    if (noFolder || noParent) return whole;
    const fs::path written = (parent / whole.filename()).lexically_relative(from);
    return written.empty() ? whole : written;
}

void makePathsWhole(Project& project) {
    if (project.file.empty()) return;
    for (Part& part : project.parts)
        part.shape.file = wholePath(part.shape.file, project.folder());
}

}  // namespace waybench
