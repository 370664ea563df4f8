#pragma once

#include <filesystem>
#include <future>
#include <memory>
#include <string>
#include <vector>

#include "scenario/read_scenario.h"
#include "vetting/vet.h"

namespace voltfall {

/// A scenario file while its author works on it elsewhere: looked at four times a second, read and vetted anew whenever
/// it was saved. What can be told without a table is there at once, the rest when the table is.
class DeskWatch {
 public:
  explicit DeskWatch(std::filesystem::path file);
  ~DeskWatch();
  DeskWatch(const DeskWatch&) = delete;
  DeskWatch& operator=(const DeskWatch&) = delete;

  /// Call once a frame.
  void poll(double frame_s);

  const std::filesystem::path& file() const { return file_; }
  const std::vector<std::string>& lines() const { return lines_; }    ///< of the file as last read
  const std::vector<Problem>& problems() const { return problems_; }  ///< of the same
  /// Of the latest text that could be read, a little behind it; null before the first.
  std::shared_ptr<const VetReport> report() const { return report_; }
  bool is_busy() const { return glance_.valid() || whole_.valid(); }
  int done() const { return progress_->done; }
  int of() const { return progress_->of; }  ///< 0: not known yet

 private:
  using Report = std::shared_ptr<const VetReport>;
  struct Stamp {
    std::filesystem::file_time_type written;
    std::uintmax_t bytes = 0;
    bool operator==(const Stamp&) const = default;
  };
  void read();
  void begin_vetting();
  void take_results();

  std::filesystem::path file_;
  Stamp stamp_;
  double since_look_s_ = 1.0;
  std::vector<std::string> lines_;
  std::vector<Problem> problems_;
  std::optional<Scenario> scenario_;  ///< read and not yet given to the work
  Report report_;
  std::shared_ptr<TableProgress> progress_ = std::make_shared<TableProgress>();
  std::future<Report> glance_, whole_;
};

}  // namespace voltfall
