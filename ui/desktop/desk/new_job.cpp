#include "desktop/desk/new_job.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>

#include "console/files.h"
#include "desktop/desk/desk_screen.h"
#include "desktop/layout.h"
#include "desktop/rail/paper_column.h"
#include "vehicles/vehicle_types.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr float row_height = 28, heading_height = 26;
constexpr std::array<std::string_view, 3> level_words{"guided", "plain", "test"};
constexpr std::array<std::string_view, 4> when_words{"always", "hot", "vibration", "damp"};

void heading(Rect& place, std::string_view words) {
  text_in(place.cut_top(heading_height), Type::body_bold, ink::ink, words);
  rule_across(place.x, place.right(), place.y);
  place.cut_top(gap_4);
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  std::transform(lower.begin(), lower.end(), lower.begin(), [](unsigned char c) { return std::tolower(c); });
  return lower;
}

const RigParameters& vehicle_of(const NewScenario& made) {
  return vehicle_type_named(made.vehicle_type)->healthy;
}

double rounded(double value) {
  constexpr double digits = 3.0;
  if (value <= 0.0) return value;
  const double step = std::pow(10.0, std::floor(std::log10(value)) - digits + 1.0);
  return std::round(value / step) * step;
}

}  // namespace

std::filesystem::path free_file_for(const std::string& title, const std::filesystem::path& folder) {
  std::string name;
  for (const char letter : lower_case(title)) {
    const bool plain = std::isalnum(static_cast<unsigned char>(letter)) != 0;
    if (plain || (!name.empty() && name.back() != '_')) name += plain ? letter : '_';
  }
  while (!name.empty() && name.back() == '_') name.pop_back();
  constexpr std::size_t longest = 60;
  name = name.empty() ? "new_job" : name.substr(0, longest);
  for (int number = 1;; ++number) {
    std::filesystem::path file = folder / fmt::format("{}{}.toml", name, number > 1 ? fmt::format("_{}", number) : "");
    std::error_code error;
    if (!std::filesystem::exists(file, error)) return file;
  }
}

NewJobScreen::NewJobScreen(const Wording& words, std::function<std::unique_ptr<Screen>()> before)
    : words_(words), before_(std::move(before)) {
  made_.vehicle_type = all_vehicle_types().front().id;
  made_.vehicle_name = words_.text("desk.new_vehicle");
  made_.title = words_.text("desk.new_title");
  made_.setting = words_.text("desk.new_setting");
  made_.kit = {Kit::multimeter, Kit::clamp_meter};
  choose(*fault_named("block_lug_rusted"));
  hands_.focus_on("new/search");
}

void NewJobScreen::choose(const Fault& fault) {
  made_.faults = {{std::string(fault.id), fault.usual, When::always}};
  made_.complaint = words_.text(fmt::format("fault.{}.like", fault.id));
  made_.debrief = words_.found(fault.id);
}

void NewJobScreen::draw_vehicle(Rect place) {
  heading(place, words_.text("desk.vehicle"));
  std::vector<std::string_view> names;
  int selected = 0;
  for (const VehicleType& type : all_vehicle_types()) {
    if (type.id == made_.vehicle_type) selected = static_cast<int>(names.size());
    names.push_back(type.name.substr(0, type.name.find(" (")));
  }
  const int chosen = choice_keys(hands_, "new/vehicle", place.cut_top(32), names, selected, {.type = Type::small});
  made_.vehicle_type = all_vehicle_types()[static_cast<std::size_t>(chosen)].id;
  if (!fault_named(made_.faults.front().id)->can_be_on(vehicle_of(made_))) choose(*fault_named("block_lug_rusted"));
  place.cut_top(gap_8);
  Rect row = place.cut_top(28);
  text_in(row.cut_left(64), Type::small, ink::ink_soft, words_.text("desk.level"));
  made_.level = static_cast<Level>(
      choice_keys(hands_, "new/level", row, level_words, static_cast<int>(made_.level), {.type = Type::small}));
}

void NewJobScreen::draw_faults(Rect place) {
  heading(place, words_.text("desk.fault"));
  text_field(hands_, "new/search", place.cut_top(32), search_, "part, mechanism or class");
  place.cut_top(gap_4);
  PaperColumn column(hands_, "new/faults", place);
  column.below("new/search");
  const std::string wanted = lower_case(search_);
  for (const Fault& fault : all_faults()) {
    if (!fault.can_be_on(vehicle_of(made_))) continue;
    const std::string told = fmt::format("{} {} {}", words_.fault(fault.id), fault.id, id_of(fault.fault_class));
    if (lower_case(told).find(wanted) == std::string::npos) continue;
    const std::string id = fmt::format("new/fault/{}", fault.id);
    const Rect row = column.row_for(id, row_height);
    if (list_row(hands_, id, row, made_.faults.front().id == fault.id)) choose(fault);
    text_in(row.inset(gap_8, 0), Type::body, ink::ink, words_.fault(fault.id));
  }
}

void NewJobScreen::draw_severity(Rect place) {
  HiddenFault& hidden = made_.faults.front();
  const Fault& fault = *fault_named(hidden.id);
  heading(place, words_.text("desk.severity"));
  Rect row = place.cut_top(30);
  if (fault.has_degrees()) {
    constexpr double step = 0.05;
    if (push_key(hands_, "new/milder", row.cut_left(96), words_.text("desk.milder"), {.type = Type::small})) {
      hidden.severity = rounded(fault.severity_at(std::max(0.0, fault.share_of(hidden.severity) - step)));
    }
    if (push_key(hands_, "new/worse", row.cut_right(96), words_.text("desk.worse"), {.type = Type::small})) {
      hidden.severity = rounded(fault.severity_at(std::min(1.0, fault.share_of(hidden.severity) + step)));
    }
    hidden.severity = std::clamp(hidden.severity, fault.lowest, fault.highest);
    const Rect scale = row.inset(gap_16, 4);
    rule_across(scale.x, scale.right(), scale.centre().y, ink::ink, 2);
    const float at = scale.x + scale.w * static_cast<float>(fault.share_of(hidden.severity));
    sheet().AddRectFilled({at - 4, scale.y}, {at + 4, scale.bottom()}, ink::copper);
    sheet().AddRect({at - 4, scale.y}, {at + 4, scale.bottom()}, ink::ink);
    text_in(place.cut_top(22), Type::small, ink::ink,
            fmt::format("{:.3g} {}; {:.3g} to {:.3g}", hidden.severity, fault.unit, fault.lowest, fault.highest),
            Align::centre);
  } else {
    text_in(row, Type::small, ink::ink_soft, words_.text("desk.no_degrees"));
    place.cut_top(22);
  }
  place.cut_top(gap_4);
  Rect when = place.cut_top(28);
  text_in(when.cut_left(64), Type::small, ink::ink_soft, words_.text("desk.when"));
  hidden.when = static_cast<When>(
      choice_keys(hands_, "new/when", when, when_words, static_cast<int>(hidden.when), {.type = Type::small}));
}

void NewJobScreen::draw_kit(Rect place) {
  heading(place, words_.text("desk.kit"));
  constexpr int columns = 2;
  int at = 0;
  Rect row;
  for (const Kit kit : all_kit()) {
    if (at % columns == 0) row = place.cut_top(26);
    const auto found = std::find(made_.kit.begin(), made_.kit.end(), kit);
    const Rect cell = cell_of(row, at++ % columns, columns, gap_8);
    if (!tick_key(hands_, fmt::format("new/kit/{}", id_of(kit)), cell, words_.kit(kit), found != made_.kit.end()))
      continue;
    if (found == made_.kit.end()) {
      made_.kit.push_back(kit);
    } else if (made_.kit.size() > 1) {
      made_.kit.erase(found);
    }
  }
}

void NewJobScreen::draw_texts(Rect place) {
  heading(place, words_.text("desk.work_order"));
  const auto field = [&](const char* id, std::string_view label, std::string& text) {
    text_in(place.cut_top(20), Type::small, ink::ink_soft, label);
    text_field(hands_, id, place.cut_top(32), text, "");
    place.cut_top(gap_4);
  };
  field("new/title", words_.text("desk.field_title"), made_.title);
  field("new/setting", words_.text("desk.field_setting"), made_.setting);
  field("new/name", words_.text("desk.field_vehicle"), made_.vehicle_name);
  field("new/complaint", words_.text("desk.field_complaint"), made_.complaint);
}

void NewJobScreen::save() {
  const std::filesystem::path folder = own_jobs_folder();
  std::error_code failed;
  std::filesystem::create_directories(folder, failed);
  const std::filesystem::path file = free_file_for(made_.title, folder);
  problem_ = problem_writing(file, scenario_text(made_));
  if (!problem_.empty()) {
    problem_ = fmt::format("{}: {}", file.string(), problem_);
    return;
  }
  const auto list = [&words = words_, before = before_] { return std::make_unique<DeskList>(words, before); };
  next.emplace(std::make_unique<DeskScreen>(file, words_, list));
}

void NewJobScreen::frame(double /*frame_s*/, ImVec2 window_size) {
  begin_sheet(window_size);
  hands_.begin_frame();
  const Rect place = layout_of(window_size.x, window_size.y).sheet;
  ruled_zone(place);
  Rect inside = place.inset(gap_24, gap_8);
  Rect head = inside.cut_top(40);
  const bool escaped = !hands_.typing() && ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  const bool back = push_key(hands_, "new/back", head.cut_right(120).inset(0, 2), "Back  (Esc)") || escaped;
  head.cut_right(gap_8);
  const bool save_pressed =
      push_key(hands_, "new/save", head.cut_right(240).inset(0, 2), words_.text("desk.save"), {.strong = true});
  text_in(head.cut_left(300), Type::heading, ink::ink, words_.text("desk.new"));
  text_in(head, Type::small_bold, ink::danger, problem_);
  rule_across(inside.x, inside.right(), inside.y);
  inside.cut_top(gap_8);
  Rect left = inside.cut_left((inside.w - gap_24) * 0.42F);
  inside.cut_left(gap_24);
  Rect severity = left.cut_bottom(130);
  left.cut_bottom(gap_8);
  draw_faults(left);
  draw_severity(severity);
  draw_vehicle(inside.cut_top(112));
  inside.cut_top(gap_8);
  draw_texts(inside.cut_top(260));
  inside.cut_top(gap_8);
  draw_kit(inside);
  hands_.end_frame();
  end_sheet();
  if (save_pressed) save();
  if (back && !next) next.emplace(std::make_unique<DeskList>(words_, before_));
}

}  // namespace voltfall
