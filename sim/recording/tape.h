#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "recording/signals.h"
#include "recording/tape_store.h"

namespace voltfall {

/// Lowest and highest value of a signal over a stretch of tape.
struct TapeRange {
  float lowest, highest;
};

/// A stretch of tape cut into equal parts, cut to what the tape holds.
struct TapeView {
  double from_s = 0.0, to_s = 0.0;
  std::size_t parts = 0;
};

/// Neighbouring samples of a signal: the first is of `from_s`, each next one a step later.
struct TapeSamples {
  double from_s = 0.0;
  std::size_t count = 0;
};

/// All signals of every step of a job.
///
/// The last 30 s are kept step by step. Behind them lies the lowest and highest of every millisecond: the last minute
/// in memory, what is older in a store. Of every second the outline, its lowest and highest, stays in memory. No level
/// leaves out a value, so that a spike of one step shows however far the view is drawn back. A signal that moved by
/// less than its `display` within a second is not written to the store: its outline says it all.
///
/// Memory is bounded (some 60 MiB for a step of 0.2 ms) and taken once, at the start: `append` takes none from the
/// heap, but for the words about a store that fails.
class Tape {
 public:
  static constexpr double full_rate_s = 30.0;
  static constexpr double cell_s = 1.0e-3;
  static constexpr std::size_t cells_in_block = 1000;
  static constexpr std::int64_t blocks_in_memory = 60;    ///< beside the one being filled
  static constexpr std::int64_t blocks_held = 4L * 3600;  ///< a longer job loses its beginning

  /// @param step_s of the readings to come, above 0
  /// @param store null when there is none; only outlines are then left of tape older than a minute
  explicit Tape(double step_s, std::unique_ptr<TapeStore> store = nullptr);

  /// The readings of the next step. Throws std::logic_error when they don't follow the last ones by one step.
  void append(const Readings& now);

  bool empty() const { return steps_ == 0; }
  /// Times of the first and last step held; both 0 while the tape is empty.
  TapeView held() const { return view_of(first_step_held(), steps_ - 1); }
  TapeView held_at_full_rate() const { return view_of(first_step_at_full_rate(), steps_ - 1); }

  /// Lowest and highest of a signal in each of at most `into.size()` equal parts of a stretch, from the finest level
  /// that holds it; `from_s` is part of the stretch, `to_s` is not. Fewer parts where the stretch has fewer steps, none
  /// where the tape holds nothing of it. Behind 30 s a part reaches out to whole milliseconds; where the store failed,
  /// to whole seconds.
  TapeView look(std::size_t signal, double from_s, double to_s, std::span<TapeRange> into) const;

  /// Step by step, at most `into.size()` of them from the earliest on: what lies of the stretch within the last 30 s.
  TapeSamples samples(std::size_t signal, double from_s, double to_s, std::span<float> into) const;

  /// What went wrong with the store, once; the tape goes on in memory.
  std::optional<std::string> take_trouble();

 private:
  using Index = std::int64_t;  ///< of a step, a cell or a block, counted from the start
  static constexpr std::size_t row_width = (tape_signal_count + 3) / 4 * 4;
  static constexpr Index block_cells = static_cast<Index>(cells_in_block);
  static_assert(tape_signal_count <= 64, "a block's written signals are bits of one word");

  struct alignas(16) Row {
    std::array<float, row_width> value;
  };
  struct Ranges {
    Row lowest, highest;
    void widen(const Row& by_lowest, const Row& by_highest);
  };
  /// Where a block lies in the store.
  struct Place {
    std::uint64_t offset = 0;
    std::uint64_t signals = 0;  ///< those written, one bit each, in order from `offset` on
  };

  void close_cell();
  void close_block();
  void store(Index block);
  void put(std::uint64_t& end, std::span<const TapeRange> columns);

  TapeRange* columns_of(Index block) const;
  TapeRange* column(Index block, std::size_t signal) const { return columns_of(block) + signal * cells_in_block; }
  TapeRange& outline(Index block, std::size_t signal) const;
  Place& place(Index block) { return places_[static_cast<std::size_t>(block % blocks_held)]; }
  const Place& place(Index block) const { return places_[static_cast<std::size_t>(block % blocks_held)]; }

  TapeView view_of(Index first, Index end) const;
  double time_of(Index step) const { return first_s_ + static_cast<double>(step) * step_s_; }
  Index first_step_not_before(double time_s) const;
  Index first_step_at_full_rate() const { return steps_ > steps_kept_ ? steps_ - steps_kept_ : 0; }
  Index first_step_held() const;
  Index block_being_filled() const { return cells_ / block_cells; }
  void look_at_steps(std::size_t signal, Index from, Index to, TapeRange& range) const;
  void look_narrowly(std::size_t signal, Index from, Index to, TapeRange& range) const;
  void look_at_cells(std::size_t signal, Index from, Index to, TapeRange& range) const;
  void look_into_block(std::size_t signal, Index block, std::size_t from, std::size_t to, TapeRange& range) const;

  double step_s_, first_s_ = 0.0;
  Index steps_per_cell_, steps_kept_;
  Index steps_ = 0, cells_ = 0;  ///< appended; closed
  Index next_row_ = 0;           ///< place of the next step in `rows_`
  Index steps_in_cell_ = 0;
  Ranges block_{};  ///< of the closed cells of the block being filled
  std::unique_ptr<Row[]> rows_;
  std::unique_ptr<TapeRange[]> columns_;   ///< block by block, signal by signal, cell by cell
  std::unique_ptr<TapeRange[]> outlines_;  ///< block by block, signal by signal
  std::vector<Place> places_;
  std::unique_ptr<TapeStore> store_;
  std::uint64_t store_end_ = 0;
  bool store_failed_ = false;
  std::string trouble_;
};

}  // namespace voltfall
