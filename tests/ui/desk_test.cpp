#include <gmock/gmock.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <thread>

#include "desktop/desk/desk_screen.h"
#include "desktop/desk/new_job.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

namespace fs = std::filesystem;

fs::path template_file() {
  return fs::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "template" / "new_job.toml";
}

/// Until what is under way has ended; a minute is far more than a table takes.
void wait_for(DeskWatch& watch) {
  for (int tenths = 0; tenths < 600; ++tenths) {
    watch.poll(0.3);
    if (!watch.is_busy()) return;
    std::this_thread::sleep_for(std::chrono::milliseconds(100));
  }
  ADD_FAILURE() << "the Desk has not come to an end";
}

TEST(DeskWatch, ReadsAndVetsAndReadsAgainWhatIsSaved) {
  const fs::path file = fs::path(::testing::TempDir()) / ("voltfall_desk_" + std::to_string(getpid()) + ".toml");
  fs::copy_file(template_file(), file, fs::copy_options::overwrite_existing);
  DeskWatch watch(file);
  wait_for(watch);
  ASSERT_TRUE(watch.report());
  EXPECT_TRUE(watch.report()->complete);
  EXPECT_TRUE(watch.report()->sound());
  EXPECT_THAT(watch.problems(), ::testing::IsEmpty());
  EXPECT_GT(watch.lines().size(), 20U);

  std::ofstream(file) << "[job]\ntitel = 1\n";
  watch.poll(0.3);
  EXPECT_EQ(watch.lines().size(), 2U);
  ASSERT_FALSE(watch.problems().empty());
  EXPECT_TRUE(watch.report()) << "what was found before stays in sight";

  fs::copy_file(template_file(), file, fs::copy_options::overwrite_existing);
  watch.poll(0.3);
  EXPECT_THAT(watch.problems(), ::testing::IsEmpty());
  wait_for(watch);
  fs::remove(file);
}

TEST(NewJob, IsNamedAfterItsTitleAndNeverOverAnother) {
  const fs::path folder = fs::path(::testing::TempDir()) / ("voltfall_own_" + std::to_string(getpid()));
  fs::create_directories(folder);
  EXPECT_EQ(free_file_for("Slow, on a Cold start!", folder).filename(), "slow_on_a_cold_start.toml");
  std::ofstream(folder / "slow.toml") << "x";
  EXPECT_EQ(free_file_for("Slow", folder).filename(), "slow_2.toml");
  EXPECT_EQ(free_file_for("../..", folder).filename(), "new_job.toml");
  fs::remove_all(folder);
}

}  // namespace
}  // namespace voltfall
