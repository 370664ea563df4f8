#include "recording/tape.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <cstring>
#include <stdexcept>
#include <utility>

namespace voltfall {
namespace {

constexpr auto memory_slots = static_cast<std::size_t>(Tape::blocks_in_memory + 1);
constexpr auto outline_slots = static_cast<std::size_t>(Tape::blocks_held);
constexpr std::size_t columns_in_block = tape_signal_count * Tape::cells_in_block;

}  // namespace

// Four signals at a time: one by one, this would be most of the cost of an append.
void Tape::Ranges::widen(const Row& by_lowest, const Row& by_highest) {
  using Four [[gnu::vector_size(16)]] = float;
  for (std::size_t i = 0; i < row_width; i += 4) {
    Four low, high, by_low, by_high;
    std::memcpy(&low, &lowest.value[i], sizeof low);
    std::memcpy(&high, &highest.value[i], sizeof high);
    std::memcpy(&by_low, &by_lowest.value[i], sizeof by_low);
    std::memcpy(&by_high, &by_highest.value[i], sizeof by_high);
    low = by_low < low ? by_low : low;
    high = by_high > high ? by_high : high;
    std::memcpy(&lowest.value[i], &low, sizeof low);
    std::memcpy(&highest.value[i], &high, sizeof high);
  }
}

// Steps and columns are touched here once, since a page's first use costs more than all the rest of an append; outlines
// come so slowly that it does not matter.
Tape::Tape(double step_s, std::unique_ptr<TapeStore> store)
    : step_s_(step_s),
      steps_per_cell_(std::max<Index>(std::lround(cell_s / step_s), 1)),
      steps_kept_(std::lround(full_rate_s / cell_s) * steps_per_cell_),
      rows_(std::make_unique<Row[]>(static_cast<std::size_t>(steps_kept_))),
      columns_(std::make_unique<TapeRange[]>(memory_slots * columns_in_block)),
      outlines_(std::make_unique_for_overwrite<TapeRange[]>(outline_slots * tape_signal_count)),
      places_(outline_slots),
      store_(std::move(store)) {}

void Tape::append(const Readings& now) {
  if (steps_ == 0) first_s_ = now.time_s;
  if (!(std::abs(now.time_s - time_of(steps_)) < 0.5 * step_s_)) {
    throw std::logic_error(
        fmt::format("the tape waits for the step at {} s and got readings of {} s", time_of(steps_), now.time_s));
  }
  Row& row = rows_[static_cast<std::size_t>(next_row_)];
  sample_for_tape(now, std::span<float, tape_signal_count>(row.value.data(), tape_signal_count));
  ++steps_;
  ++next_row_;
  if (++steps_in_cell_ == steps_per_cell_) close_cell();
  if (next_row_ == steps_kept_) next_row_ = 0;
}

// A cell's steps lie side by side: as many are kept as fill whole cells.
void Tape::close_cell() {
  const Row* steps = &rows_[static_cast<std::size_t>(next_row_ - steps_per_cell_)];
  Ranges cell{steps[0], steps[0]};
  for (Index i = 1; i < steps_per_cell_; ++i) cell.widen(steps[i], steps[i]);
  TapeRange* column = columns_of(block_being_filled()) + cells_ % block_cells;
  for (std::size_t i = 0; i < tape_signal_count; ++i) {
    column[i * cells_in_block] = {cell.lowest.value[i], cell.highest.value[i]};
  }
  if (cells_ % block_cells == 0) block_ = cell;
  block_.widen(cell.lowest, cell.highest);
  steps_in_cell_ = 0;
  ++cells_;
  if (cells_ % block_cells == 0) close_block();
}

// The block that comes next takes the oldest one's place in memory.
void Tape::close_block() {
  const Index filled = block_being_filled() - 1;
  for (std::size_t i = 0; i < tape_signal_count; ++i)
    outline(filled, i) = {block_.lowest.value[i], block_.highest.value[i]};
  place(filled) = {};
  const Index leaving = filled - blocks_in_memory;
  if (leaving >= 0 && store_ != nullptr && !store_failed_) store(leaving);
}

// Writes what moved: neighbouring columns in one go.
void Tape::store(Index block) {
  Place kept{.offset = store_end_, .signals = 0};
  const auto moved = [&](std::size_t signal) {
    const TapeRange& whole = outline(block, signal);
    return !(static_cast<double>(whole.highest - whole.lowest) < tape_signals()[signal].display);
  };
  std::uint64_t end = store_end_;
  for (std::size_t first = 0; first < tape_signal_count;) {
    std::size_t next = first;
    for (; next < tape_signal_count && moved(next); ++next) kept.signals |= std::uint64_t{1} << next;
    put(end, {column(block, first), (next - first) * cells_in_block});
    first = next + 1;
  }
  if (store_failed_) return;
  store_end_ = end;
  place(block) = kept;
}

void Tape::put(std::uint64_t& end, std::span<const TapeRange> columns) {
  if (columns.empty() || store_failed_) return;
  const auto bytes = std::as_bytes(columns);
  if (const auto wrong = store_->write(end, bytes)) {
    store_failed_ = true;
    trouble_ =
        fmt::format("{}. Of tape older than a minute only the lowest and highest of each second are kept now.", *wrong);
  }
  end += bytes.size();
}

std::optional<std::string> Tape::take_trouble() {
  if (trouble_.empty()) return std::nullopt;
  return std::exchange(trouble_, {});
}

TapeRange* Tape::columns_of(Index block) const {
  return columns_.get() + static_cast<std::size_t>(block) % memory_slots * columns_in_block;
}

TapeRange& Tape::outline(Index block, std::size_t signal) const {
  return outlines_[static_cast<std::size_t>(block % blocks_held) * tape_signal_count + signal];
}

}  // namespace voltfall
