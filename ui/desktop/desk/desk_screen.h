#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <string>
#include <vector>

#include "desktop/desk/desk_pages.h"
#include "desktop/screen.h"

namespace voltfall {

/// What an instructor may work on: their own jobs, then those that came with the program.
struct DeskFile {
  std::filesystem::path file;
  std::string title;  ///< its file's name where it can't be read
  bool own = false;
};
std::vector<DeskFile> desk_files();

/// Where jobs begun on the Desk are kept: in the user's data folder.
std::filesystem::path own_jobs_folder();

/// The list of scenarios to work on.
class DeskList : public Screen {
 public:
  DeskList(const Wording& words, std::function<std::unique_ptr<Screen>()> before);
  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }

 private:
  void draw_list(const Rect& place);

  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  Hands hands_;
  std::vector<DeskFile> files_;
};

/// One scenario beside its findings, live as the file is saved.
class DeskScreen : public Screen {
 public:
  DeskScreen(std::filesystem::path file, const Wording& words, std::function<std::unique_ptr<Screen>()> before);
  void frame(double frame_s, ImVec2 window_size) override;
  void let_go() override { hands_.let_go(); }
  /// It looks at the file by itself, which a window that rests does often enough.
  bool is_still() const override { return !watch_.is_busy(); }

 private:
  void draw_head(Rect row);
  void draw_right(Rect place);
  void play();

  const Wording& words_;
  std::function<std::unique_ptr<Screen>()> before_;
  Hands hands_;
  DeskWatch watch_;
  DeskPage page_ = DeskPage::findings;
  std::string problem_;
};

}  // namespace voltfall
