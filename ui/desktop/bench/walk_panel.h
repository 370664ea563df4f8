#pragma once

#include <filesystem>
#include <optional>
#include <string>
#include <vector>

#include "desktop/bench/bench_panels.h"
#include "desktop/rail/paper_column.h"
#include "walks/read_walk.h"
#include "walks/walk_answer.h"
#include "walks/walk_progress.h"

namespace voltfall {

/// What the model gave, in a learner's words: `0.02 V`, `spinning, engine still`.
std::string value_words(const Wording& words, const WalkQuestion& question, const WalkValue& value);

/// The guided experiments, in the bench's column: the list of them, or the page of the one that is open. What a learner
/// has answered is kept in the user's data folder.
class WalkPanel {
 public:
  explicit WalkPanel(const Wording& words);

  /// @param swept  the threshold view has a result
  void draw(const BenchScene& scene, BenchWishes& wishes, bool swept, Rect place);
  const WalkProgress& progress() const { return progress_; }

 private:
  struct Asked {
    const WalkQuestion* question = nullptr;
    std::optional<std::size_t> choice, reason;
    std::optional<WalkAnswer> answer;  ///< once it was given
  };
  void draw_list(const BenchScene& scene, PaperColumn& column);
  void draw_page(const BenchScene& scene, BenchWishes& wishes, bool swept, PaperColumn& column);
  void draw_question(const BenchScene& scene, PaperColumn& column);
  void draw_outcome(const BenchScene& scene, PaperColumn& column);
  void draw_sights(const BenchScene& scene, BenchWishes& wishes, bool swept, PaperColumn& column);
  void draw_explain(const BenchScene& scene, PaperColumn& column);
  void draw_foot(const BenchScene& scene, PaperColumn& column);
  std::optional<std::size_t> draw_choices(const BenchScene& scene, PaperColumn& column, std::string_view id,
                                          const std::vector<std::string_view>& choices,
                                          std::optional<std::size_t> chosen, bool open);
  const BenchWalk* walk_named(std::string_view id) const;
  const WalkQuestion* question_here() const;
  void turn_page();
  void keep();
  bool sight_seen(const BenchScene& scene, const WalkSight& sight, bool swept) const;

  std::vector<BenchWalk> walks_;
  WalkProgress progress_;
  std::filesystem::path file_;
  std::string told_;  ///< what went wrong with a walk's file, or with keeping the progress
  Asked asked_;
  std::string line_;
  std::size_t sight_ = 0;
  bool set_up_ = false, all_seen_ = false;
};

}  // namespace voltfall
