#pragma once
#include <atomic>
#include <exception>
#include <memory>

namespace waybench {

/// Thrown out of long work when its Task was cancelled. Not a fault: the last answer stays.
class Cancelled : public std::exception {
public:
    const char* what() const noexcept override { return "cancelled"; }
};

/// Cancel from any thread, and progress that only ever grows, for one piece of long work.
///
/// Copies share the same state. A default-made Task can be used where nobody listens.
class Task {
public:
    Task() : state_(std::make_shared<State>()) {}

    void cancel() const { state_->cancelled.store(true, std::memory_order_relaxed); }
    bool isCancelled() const { return state_->cancelled.load(std::memory_order_relaxed); }
    /// Throws Cancelled once cancel() was called. Call it at least every few milliseconds of work.
    void check() const {
        if (isCancelled()) throw Cancelled();
    }

    /// Progress of the whole task, 0 to 1, monotone.
    double progress() const { return state_->progress.load(std::memory_order_relaxed); }
    /// Reports progress within this task's share of the whole; values that fall are ignored.
    void report(double share) const {
        const double value = begin_ + (end_ - begin_) * (share < 0 ? 0.0 : share > 1 ? 1.0 : share);
        double seen = state_->progress.load(std::memory_order_relaxed);
        while (value > seen && !state_->progress.compare_exchange_weak(seen, value, std::memory_order_relaxed)) {
        }
    }
    /// A task for a part of the work, whose 0..1 lies between begin and end of this one; shares the cancel flag.
    Task part(double begin, double end) const {
        Task t = *this;
        t.begin_ = begin_ + (end_ - begin_) * begin;
        t.end_ = begin_ + (end_ - begin_) * end;
        return t;
    }

private:
    struct State {
        std::atomic<bool> cancelled{false};
        std::atomic<double> progress{0.0};
    };
    std::shared_ptr<State> state_;
    double begin_ = 0.0, end_ = 1.0;
};

}  // namespace waybench
