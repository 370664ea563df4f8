#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "desktop/style/hands.h"
#include "desktop/style/ink.h"
#include "desktop/style/rect.h"
#include "desktop/style/type.h"

namespace voltfall {

// The sheet's own controls, drawn with the current ImGui window's draw list. Ids must be unique in the window.

ImDrawList& sheet();  ///< the current window's draw list

// ---- text: never cut without an ellipsis ----

enum class Align { left, centre, right };

/// `whole`, or as much of it as fits with `…` at the end.
std::string shortened(Type type, std::string_view whole, float width);

/// One line, centred upright in the box.
void text_in(const Rect& box, Type type, ImU32 colour, std::string_view words, Align align = Align::left);

/// Text broken at spaces (and at \n) to the width; returns the height it takes.
float wrapped_height(Type type, std::string_view words, float width);
float wrapped_text(ImVec2 top_left, float width, Type type, ImU32 colour, std::string_view words);

/// What `text_in` had to shorten since the list was last cleared: lets a test find text that does not fit.
std::vector<std::string>& shortened_texts();

// ---- ruled paper ----

void rule_across(float from_x, float to_x, float y, ImU32 colour = ink::ink, float thickness = 1.0F);
void rule_down(float x, float from_y, float to_y, ImU32 colour = ink::ink, float thickness = 1.0F);

/// Only the border, where the sheet's own paper is all that lies beneath: filling costs time with no graphics card.
void ruled_border(const Rect& zone);

/// Fills the zone with paper and rules its border.
void ruled_zone(const Rect& zone, ImU32 fill = ink::paper);

/// A row of a title block: small label above, value under it (wrapped), a hairline below. Returns the height taken.
float title_row(ImVec2 top_left, float width, std::string_view label, std::string_view value);

/// Label and value side by side on one line: soft label at left, value at right.
void label_value(const Rect& row, std::string_view label, std::string_view value, Type value_type = Type::figures);

void tick_mark(ImVec2 centre, float size, ImU32 colour);
void focus_ring(const Rect& around);

// ---- keys ----

struct KeyLook {
  bool selected = false;  ///< filled, with a bar along its foot
  bool enabled = true;
  bool on_dark = false;  ///< on an instrument's face
  bool strong = false;   ///< the one next step: bold with a heavy border
  Type type = Type::body;
};

/// An engraved push key. True in the frame it is pressed (mouse, Enter or Space).
bool push_key(Hands& hands, std::string_view id, const Rect& where, std::string_view label, const KeyLook& look = {});

/// A key that acts while it is held. True in every frame it is held down.
bool hold_key(Hands& hands, std::string_view id, const Rect& where, std::string_view label, const KeyLook& look = {});

/// A row of keys of which one is selected; returns the index pressed, or `selected`.
int choice_keys(Hands& hands, std::string_view id, const Rect& row, std::span<const std::string_view> labels,
                int selected, KeyLook look = {});

/// The places of keys side by side over the whole row, each as wide as its words ask for.
std::vector<Rect> cells_by_words(const Rect& row, Type type, std::span<const std::string_view> labels);

/// A box with a tick, and words beside it. True in the frame it is pressed.
bool tick_key(Hands& hands, std::string_view id, const Rect& where, std::string_view label, bool ticked,
              bool enabled = true);

/// A row of a list that can be pressed: ground on hover, bar at left when selected. Draw its content over it.
bool list_row(Hands& hands, std::string_view id, const Rect& where, bool selected, bool enabled = true);

// ---- text field ----

/// One line to type in; `hint` shows while empty. Esc and focus elsewhere leave it. True in the frame Enter is pressed.
bool text_field(Hands& hands, std::string_view id, const Rect& where, std::string& words, const char* hint);

// ---- lists longer than their place ----

/// Clips to `view` for its lifetime and scrolls by wheel, by dragging the bar, and to keep the focused row in sight.
/// Draw rows at `top() + n * row height`, `width()` wide.
class ScrollArea {
 public:
  ScrollArea(Hands& hands, std::string_view id, const Rect& view, float content_height);
  ~ScrollArea();
  ScrollArea(const ScrollArea&) = delete;
  ScrollArea& operator=(const ScrollArea&) = delete;

  float top() const { return view_.y - offset_; }
  float width() const { return width_; }

  /// Scrolls so that the row is seen: call it for the focused row.
  void keep_in_sight(float row_y, float row_height);

 private:
  Hands& hands_;
  std::string id_;
  Rect view_;
  float content_height_, offset_, width_;
};

}  // namespace voltfall
