#include "core/geometry/import/step.h"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <charconv>
#include <chrono>
#include <cstdlib>
#include <cstring>
#include <deque>
#include <memory>
#include <mutex>
#include <sstream>

#include "core/fault/input_fault.h"

extern char** environ;

namespace waybench {

namespace {

namespace fs = std::filesystem;

constexpr int kPatience_s = 120;
constexpr std::size_t kKeptFiles = 4;
constexpr double kMostCounted = 5e7;

/// The reader: named by the environment, beside this program, where it was installed, or where it was built.
fs::path readerProgram(const std::string& name) {
    std::error_code ignored;
    std::vector<fs::path> places;
    if (const char* named = std::getenv("WAYBENCH_STEP_READER")) places.emplace_back(named);
    const fs::path own = fs::read_symlink("/proc/self/exe", ignored);
    if (!own.empty()) places.push_back(own.parent_path() / "waybench-step-reader");
    places.emplace_back(WAYBENCH_INSTALLED_STEP_READER);
    places.emplace_back(WAYBENCH_BUILT_STEP_READER);
    for (const fs::path& place : places)
        if (::access(place.c_str(), X_OK) == 0) return place;
    throw InputFault("step_reader_missing", name, "", "the program that reads STEP files is not there",
                     "install Waybench again, or bring the part as STL");
}

InputFault notStep(const std::string& name) {
    return InputFault("file_not_step", name, "", "it cannot be read as a STEP file",
                      "export the part again as STEP (AP203, AP214 or AP242)");
}

/// Closes what it holds, stops what still runs.
struct Child {
    pid_t pid = -1;
    int output = -1;
    int status = -1;
    bool isDone = false;
    ~Child() {
        if (output >= 0) ::close(output);
        if (pid > 0 && !isDone) {
            ::kill(pid, SIGKILL);
            ::waitpid(pid, &status, 0);
        }
    }
};

std::string outputOf(const fs::path& program, const fs::path& file, const std::string& name) {
    int ends[2];
    if (::pipe2(ends, O_CLOEXEC) != 0)
        throw InputFault("step_reader_missing", name, "", "the STEP reader cannot be started", "close some programs");
    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_adddup2(&actions, ends[1], STDOUT_FILENO);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, "/dev/null", O_WRONLY, 0);
    std::string first = program.string(), second = file.string();
    char* arguments[] = {first.data(), second.data(), nullptr};
    Child child;
    const int failed = ::posix_spawn(&child.pid, first.c_str(), &actions, nullptr, arguments, environ);
    posix_spawn_file_actions_destroy(&actions);
    ::close(ends[1]);
    child.output = ends[0];
    if (failed != 0) {
        child.pid = -1;
        throw InputFault("step_reader_missing", name, "", "the STEP reader cannot be started",
                         "install Waybench again, or bring the part as STL");
    }
    std::string text;
    const auto end = std::chrono::steady_clock::now() + std::chrono::seconds(kPatience_s);
    char block[65536];
    while (true) {
        const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(end - std::chrono::steady_clock::now());
        pollfd waiting{child.output, POLLIN, 0};
        const int ready = left.count() > 0 ? ::poll(&waiting, 1, int(left.count())) : 0;
        if (ready < 0 && errno == EINTR) continue;
        if (ready <= 0)
            throw InputFault("file_too_large", name, "", "reading it takes more than two minutes",
                             "export the part alone, without threads and lettering");
        const ssize_t got = ::read(child.output, block, sizeof block);
        if (got < 0 && errno == EINTR) continue;
        if (got <= 0) break;
        text.append(block, std::size_t(got));
    }
    while (::waitpid(child.pid, &child.status, 0) < 0 && errno == EINTR) {
    }
    child.isDone = true;
    if (!WIFEXITED(child.status) || WEXITSTATUS(child.status) != 0) throw notStep(name);
    return text;
}

class Words {
public:
    Words(const std::string& text, const std::string& name) : at_(text.data()), end_(at_ + text.size()), name_(name) {}
    template <class Number>
    Number whole() {
        skip();
        Number n{};
        const auto [next, error] = std::from_chars(at_, end_, n);
        if (error != std::errc()) throw notStep(name_);
        at_ = next;
        return n;
    }
    double number() {
        skip();
        const bool isNegative = at_ != end_ && *at_ == '-';
        if (isNegative) ++at_;
        if (end_ - at_ > 2 && at_[0] == '0' && at_[1] == 'x') at_ += 2;
        double x = 0;
        const auto [next, error] = std::from_chars(at_, end_, x, std::chars_format::hex);
        if (error != std::errc() || !std::isfinite(x)) throw notStep(name_);
        at_ = next;
        return isNegative ? -x : x;
    }
    Vec3 vector() {
        const double x = number(), y = number(), z = number();
        return {x, y, z};
    }
    void word(const char* expected) {
        skip();
        const std::size_t length = std::strlen(expected);
        if (std::size_t(end_ - at_) < length || std::strncmp(at_, expected, length) != 0) throw notStep(name_);
        at_ += length;
    }

private:
    void skip() {
        while (at_ != end_ && (*at_ == ' ' || *at_ == '\n'))
            ++at_;
    }
    const char *at_, *end_;
    const std::string& name_;
};

Solid solidFrom(const std::string& text, const std::string& name) {
    if (text.rfind("fault\n", 0) == 0) {
        std::istringstream lines(text.substr(6));
        std::string code, place, problem, remedy;
        std::getline(lines, code);
        std::getline(lines, place);
        std::getline(lines, problem);
        std::getline(lines, remedy);
        throw InputFault(code, name, place, problem, remedy);
    }
    Words words(text, name);
    words.word("solid");
    const auto corners = words.whole<std::uint32_t>(), facets = words.whole<std::uint32_t>(),
               faces = words.whole<std::uint32_t>();
    if (corners > kMostCounted || facets > kMostCounted || faces > kMostCounted) throw notStep(name);
    Solid solid;
    for (std::uint32_t i = 0; i < corners; ++i)
        solid.mesh.vertices.push_back(words.vector());
    for (std::uint32_t i = 0; i < facets; ++i) {
        std::array<std::uint32_t, 3> t{};
        for (std::uint32_t& c : t)
            if (c = words.whole<std::uint32_t>(); c >= corners) throw notStep(name);
        solid.mesh.triangles.push_back(t);
        solid.faceOfTriangle.push_back(words.whole<std::uint32_t>());
        if (solid.faceOfTriangle.back() >= faces) throw notStep(name);
    }
    for (std::uint32_t i = 0; i < faces; ++i) {
        Face f;
        f.kind = SurfaceKind(std::clamp(words.whole<int>(), 0, 2));
        f.point = words.vector();
        f.direction = words.vector();
        f.radius_mm = words.number();
        f.isHollow = words.whole<int>() != 0;
        f.isFullTurn = words.whole<int>() != 0;
        solid.faces.push_back(f);
    }
    return namedBySize(std::move(solid));
}

struct KeptFile {
    fs::path path;
    fs::file_time_type written;
    std::uintmax_t bytes = 0;
    std::shared_ptr<const Solid> solid;
};

}  // namespace

bool isStepName(const fs::path& path) {
    std::string ending = path.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? char(c - 'A' + 'a') : c; });
    return ending == ".step" || ending == ".stp";
}

Solid readStep(const fs::path& path, const std::string& shownName) {
    static std::mutex lock;
    static std::deque<KeptFile> kept;
    std::error_code ignored;
    const auto written = fs::last_write_time(path, ignored);
    const auto bytes = fs::file_size(path, ignored);
    const std::scoped_lock guard(lock);
    for (const KeptFile& k : kept)
        if (k.path == path && k.written == written && k.bytes == bytes) return *k.solid;
    auto solid =
        std::make_shared<const Solid>(solidFrom(outputOf(readerProgram(shownName), path, shownName), shownName));
    kept.push_front({path, written, bytes, solid});
    if (kept.size() > kKeptFiles) kept.pop_back();
    return *solid;
}

}  // namespace waybench
