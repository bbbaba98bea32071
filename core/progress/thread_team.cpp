#include "core/progress/thread_team.h"

#include <algorithm>
#include <atomic>
#include <condition_variable>
#include <exception>
#include <mutex>
#include <numeric>
#include <thread>
#include <vector>

namespace waybench {

namespace {

constexpr std::size_t kMostHelpers = 7;

std::atomic<std::size_t> mostThreads{0};
thread_local bool isWorking = false;

/// Sleeping helpers that share the calls of one job at a time.
class Team {
public:
    Team() {
        const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
        for (std::size_t i = 0; i < std::min(kMostHelpers, cores - 1); ++i)
            helpers_.emplace_back([this, i] { help(i); });
    }
    ~Team() {
        {
            const std::lock_guard lock(mutex_);
            isClosing_ = true;
        }
        wake_.notify_all();
        for (std::thread& helper : helpers_)
            helper.join();
    }

    void run(std::size_t count, const std::function<void(std::size_t)>& work) {
        std::size_t invited = 0;
        {
            const std::lock_guard lock(mutex_);
            work_ = &work;
            count_ = count;
            next_ = 0;
            failure_ = nullptr;
            const std::size_t most = mostThreads.load();
            invited = std::min(helpers_.size(), most == 0 ? helpers_.size() : most - 1);
            invited_ = busy_ = invited;
            ++job_;
        }
        if (invited > 0) wake_.notify_all();
        takeCalls();
        std::unique_lock lock(mutex_);
        done_.wait(lock, [this] { return busy_ == 0; });
        work_ = nullptr;
        if (failure_) std::rethrow_exception(failure_);
    }

    std::mutex entry;  // one job at a time

private:
    void takeCalls() {
        isWorking = true;
        for (std::size_t i = next_++; i < count_; i = next_++) {
            try {
                (*work_)(i);
            } catch (...) {
                const std::lock_guard lock(mutex_);
                if (!failure_) failure_ = std::current_exception();
                next_ = count_;
            }
        }
        isWorking = false;
    }
    void help(std::size_t number) {
        std::size_t seen = 0;
        while (true) {
            {
                std::unique_lock lock(mutex_);
                wake_.wait(lock, [&] { return isClosing_ || (job_ != seen && number < invited_); });
                if (isClosing_) return;
                seen = job_;
            }
            takeCalls();
            const std::lock_guard lock(mutex_);
            if (--busy_ == 0) done_.notify_one();
        }
    }

    std::vector<std::thread> helpers_;
    std::mutex mutex_;
    std::condition_variable wake_, done_;
    const std::function<void(std::size_t)>* work_ = nullptr;
    std::size_t count_ = 0, job_ = 0, invited_ = 0, busy_ = 0;
    std::atomic<std::size_t> next_{0};
    std::exception_ptr failure_;
    bool isClosing_ = false;
};

Team& team() {
    static Team one;
    return one;
}

}  // namespace

void inParallel(std::size_t count, const std::function<void(std::size_t)>& work) {
    if (count > 1 && !isWorking && mostThreads != 1) {
        Team& everyone = team();
        const std::unique_lock lock(everyone.entry, std::try_to_lock);
        if (lock.owns_lock()) return everyone.run(count, work);
    }
    for (std::size_t i = 0; i < count; ++i)
        work(i);
}

void inShares(std::size_t size, std::size_t share, const std::function<void(std::size_t, std::size_t)>& work) {
    inParallel((size + share - 1) / share, [&](std::size_t i) { work(i * share, std::min(size, (i + 1) * share)); });
}

double sumInShares(std::size_t size, std::size_t share, const std::function<double(std::size_t, std::size_t)>& part) {
    std::vector<double> parts((size + share - 1) / share, 0.0);
    inShares(size, share, [&](std::size_t begin, std::size_t end) { parts[begin / share] = part(begin, end); });
    return std::accumulate(parts.begin(), parts.end(), 0.0);
}

void setMostThreads(std::size_t most) {
    mostThreads = most;
}

}  // namespace waybench
