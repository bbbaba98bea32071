#pragma once
#include <cstddef>
#include <functional>

namespace waybench {

/// Calls work(0) ... work(count - 1), in any order, in this thread and in those of the processor's other cores that are
/// free. Returns when all are done; the first exception is thrown again. Threads that wait sleep. Asked from two
/// threads at once, or from inside itself, the second goes alone. What work(i) does must not depend on the others, so
/// that the result is the same with any number of cores.
void inParallel(std::size_t count, const std::function<void(std::size_t)>& work);

/// The same over [0, size) in shares of `share` (the last may be shorter): work(begin, end).
void inShares(std::size_t size, std::size_t share, const std::function<void(std::size_t, std::size_t)>& work);

/// Sum over [0, size) of part(begin, end), added up in the order of the shares.
double sumInShares(std::size_t size, std::size_t share, const std::function<double(std::size_t, std::size_t)>& part);

/// Threads inParallel uses at most, this one included. For measurements; 0 means as many as there are cores.
void setMostThreads(std::size_t most);

}  // namespace waybench
