#include "core/project/atomic_save.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <system_error>

#include "core/fault/input_fault.h"

namespace waybench {

namespace {

std::string reasonOf(int error) {
    switch (error) {
        case EACCES:
        case EPERM:
            return "writing there is not permitted";
        case EROFS:
            return "the disk is read-only";
        case ENOSPC:
        case EDQUOT:
            return "the disk is full";
        case ENOENT:
            return "the folder does not exist";
        case ENOTDIR:
            return "a part of the path is a file, not a folder";
        case EISDIR:
            return "the name belongs to a folder";
        case ENAMETOOLONG:
            return "the name is too long";
        default:
            return std::generic_category().message(error);
    }
}

[[noreturn]] void refuse(const std::filesystem::path& file, int error) {
    throw InputFault("cannot_write", file.string(), "", "the file cannot be saved: " + reasonOf(error),
                     "choose another folder or free the place; the file on disk is unchanged");
}

/// The neighbour; removed again unless it was put in place.
class Neighbour {
public:
    explicit Neighbour(const std::filesystem::path& target) {
        constexpr int kAttempts = 100;  // names left by runs that were killed
        const std::string stem = "." + target.filename().string() + "." + std::to_string(::getpid()) + "-";
        for (int n = 0; n < kAttempts && descriptor_ < 0; ++n) {
            path_ = target.parent_path() / (stem + std::to_string(n));
            descriptor_ = ::open(path_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
            if (descriptor_ < 0 && errno != EEXIST) break;
        }
        wasMade_ = descriptor_ >= 0;
    }
    ~Neighbour() {
        close();
        if (!isInPlace_ && wasMade_) ::unlink(path_.c_str());
    }
    Neighbour(const Neighbour&) = delete;
    Neighbour& operator=(const Neighbour&) = delete;

    bool isOpen() const { return descriptor_ >= 0; }
    bool write(const std::string& content) const {
        std::size_t done = 0;
        while (done < content.size()) {
            const ssize_t n = ::write(descriptor_, content.data() + done, content.size() - done);
            if (n < 0 && errno == EINTR) continue;
            if (n < 0) return false;
            done += static_cast<std::size_t>(n);
        }
        return ::fsync(descriptor_) == 0;
    }
    bool setMode(mode_t mode) const { return ::fchmod(descriptor_, mode) == 0; }
    bool close() {
        const int descriptor = descriptor_;
        descriptor_ = -1;
        return descriptor < 0 || ::close(descriptor) == 0;
    }
    bool putInPlace(const std::filesystem::path& target) {
        isInPlace_ = ::rename(path_.c_str(), target.c_str()) == 0;
        return isInPlace_;
    }

private:
    std::filesystem::path path_;
    int descriptor_ = -1;
    bool wasMade_ = false, isInPlace_ = false;
};

void flushFolder(const std::filesystem::path& folder) {
    const int descriptor = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY);
    if (descriptor < 0) return;
    ::fsync(descriptor);  // not every file system can; the rename itself is already whole
    ::close(descriptor);
}

}  // namespace

void saveAtomically(const std::filesystem::path& file, const std::string& content) {
    std::error_code ignored;
    std::filesystem::path target = std::filesystem::absolute(file, ignored);
    if (std::filesystem::is_symlink(target, ignored)) {
        const std::filesystem::path followed = std::filesystem::weakly_canonical(target, ignored);
        if (!followed.empty()) target = followed;
    }
    if (target.filename().empty() || std::filesystem::is_directory(target, ignored)) refuse(file, EISDIR);
    struct stat existing {};
    const bool existed = ::stat(target.c_str(), &existing) == 0;
    if (existed && ::faccessat(AT_FDCWD, target.c_str(), W_OK, AT_EACCESS) != 0) refuse(file, errno);

    Neighbour neighbour(target);
    if (!neighbour.isOpen()) refuse(file, errno);
    if (!neighbour.write(content)) refuse(file, errno);
    if (existed && !neighbour.setMode(existing.st_mode & 07777)) refuse(file, errno);
    if (!neighbour.close()) refuse(file, errno);
    if (!neighbour.putInPlace(target)) refuse(file, errno);
    flushFolder(target.parent_path());
}

void requireOrdinaryTarget(const std::filesystem::path& target) {
    std::error_code ignored;
    const auto kind = std::filesystem::status(target, ignored).type();
    if (kind == std::filesystem::file_type::not_found || kind == std::filesystem::file_type::regular ||
        kind == std::filesystem::file_type::none)
        return;
    throw InputFault("cannot_write", target.string(), "", "is no ordinary file",
                     "name a file; the command line takes - for standard output");
}

}  // namespace waybench
