#include <algorithm>
#include <array>
#include <bit>
#include <cmath>
#include <limits>

#include "recording/tape.h"

namespace voltfall {
namespace {

constexpr TapeRange nothing{std::numeric_limits<float>::infinity(), -std::numeric_limits<float>::infinity()};

void widen(TapeRange& range, const TapeRange& by) {
  range.lowest = std::min(range.lowest, by.lowest);
  range.highest = std::max(range.highest, by.highest);
}

}  // namespace

TapeView Tape::view_of(Index first, Index end) const {
  if (empty()) return {};
  return {.from_s = time_of(first), .to_s = time_of(end), .parts = 0};
}

Tape::Index Tape::first_step_held() const {
  const Index lost = std::max<Index>(block_being_filled() - blocks_held, 0);
  return lost * block_cells * steps_per_cell_;
}

// The readings' times are multiples of the step but for rounding, which a thousandth of a step covers for days.
Tape::Index Tape::first_step_not_before(double time_s) const {
  const double step = std::ceil((time_s - first_s_) / step_s_ - 1.0e-3);
  return static_cast<Index>(std::clamp(step, 0.0, static_cast<double>(steps_)));
}

TapeView Tape::look(std::size_t signal, double from_s, double to_s, std::span<TapeRange> into) const {
  const Index first = std::max(first_step_not_before(from_s), first_step_held());
  const Index end = first_step_not_before(to_s);
  if (first >= end || into.empty()) return {};
  const Index parts = std::min(static_cast<Index>(into.size()), end - first);
  for (Index part = 0; part < parts; ++part) {
    const auto cut = [&](Index at) { return first + (end - first) * at / parts; };
    const Index from = cut(part), to = cut(part + 1);
    TapeRange range = nothing;
    const Index first_cell = (from + steps_per_cell_ - 1) / steps_per_cell_;
    const Index end_cell = std::min(to / steps_per_cell_, cells_);
    if (end_cell - first_cell < 2) {
      look_narrowly(signal, from, to, range);
    } else {
      look_narrowly(signal, from, first_cell * steps_per_cell_, range);
      look_at_cells(signal, first_cell, end_cell, range);
      look_narrowly(signal, end_cell * steps_per_cell_, to, range);
    }
    into[static_cast<std::size_t>(part)] = range;
  }
  return {.from_s = time_of(first), .to_s = time_of(end), .parts = static_cast<std::size_t>(parts)};
}

// Step by step as far as steps are kept, else by the cells the stretch touches.
void Tape::look_narrowly(std::size_t signal, Index from, Index to, TapeRange& range) const {
  if (from >= to) return;
  if (from >= first_step_at_full_rate()) {
    look_at_steps(signal, from, to, range);
  } else {
    look_at_cells(signal, from / steps_per_cell_, (to + steps_per_cell_ - 1) / steps_per_cell_, range);
  }
}

void Tape::look_at_steps(std::size_t signal, Index from, Index to, TapeRange& range) const {
  for (Index step = from; step < to; ++step) {
    const float value = rows_[static_cast<std::size_t>(step % steps_kept_)].value[signal];
    widen(range, {value, value});
  }
}

void Tape::look_at_cells(std::size_t signal, Index from, Index to, TapeRange& range) const {
  while (from < to) {
    const Index block = from / block_cells;
    const Index first = from - block * block_cells;
    const Index end = std::min(to - block * block_cells, block_cells);
    if (end - first == block_cells) {
      widen(range, outline(block, signal));
    } else {
      look_into_block(signal, block, static_cast<std::size_t>(first), static_cast<std::size_t>(end), range);
    }
    from = block * block_cells + end;
  }
}

void Tape::look_into_block(std::size_t signal, Index block, std::size_t from, std::size_t to, TapeRange& range) const {
  if (block + blocks_in_memory >= block_being_filled()) {
    const TapeRange* cells = column(block, signal);
    for (std::size_t i = from; i < to; ++i) widen(range, cells[i]);
    return;
  }
  const Place& kept = place(block);
  const std::uint64_t bit = std::uint64_t{1} << signal;
  std::array<TapeRange, cells_in_block> cells;
  const std::span<TapeRange> wanted(cells.data(), to - from);
  const auto columns_before = static_cast<std::uint64_t>(std::popcount(kept.signals & (bit - 1)));
  const std::uint64_t offset = kept.offset + (columns_before * cells_in_block + from) * sizeof(TapeRange);
  if ((kept.signals & bit) == 0 || !store_->read(offset, std::as_writable_bytes(wanted))) {
    widen(range, outline(block, signal));  // it did not move, or the store has lost it
    return;
  }
  for (const TapeRange& cell : wanted) widen(range, cell);
}

TapeSamples Tape::samples(std::size_t signal, double from_s, double to_s, std::span<float> into) const {
  const Index first = std::max(first_step_not_before(from_s), first_step_at_full_rate());
  const Index end = std::min(first_step_not_before(to_s), first + static_cast<Index>(into.size()));
  if (first >= end) return {};
  for (Index step = first; step < end; ++step) {
    into[static_cast<std::size_t>(step - first)] = rows_[static_cast<std::size_t>(step % steps_kept_)].value[signal];
  }
  return {.from_s = time_of(first), .count = static_cast<std::size_t>(end - first)};
}

}  // namespace voltfall
