#pragma once

#include <atomic>
#include <filesystem>
#include <functional>
#include <future>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "debrief/debrief_contents.h"
#include "desktop/screen.h"
#include "desktop/style/hands.h"
#include "desktop/table_at_work.h"
#include "scenario/problem.h"
#include "wording/wording.h"

namespace voltfall {

/// A closed job as the list shows it: from its record's first line and the one that closed it.
struct ClosedJob {
  std::filesystem::path record;
  std::string title;
  int attempt = 1;
  std::optional<double> total;  ///< empty: sealed, and not released when it was handed back
  bool passed = false;
};

/// The user's closed jobs, the latest first; at most 60.
std::vector<ClosedJob> closed_jobs();

/// The list of closed jobs; pressing one opens its debrief.
class ClosedJobsScreen : public Screen {
 public:
  /// @param before  makes the screen that follows when the person leaves
  ClosedJobsScreen(const Wording& words, std::function<std::unique_ptr<Screen>()> before);

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }

 private:
  void draw_list(Rect place);

  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  Hands hands_;
  std::vector<ClosedJob> jobs_;
};

/// Reads a record beside the screen and opens its debrief when all of it is worked out anew; says how far it is.
class OpeningDebrief : public Screen {
 public:
  OpeningDebrief(std::filesystem::path record, const Wording& words, std::function<std::unique_ptr<Screen>()> before);
  ~OpeningDebrief() override { work_.stop = true, stop_table(); }

  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }
  bool is_still() const override { return false; }

 private:
  struct Opened {
    std::unique_ptr<Session> session;
    std::vector<Problem> problems;
    std::shared_ptr<const DebriefContents> contents;
  };
  /// What the work and the screen both look at.
  struct Work {
    std::atomic<bool> stop{false};
    std::mutex mutex;
    std::shared_ptr<TableAtWork> table;  ///< under the mutex
  };
  static Opened open(const std::filesystem::path& record, const Wording& words, Work& work);
  void stop_table();

  std::filesystem::path record_;
  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  Hands hands_;
  std::string problem_;
  Work work_;
  std::future<Opened> opened_;
};

}  // namespace voltfall
