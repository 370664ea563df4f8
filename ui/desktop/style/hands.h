#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "desktop/style/rect.h"

namespace voltfall {

/// Where the person's hands are: which control has the keyboard, which one the mouse went down on, how far each list
/// is scrolled. One per window; every control takes it and leaves its mark.
///
/// Tab and Shift+Tab walk the controls in the order they were drawn; Enter or Space presses the focused one.
/// While something lies over the sheet (a close-up, the close-out), draw what is beneath with `live` off.
class Hands {
 public:
  void begin_frame();
  void end_frame();

  bool live = true;            ///< false: controls draw but can be neither pressed nor focused
  bool letters_taken = false;  ///< an entry line outside text fields is open: letters and Enter belong to it

  /// Registers a control for this frame. Call once per control per frame, in reading order.
  void offer(std::string_view id, const Rect& where);

  bool over(const Rect& where) const;                    ///< mouse over it, not clipped away
  bool pressed(std::string_view id, const Rect& where);  ///< clicked (down and up inside) or Enter or Space in focus
  bool held(std::string_view id, const Rect& where);     ///< mouse button or Space still down on it
  /// The mouse went down on it and has not been let go, wherever it is now.
  bool dragged(std::string_view id) const { return live && down_on_ == id && ImGui::GetIO().MouseDown[0]; }
  bool focused(std::string_view id) const { return live && focus_ == id; }
  bool ring_on(std::string_view id) const { return focused(id) && by_keyboard_; }
  void focus_on(std::string_view id);
  /// The keyboard's focus from the next frame on, if it is the keyboard that works: what is pressed now presses nothing
  /// there.
  void go_on_at(std::string_view id) { going_on_at_ = by_keyboard_ ? id : std::string_view(); }
  std::string_view focus() const { return focus_; }
  bool by_keyboard() const { return by_keyboard_; }

  float& scroll_of(std::string_view list);

  /// True while letters go into a text field: single-letter commands must then be left alone.
  bool typing() const;

  /// The window lost focus: nothing stays held.
  void let_go() { down_on_.clear(); }

 private:
  void walk(int direction);

  std::string focus_, down_on_, going_on_at_;
  bool by_keyboard_ = false;
  std::vector<std::string> order_;
  std::map<std::string, float, std::less<>> scroll_;
};

/// The letter's key went down this frame (no repeat) and no text field has it.
bool letter_pressed(const Hands& hands, char upper_case);
bool letter_down(const Hands& hands, char upper_case);

/// Index of a letter in ImGuiIO::KeysDown: our bridge and the tests use SFML's order, A is 0.
constexpr int letter_key(char upper_case) {
  return upper_case - 'A';
}

}  // namespace voltfall
