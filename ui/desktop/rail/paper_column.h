#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "desktop/style/draw.h"

namespace voltfall {

/// A scrolled column of text and rows, written from the top down. In focus, arrows and Page Up / Page Down turn it;
/// from one of its rows, up and down go to the next.
/// The column learns its length as it is written, so that a change shows from the next frame on.
class PaperColumn {
 public:
  PaperColumn(Hands& hands, std::string_view id, const Rect& view);
  ~PaperColumn();
  PaperColumn(const PaperColumn&) = delete;
  PaperColumn& operator=(const PaperColumn&) = delete;

  void paragraph(Type type, ImU32 colour, std::string_view words);
  void heading(std::string_view words);
  void gap(float height) { y_ += height; }
  /// Room for one row of the column's width.
  Rect row(float height);
  /// The same for a control: scrolled into sight while it has the keyboard.
  Rect row_for(std::string_view control, float height);
  /// Down in this control, which stands above the column, goes to the first row.
  void below(std::string_view control) { above_ = control; }
  float width() const { return area_->width(); }

 private:
  void turn_by_keys(const Rect& view);
  void walk_rows();

  Hands& hands_;
  std::string id_;
  Rect view_;
  std::optional<ScrollArea> area_;
  std::string above_;
  std::vector<std::string> rows_;
  float y_ = 0;
};

}  // namespace voltfall
