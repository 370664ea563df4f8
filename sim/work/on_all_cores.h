#pragma once

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <thread>
#include <vector>

namespace voltfall {

/// Calls `one(index)` once for every index below `count`, on as many threads as the machine has cores, each taking the
/// next as soon as it is free. For separate pieces of work, which come out the same whatever works on them. `one` must
/// not throw.
template <typename One>
void on_all_cores(std::size_t count, const One& one) {
  std::atomic<std::size_t> next{0};
  const auto work = [&] {
    for (std::size_t index = next++; index < count; index = next++) one(index);
  };
  std::vector<std::jthread> workers;
  const std::size_t cores = std::max(1U, std::thread::hardware_concurrency());
  for (std::size_t i = 0; i < std::min(cores, count); ++i) workers.emplace_back(work);
}

}  // namespace voltfall
