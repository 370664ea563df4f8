#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "debrief/debrief_contents.h"
#include "desktop/fall_line/fall_line_model.h"
#include "desktop/kit/recorder_view.h"
#include "desktop/style/hands.h"
#include "instruments/kit.h"
#include "rig/test_points.h"

namespace voltfall {

enum class RailTab { work_order, findings, suspects, kit };

/// What the learner is in the middle of typing or choosing at the close-out. The session knows only what was done.
struct CloseOutDraft {
  std::string words;                   ///< free text of the name
  std::vector<std::string> fault_ids;  ///< chosen so far: one, or more for a vehicle with several faults
  std::vector<int> evidence;           ///< finding numbers, at most six
  bool naming_again = false;           ///< a second attempt is being written
  std::string repair_words;            ///< filter of the repairs
  std::optional<std::string> repair_id;
  bool hand_back_asked = false;  ///< the key was pressed once
};

enum class DebriefPage { score, steps, suspects, volts, check };

/// The list open in the Findings tab in place of the findings themselves.
enum class Noting { nothing, heard_or_seen, look };

/// What is done to the part that is chosen from that list.
enum class Handling { look, wiggle, press, tap, feel };

/// What is to be put on a point: a lead of the meter, the clamp's jaw, or the instrument in hand.
enum class Pick { nothing, red, black, clamp, device, thermometer, channel };

/// The screen's own small state. Nothing in it changes the job: that is what `Session` and its actions are for.
struct BayState {
  Hands hands;
  RailTab tab = RailTab::work_order;
  bool close_out_open = false;
  bool debrief_open = false;
  CloseOutDraft close_out;
  std::shared_ptr<const DebriefContents> debrief;  ///< worked out as the job is closed
  DebriefPage debrief_page = DebriefPage::score;
  std::filesystem::path record;  ///< from which the job can be seen again; empty: from none

  FallPath fall_path = FallPath::power;
  Noting noting = Noting::nothing;
  Handling handling = Handling::look;
  int finding_selected = 0;             ///< its number; 0: none
  std::optional<std::size_t> fall_set;  ///< empty: the one noted into last

  std::optional<TestPoint> pointed;  ///< point under the mouse
  std::optional<TestPoint> chosen;   ///< point clicked or walked to: its keys stand beside the picture's notes
  bool carried = false;              ///< the dragged lead was picked up by a click: the next click lands it
  Pick walking = Pick::red;          ///< the lead the arrow keys walk: the one moved last

  Kit in_hand = Kit::clamp_meter;        ///< has its face under the meter
  Device to_hang = Device::test_lamp;    ///< with Pick::device: what is being hung
  std::optional<TestPoint> first_point;  ///< and where its first end went
  RecorderView recorder;                 ///< cursors, zoom, and the channel with Pick::channel
  bool recorder_open = false;            ///< its panel lies where the fall line is
  bool remote_held = false;              ///< U or the switch's own key is down
  bool service_sheet_open = false;       ///< over everything

  bool crank_held = false;       ///< C or the key on the sheet is down
  bool keys_shown = false;       ///< the list of keyboard keys lies over the picture
  Pick dragged = Pick::nothing;  ///< lead or jaw on the mouse
  Pick typed = Pick::nothing;    ///< R, B or A was pressed: the entry line is open
  std::string typed_words;
  bool names_shown = false;         ///< L held: every point's name
  std::optional<int> close_up;      ///< index of the crowded place open in the 3x close-up
  double timed_crank_left_s = 0.0;  ///< above 0 while a timed crank runs, in simulated seconds
  bool calm_motion = false;         ///< no shake, no smoke
  std::string said;                 ///< the last thing the sheet has to tell the person, in plain words
  double said_s_ago = 1.0e9;
};

}  // namespace voltfall
