#include "recording/tape.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <unistd.h>

#include <algorithm>
#include <cmath>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <functional>
#include <random>
#include <set>
#include <stdexcept>
#include <vector>

namespace voltfall {
namespace {

constexpr double step_s = 2.0e-4;
constexpr long steps_per_s = 5000;
constexpr long steps_per_cell = 5;
const std::size_t loop = *tape_signal_named("loop");

// A job of which only the loop's current moves, as a function of the step's number.
void run(Tape& tape, long from_step, long to_step, const std::function<double(long)>& loop_A) {
  Readings now;
  for (long step = from_step; step < to_step; ++step) {
    now.time_s = static_cast<double>(step) * step_s;
    now.loop_A = loop_A(step);
    tape.append(now);
  }
}

double rising(long step) {
  return static_cast<double>(step);  // whole numbers below 2^24 are floats
}

std::filesystem::path tape_path() {
  return std::filesystem::temp_directory_path() / ("voltfall_tape_test_" + std::to_string(getpid()));
}

// Keeps bytes in memory, up to a size; beyond that it is a full disk.
class SmallStore : public TapeStore {
 public:
  explicit SmallStore(std::vector<std::byte>& kept, std::size_t most_bytes) : kept_(kept), most_bytes_(most_bytes) {}
  std::optional<std::string> write(std::uint64_t offset, std::span<const std::byte> bytes) override {
    if (offset + bytes.size() > most_bytes_) return "the store is full";
    kept_.resize(std::max(kept_.size(), offset + bytes.size()));
    std::copy(bytes.begin(), bytes.end(), kept_.begin() + static_cast<std::ptrdiff_t>(offset));
    return std::nullopt;
  }
  bool read(std::uint64_t offset, std::span<std::byte> into) const override {
    if (offset + into.size() > kept_.size()) return false;
    std::copy_n(kept_.begin() + static_cast<std::ptrdiff_t>(offset), into.size(), into.begin());
    return true;
  }

 private:
  std::vector<std::byte>& kept_;
  std::size_t most_bytes_;
};

TapeRange whole(const Tape& tape, std::size_t signal, double from_s, double to_s) {
  std::vector<TapeRange> one(1);
  EXPECT_EQ(tape.look(signal, from_s, to_s, one).parts, 1U);
  return one.front();
}

TEST(Signals, HaveEachTheirOwnName) {
  std::set<std::string_view> names;
  for (std::size_t i = 0; i < tape_signal_count; ++i) {
    const TapeSignal& signal = tape_signals()[i];
    EXPECT_TRUE(names.insert(signal.name).second) << signal.name;
    EXPECT_EQ(tape_signal_named(signal.name), i);
    EXPECT_GT(signal.display, 0.0) << signal.name;
  }
  EXPECT_EQ(tape_signal_named("no_such_signal"), std::nullopt);
}

TEST(Signals, AreReadFromTheirPlaces) {
  Readings now;
  for (const TestPoint point : all_test_points()) now.node_V[tape_signal_of(point)] = number_of(point);
  now.cable_A[static_cast<std::size_t>(HeavyCable::negative)] = 321.0;
  now.crank_rpm = 205.5;
  now.meshed = true;
  std::array<float, tape_signal_count> sample{};
  sample_for_tape(now, sample);
  EXPECT_EQ(sample[tape_signal_of(TestPoint::starter_terminal)], number_of(TestPoint::starter_terminal));
  EXPECT_EQ(sample[tape_signal_of(HeavyCable::negative)], 321.0F);
  EXPECT_EQ(sample[*tape_signal_named("crank_speed")], 205.5F);
  EXPECT_EQ(sample[*tape_signal_named("meshed")], 1.0F);
  EXPECT_EQ(sample[*tape_signal_named("shoe_seated")], 0.0F);
}

// Readings that gain a number must gain a row in the table, or the tape would miss it: a number is 8 bytes, a yes or no
// is one, and what is left over can only be the time and the gaps behind the yeses.
TEST(Signals, LeaveNoNumberOfTheReadingsOut) {
  std::size_t bytes = sizeof(Readings::time_s);
  for (const TapeSignal& signal : tape_signals()) bytes += signal.unit == "yes" ? sizeof(bool) : sizeof(double);
  EXPECT_LT(sizeof(Readings) - bytes, sizeof(double));
}

// A float keeps 24 bits: half of the last one is 6e-8 of the value.
TEST(Signals, AreKeptFinerThanAnyDisplay) {
  constexpr double half_a_bit = 6.0e-8;
  EXPECT_LT(24.0 * half_a_bit, tape_signals()[tape_signal_of(TestPoint::battery_positive_post)].display);
  EXPECT_LT(2000.0 * half_a_bit, tape_signals()[loop].display);
  EXPECT_LT(20000.0 * half_a_bit, tape_signals()[*tape_signal_named("motor_speed")].display);
  EXPECT_LT(720.0 * half_a_bit, tape_signals()[*tape_signal_named("crank_angle")].display);
}

TEST(Tape, IsEmptyAtFirst) {
  const Tape tape(step_s);
  EXPECT_TRUE(tape.empty());
  std::vector<TapeRange> parts(4);
  EXPECT_EQ(tape.look(loop, 0.0, 1.0, parts).parts, 0U);
  EXPECT_EQ(tape.held().to_s, 0.0);
}

TEST(Tape, GivesBackEveryStepOfTheLastThirtySeconds) {
  Tape tape(step_s);
  const long end = 37 * steps_per_s + 3;
  run(tape, 0, end, [](long step) { return std::sin(0.01 * static_cast<double>(step)); });
  const long first = end - 30 * steps_per_s;
  EXPECT_NEAR(tape.held_at_full_rate().from_s, static_cast<double>(first) * step_s, 1.0e-9);
  EXPECT_EQ(tape.held().from_s, 0.0);
  EXPECT_NEAR(tape.held().to_s, static_cast<double>(end - 1) * step_s, 1.0e-9);
  std::vector<float> values(40 * steps_per_s);
  const TapeSamples got = tape.samples(loop, 0.0, 100.0, values);
  ASSERT_EQ(got.count, 30U * steps_per_s);
  EXPECT_NEAR(got.from_s, static_cast<double>(first) * step_s, 1.0e-9);
  for (long i = 0; i < 30 * steps_per_s; ++i) {
    ASSERT_EQ(values[static_cast<std::size_t>(i)], static_cast<float>(std::sin(0.01 * static_cast<double>(first + i))))
        << "step " << first + i;
  }
}

TEST(Tape, TakesUpAJobInTheMiddle) {
  Tape tape(step_s);
  run(tape, 7 * steps_per_s, 9 * steps_per_s, rising);
  EXPECT_NEAR(tape.held().from_s, 7.0, 1.0e-9);
  const TapeRange second = whole(tape, loop, 8.0, 8.5);
  EXPECT_EQ(second.lowest, 8.0F * steps_per_s);
  EXPECT_EQ(second.highest, 8.5F * steps_per_s - 1.0F);
}

TEST(Tape, RefusesReadingsOutOfTurn) {
  Tape tape(step_s);
  run(tape, 0, 10, rising);
  Readings now;
  now.time_s = 9.0 * step_s;  // once more
  EXPECT_THROW(tape.append(now), std::logic_error);
  now.time_s = 11.0 * step_s;  // one left out
  EXPECT_THROW(tape.append(now), std::logic_error);
  now.time_s = 10.0 * step_s;
  EXPECT_NO_THROW(tape.append(now));
}

TEST(Tape, CutsAStretchIntoEqualPartsOfWholeSteps) {
  Tape tape(step_s);
  run(tape, 0, 2 * steps_per_s, rising);
  std::vector<TapeRange> parts(100);
  const TapeView view = tape.look(loop, 0.5, 1.5, parts);
  ASSERT_EQ(view.parts, 100U);
  EXPECT_NEAR(view.from_s, 0.5, 1.0e-9);
  EXPECT_NEAR(view.to_s, 1.5, 1.0e-9);
  for (std::size_t i = 0; i < view.parts; ++i) {
    EXPECT_EQ(parts[i].lowest, 2500.0F + 50.0F * static_cast<float>(i));
    EXPECT_EQ(parts[i].highest, 2549.0F + 50.0F * static_cast<float>(i));
  }
  EXPECT_EQ(tape.look(loop, 1.0, 1.0 + 7.0 * step_s, parts).parts, 7U);  // a step is the least there is
  EXPECT_EQ(tape.look(loop, 1.9, 5.0, parts).parts, 100U);               // cut to what is held
  EXPECT_EQ(parts[99].highest, 9999.0F);
  EXPECT_EQ(tape.look(loop, 2.0, 5.0, parts).parts, 0U);
}

// A steadily rising signal, drawn over every boundary between levels, must show neither a hole nor a step back: each
// part goes on where the last one ended, but for the millisecond that both may share behind 30 s.
TEST(Tape, JoinsItsLevelsWithoutAHole) {
  std::vector<std::byte> kept;
  Tape tape(step_s, std::make_unique<SmallStore>(kept, std::size_t{1} << 30U));
  const long end = 130 * steps_per_s + 2;
  run(tape, 0, end, rising);
  for (const std::size_t count : {7U, 333U, 1500U, 20000U}) {
    for (const auto& [from_s, to_s] :
         {std::pair{0.0, 131.0}, {60.3, 80.0}, {68.9, 70.1}, {99.9, 100.1}, {99.0, 131.0}}) {
      SCOPED_TRACE(testing::Message() << count << " parts of " << from_s << " to " << to_s << " s");
      std::vector<TapeRange> parts(count);
      const TapeView view = tape.look(loop, from_s, to_s, parts);
      ASSERT_GT(view.parts, 0U);
      const auto first = static_cast<float>(std::lround(from_s / step_s));
      const auto last = static_cast<float>(std::min(std::lround(to_s / step_s), end) - 1);
      EXPECT_LE(parts.front().lowest, first);
      EXPECT_GT(parts.front().lowest, first - steps_per_cell);
      EXPECT_GE(parts[view.parts - 1].highest, last);
      EXPECT_LT(parts[view.parts - 1].highest, last + steps_per_cell);
      for (std::size_t i = 1; i < view.parts; ++i) {
        ASSERT_LE(parts[i].lowest, parts[i - 1].highest + 1.0F) << "part " << i;
        ASSERT_GT(parts[i].lowest, parts[i - 1].highest - 2.0F * steps_per_cell) << "part " << i;
      }
    }
  }
}

// Seeded spikes of one step each, of which the tape must not lose one at any age or width of view.
TEST(Tape, NeverLosesASpikeOfOneStep) {
  std::mt19937 random(20);
  const long end = 130 * steps_per_s;
  std::set<long> spikes;
  while (spikes.size() < 60) spikes.insert(static_cast<long>(random() % static_cast<unsigned long>(end)));
  std::vector<std::byte> kept;
  Tape tape(step_s, std::make_unique<SmallStore>(kept, std::size_t{1} << 30U));
  run(tape, 0, end, [&](long step) { return spikes.count(step) == 1 ? (step % 2 == 0 ? 900.0 : -900.0) : 0.0; });
  for (const std::size_t count : {1U, 10U, 1000U, 50000U}) {
    std::vector<TapeRange> parts(count);
    const TapeView view = tape.look(loop, 0.0, 130.0, parts);
    const double part_s = (view.to_s - view.from_s) / static_cast<double>(view.parts);
    for (const long spike : spikes) {
      const double time_s = (static_cast<double>(spike) + 0.5) * step_s;
      const TapeRange& part = parts[std::min(static_cast<std::size_t>(time_s / part_s), view.parts - 1)];
      EXPECT_EQ(spike % 2 == 0 ? part.highest : part.lowest, spike % 2 == 0 ? 900.0F : -900.0F)
          << "of the step at " << time_s << " s in " << count << " parts";
    }
  }
}

TEST(Tape, ReadsBackFromTheFileWhatItHeldInMemory) {
  Tape tape(step_s, std::make_unique<TapeFile>(tape_path()));
  const auto wave = [](long step) { return 300.0 + 200.0 * std::sin(0.003 * static_cast<double>(step)); };
  run(tape, 0, 45 * steps_per_s, wave);
  std::vector<TapeRange> before(1000), after(1000);
  ASSERT_EQ(tape.look(loop, 3.0, 4.0, before).parts, 1000U);
  run(tape, 45 * steps_per_s, 90 * steps_per_s, wave);
  ASSERT_EQ(tape.look(loop, 3.0, 4.0, after).parts, 1000U);
  for (std::size_t i = 0; i < before.size(); ++i) {
    ASSERT_EQ(before[i].lowest, after[i].lowest) << i;
    ASSERT_EQ(before[i].highest, after[i].highest) << i;
  }
  EXPECT_EQ(tape.take_trouble(), std::nullopt);
}

TEST(Tape, WritesOnlyWhatMoved) {
  std::vector<std::byte> kept;
  Tape tape(step_s, std::make_unique<SmallStore>(kept, std::size_t{1} << 30U));
  const double display_A = tape_signals()[loop].display;
  const auto creeping = [&](long step) {
    return 0.9 * display_A * static_cast<double>(step % steps_per_s) / steps_per_s;
  };
  run(tape, 0, 80 * steps_per_s, creeping);
  EXPECT_TRUE(kept.empty());
  const TapeRange old = whole(tape, loop, 5.2, 5.3);
  EXPECT_NEAR(old.lowest, creeping(1000), display_A);
  EXPECT_NEAR(old.highest, creeping(1500), display_A);
  run(tape, 80 * steps_per_s, 150 * steps_per_s, rising);
  // Ten seconds, 80 to 89, have left memory by now: a thousand pairs of floats each, of the one signal that moved.
  EXPECT_EQ(kept.size(), 10U * 1000U * 2U * sizeof(float));
}

TEST(Tape, GoesOnInMemoryWhenTheDiskIsFull) {
  std::vector<std::byte> kept;
  Tape tape(step_s, std::make_unique<SmallStore>(kept, 10000));  // the first second's 8000 bytes, not the next one's
  const auto wave = [](long step) { return step == 3 * steps_per_s + 77 ? 999.0 : static_cast<double>(step % 1000); };
  run(tape, 0, 61 * steps_per_s, wave);
  EXPECT_EQ(tape.take_trouble(), std::nullopt);
  run(tape, 61 * steps_per_s, 90 * steps_per_s, wave);
  const auto trouble = tape.take_trouble();
  ASSERT_TRUE(trouble.has_value());
  EXPECT_THAT(*trouble, testing::HasSubstr("the store is full"));
  EXPECT_THAT(*trouble, testing::HasSubstr("older than a minute"));
  run(tape, 90 * steps_per_s, 95 * steps_per_s, wave);
  EXPECT_EQ(tape.take_trouble(), std::nullopt) << "it is said once";
  EXPECT_EQ(whole(tape, loop, 40.0, 40.01).highest, 49.0F);  // the last minute as ever
  EXPECT_EQ(whole(tape, loop, 0.5, 0.51).highest, 549.0F);   // what was written before is still there
  EXPECT_EQ(whole(tape, loop, 3.5, 3.51).highest, 999.0F);   // its second's outline is all that is left
  EXPECT_EQ(whole(tape, loop, 3.5, 3.51).lowest, 0.0F);
}

TEST(Tape, KeepsOutlinesWithoutAStore) {
  Tape tape(step_s);
  run(tape, 0, 70 * steps_per_s, rising);
  const TapeRange old = whole(tape, loop, 2.25, 2.5);
  EXPECT_EQ(old.lowest, 2.0F * steps_per_s);
  EXPECT_EQ(old.highest, 3.0F * steps_per_s - 1.0F);
  EXPECT_EQ(tape.take_trouble(), std::nullopt);
}

TEST(TapeFile, LeavesNothingBehindAndTakesNobodysFile) {
  const auto path = tape_path();
  {
    const TapeFile file(path);
    EXPECT_FALSE(std::filesystem::exists(path));
  }
  std::ofstream(path) << "somebody's";
  EXPECT_THROW(TapeFile{path}, std::runtime_error);
  std::filesystem::remove(path);
  try {
    const TapeFile file("/no/such/folder/tape");
    FAIL() << "a file in no folder";
  } catch (const std::runtime_error& error) {
    EXPECT_THAT(error.what(), testing::HasSubstr("/no/such/folder/tape"));
    EXPECT_THAT(error.what(), testing::HasSubstr("No such file or directory"));
  }
}

// The system's own refusal, by the limit on a file's size: a full disk comes the same way.
TEST(TapeFile, SaysWhyItCannotWrite) {
  TapeFile file(tape_path());
  rlimit before{};
  getrlimit(RLIMIT_FSIZE, &before);
  const auto handler = std::signal(SIGXFSZ, SIG_IGN);
  const rlimit small{4096, before.rlim_max};
  setrlimit(RLIMIT_FSIZE, &small);
  const std::vector<std::byte> bytes(8192);
  const auto wrong = file.write(0, bytes);
  setrlimit(RLIMIT_FSIZE, &before);
  std::signal(SIGXFSZ, handler);
  ASSERT_TRUE(wrong.has_value());
  EXPECT_THAT(*wrong, testing::HasSubstr(tape_path().parent_path().string()));
  EXPECT_THAT(*wrong, testing::HasSubstr("File too large"));
  std::vector<std::byte> back(16);
  EXPECT_FALSE(file.read(1U << 20U, back));
}

}  // namespace
}  // namespace voltfall
