#include "desktop/bench/tape_panel.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "console/files.h"
#include "console/user_folders.h"
#include "desktop/rail/paper_column.h"
#include "desktop/style/draw.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

constexpr std::size_t most_lanes = 6;
constexpr double shortest_s = 0.005, longest_s = 20.0;

/// Volts of a test point stand against battery -, as the tape keeps them.
std::string signal_name(const BenchScene& scene, std::size_t signal) {
  if (signal < first_cable_signal) {
    return std::string(scene.words.point_short(*test_point_numbered(static_cast<int>(signal) + 1)));
  }
  if (signal < first_plain_signal) {
    return std::string(scene.words.cable(static_cast<HeavyCable>(signal - first_cable_signal)));
  }
  return std::string(scene.words.text(fmt::format("open_bench.signal.{}", tape_signals()[signal].name)));
}

std::string unit_of(std::size_t signal) {
  const std::string_view unit = tape_signals()[signal].unit;
  if (unit == "m") return "mm";
  return unit == "yes" ? "" : std::string(unit);
}

double shown_factor(std::size_t signal) {
  return tape_signals()[signal].unit == "m" ? 1000.0 : 1.0;
}

/// Lowest and highest of a signal for each pixel column of a stretch of the bench's time.
std::vector<TapeRange> columns_of(const Tape& tape, std::size_t signal, double from_s, double to_s, int count,
                                  TapeView& seen) {
  std::vector<TapeRange> ranges(static_cast<std::size_t>(std::max(1, count)));
  seen = tape.look(signal, from_s, to_s, ranges);
  ranges.resize(seen.parts);
  return ranges;
}

std::optional<double> value_of(const Tape& tape, std::size_t signal, double at_s) {
  TapeRange range{};
  const double half_s = 0.5 * Rig::step_s;
  if (tape.look(signal, at_s - half_s, at_s + half_s, std::span(&range, 1)).parts == 0) return std::nullopt;
  return 0.5 * (static_cast<double>(range.lowest) + static_cast<double>(range.highest)) * shown_factor(signal);
}

struct LaneScale {
  double low = std::numeric_limits<double>::max(), high = std::numeric_limits<double>::lowest();
  void hold(const std::vector<TapeRange>& ranges) {
    for (const TapeRange& range : ranges) {
      low = std::min(low, static_cast<double>(range.lowest));
      high = std::max(high, static_cast<double>(range.highest));
    }
  }
  void make_room() {
    if (low > high) low = 0.0, high = 1.0;
    const double spread = std::max(high - low, 1.0e-3 + 0.02 * std::abs(high));
    low -= 0.08 * spread;
    high += 0.08 * spread;
  }
  float y_at(float value, const Rect& lane) const {
    return lane.bottom() - lane.h * static_cast<float>((static_cast<double>(value) - low) / (high - low));
  }
};

/// An upright bar for each pixel column, from the least to the most of what lies in it and on from its neighbour: two
/// triangles each, where a smoothed line would take six and more. Where nothing changes one bar does for many columns.
void draw_columns(const std::vector<TapeRange>& ranges, float from_x, float to_x, const LaneScale& scale,
                  const Rect& lane, ImU32 colour, float width) {
  if (ranges.empty()) return;
  constexpr float unseen = 0.2F;  // of a pixel
  const float each = (to_x - from_x) / static_cast<float>(ranges.size());
  float last_top = scale.y_at(ranges.front().highest, lane), last_bottom = scale.y_at(ranges.front().lowest, lane);
  ImVec2 corner{from_x, last_top}, opposite{from_x, last_bottom};
  const auto draw_bar = [&] {
    sheet().AddRectFilled({corner.x, corner.y - width / 2}, {opposite.x, opposite.y + width / 2}, colour);
  };
  for (std::size_t i = 0; i < ranges.size(); ++i) {
    const float x = from_x + each * static_cast<float>(i);
    const float top = scale.y_at(ranges[i].highest, lane), bottom = scale.y_at(ranges[i].lowest, lane);
    const float from = std::min(top, last_bottom), to = std::max(bottom, last_top);
    if (std::abs(from - corner.y) > unseen || std::abs(to - opposite.y) > unseen) {
      draw_bar();
      corner = {x, from};
      opposite.y = to;
    }
    opposite.x = x + std::max(each, 1.0F);
    last_top = top;
    last_bottom = bottom;
  }
  draw_bar();
}

std::string figure(double value, std::size_t signal) {
  const double size = std::abs(value);
  return fmt::format("{:.{}f} {}", value, size >= 100.0 ? 0 : size >= 10.0 ? 1 : 2, unit_of(signal));
}

}  // namespace

float TapePanel::x_at(double after_s, const Rect& lanes) const {
  return lanes.x + lanes.w * static_cast<float>((after_s - view_.from_s) / (view_.to_s - view_.from_s));
}

double TapePanel::time_at(float x, const Rect& lanes) const {
  return view_.from_s + (view_.to_s - view_.from_s) * static_cast<double>((x - lanes.x) / lanes.w);
}

const BenchRun* TapePanel::other_run(const BenchScene& scene, const BenchRun& run) const {
  const BenchRun* before = nullptr;
  for (const BenchRun& other : scene.bench.runs()) {
    if (other.from_s < run.from_s) before = &other;
  }
  return before;
}

void TapePanel::draw_head(const BenchScene& scene, const BenchRun* run, Rect row) {
  text_in(row.cut_left(52), Type::body_bold, ink::ink, scene.words.text("open_bench.volts.tape"));
  const KeyLook small{.enabled = run != nullptr, .type = Type::small};
  if (push_key(scene.sheet.hands, "tape/png", row.cut_right(96), scene.words.text("open_bench.volts.png"), small)) {
    picture_wanted = PictureWanted{lanes_with_words_, own_file("tape", ".png")};
  }
  row.cut_right(gap_4);
  if (push_key(scene.sheet.hands, "tape/csv", row.cut_right(84), scene.words.text("open_bench.volts.csv"), small)) {
    save_csv(scene, *run);
  }
  row.cut_right(gap_4);
  if (push_key(scene.sheet.hands, "tape/whole", row.cut_right(104), scene.words.text("open_bench.volts.whole"),
               small)) {
    view_ = {-0.02, std::max(0.4, run->to_s.value_or(scene.bench.newest_s()) - run->from_s)};
  }
  row.cut_right(gap_4);
  const KeyLook over{
      .selected = over_, .enabled = run != nullptr && other_run(scene, *run) != nullptr, .type = Type::small};
  if (push_key(scene.sheet.hands, "tape/over", row.cut_right(150), scene.words.text("open_bench.volts.compare"),
               over)) {
    over_ = !over_;
  }
  row.cut_right(gap_8);
  const std::string cursors = filled(scene.words, "open_bench.volts.cursors", fmt::arg("a", 1000.0 * cursors_s_[0]),
                                     fmt::arg("b", 1000.0 * cursors_s_[1]),
                                     fmt::arg("apart", 1000.0 * std::abs(cursors_s_[1] - cursors_s_[0])));
  text_in(row, Type::small, ink::ink_soft, told_.empty() ? cursors : told_);
}

void TapePanel::draw_chooser(const BenchScene& scene, const Rect& place) {
  PaperColumn column(scene.sheet.hands, "tape/signals", place);
  for (std::size_t i = 0; i < tape_signal_count; ++i) {
    const std::size_t signal = (i + first_plain_signal) % tape_signal_count;  // plain ones first
    const std::string id = fmt::format("tape/signal/{}", tape_signals()[signal].name);
    const auto found = std::find(chosen_.begin(), chosen_.end(), signal);
    const Rect row = column.row_for(id, 24);
    const bool room = found != chosen_.end() || chosen_.size() < most_lanes;
    if (!tick_key(scene.sheet.hands, id, row, signal_name(scene, signal), found != chosen_.end(), room)) continue;
    if (found != chosen_.end()) {
      chosen_.erase(found);
    } else {
      chosen_.push_back(signal);
    }
  }
}

void TapePanel::draw_lane(const BenchScene& scene, const BenchRun& run, std::size_t signal, const Rect& place) {
  Rect words = place;
  const Rect lane = {lanes_.x, place.y, lanes_.w, place.h};
  words = words.cut_left(lanes_.x - place.x - gap_8);
  const Tape& tape = scene.bench.tape();
  TapeView seen, other_seen;
  const int columns = static_cast<int>(lane.w);
  const auto now = columns_of(tape, signal, run.from_s + view_.from_s, run.from_s + view_.to_s, columns, seen);
  std::vector<TapeRange> before;
  const BenchRun* other = over_ ? other_run(scene, run) : nullptr;
  if (other != nullptr) {
    const double end_s = std::min(other->from_s + view_.to_s, other->to_s.value_or(run.from_s));
    before = columns_of(tape, signal, other->from_s + view_.from_s, end_s, columns, other_seen);
  }
  LaneScale scale;
  scale.hold(now);
  scale.hold(before);
  scale.make_room();
  sheet().PushClipRect(lane.min(), lane.max(), true);
  if (other != nullptr) {
    draw_columns(before, x_at(other_seen.from_s - other->from_s, lane), x_at(other_seen.to_s - other->from_s, lane),
                 scale, lane, ink::copper, 2.5F);
  }
  draw_columns(now, x_at(seen.from_s - run.from_s, lane), x_at(seen.to_s - run.from_s, lane), scale, lane, ink::ink,
               1.5F);
  sheet().PopClipRect();
  rule_across(lane.x, lane.right(), lane.bottom(), ink::hairline);
  text_in({words.x, words.y, words.w, 16}, Type::small, ink::ink, signal_name(scene, signal), Align::right);
  const auto at_a = value_of(tape, signal, run.from_s + cursors_s_[0]),
             at_b = value_of(tape, signal, run.from_s + cursors_s_[1]);
  if (!at_a || !at_b || words.h < 40) return;
  text_in({words.x, words.y + 13, words.w, 15}, Type::figures_small, ink::ink_soft,
          fmt::format("A {}", figure(*at_a, signal)), Align::right);
  // With another run laid over, it is the difference between the two that is wanted.
  const auto then = other != nullptr ? value_of(tape, signal, other->from_s + cursors_s_[0]) : std::nullopt;
  const std::string difference = then ? fmt::format("run\u2212run {}", figure(*at_a - *then, signal))
                                      : fmt::format("B\u2212A {}", figure(*at_b - *at_a, signal));
  text_in({words.x, words.y + 26, words.w, 15}, Type::figures_small, then ? ink::ink : ink::ink_soft, difference,
          Align::right);
}

void TapePanel::draw_cursors(const BenchScene& scene, const Rect& lanes) {
  for (std::size_t i = 0; i < cursors_s_.size(); ++i) {
    const float x = x_at(cursors_s_.at(i), lanes);
    if (x < lanes.x || x > lanes.right()) continue;
    const bool chosen = cursor_ == static_cast<int>(i);
    sheet().AddRectFilled({x - 1, lanes.y}, {x + (chosen ? 1.0F : 0.0F), lanes.bottom()}, ink::focus);
    const Rect tag{x - 8, lanes.y, 16, 16};
    sheet().AddRectFilled(tag.min(), tag.max(), chosen ? ink::focus : ink::paper);
    sheet().AddRect(tag.min(), tag.max(), ink::focus);
    text_in(tag, Type::small_bold, chosen ? ink::on_dark : ink::focus, i == 0 ? "A" : "B", Align::centre);
  }
  const BenchRun* run = scene.bench.run_shown();
  const float x = x_at(scene.bench.shown_s() - run->from_s, lanes);
  if (x < lanes.x || x > lanes.right()) return;
  for (float y = lanes.y; y < lanes.bottom(); y += 8) rule_down(x, y, std::min(y + 4, lanes.bottom()), ink::ink);
}

void TapePanel::turn_by_mouse(const BenchScene& scene, const Rect& lanes) {
  const ImGuiIO& io = ImGui::GetIO();
  const bool over = scene.sheet.hands.over(lanes);
  if (over && io.MouseWheel != 0.0F) {
    const double at = time_at(io.MousePos.x, lanes);
    const double width = std::clamp((view_.to_s - view_.from_s) * std::pow(0.8, static_cast<double>(io.MouseWheel)),
                                    shortest_s, longest_s);
    const double share = (at - view_.from_s) / (view_.to_s - view_.from_s);
    view_.from_s = std::max(-1.0, at - share * width);
    view_.to_s = view_.from_s + width;
  }
  if (over && io.MouseClicked[0]) {
    const auto away = [&](double cursor_s) { return std::abs(x_at(cursor_s, lanes) - io.MousePos.x); };
    cursor_ = away(cursors_s_[0]) <= away(cursors_s_[1]) ? 0 : 1;
    dragging_ = true;
  }
  if (!io.MouseDown[0]) dragging_ = false;
  if (dragging_) {
    const double at = time_at(std::clamp(io.MousePos.x, lanes.x, lanes.right()), lanes);
    cursors_s_.at(static_cast<std::size_t>(cursor_)) = std::round(at / Rig::step_s) * Rig::step_s;
    told_.clear();
  }
}

void TapePanel::draw_lanes(const BenchScene& scene, const BenchRun& run, Rect place) {
  lanes_with_words_ = place.inset(-4);
  const Rect axis = place.cut_bottom(20);
  lanes_ = {place.x + 132, place.y, place.w - 132, place.h};
  turn_by_mouse(scene, lanes_);
  const float height = place.h / static_cast<float>(std::max<std::size_t>(1, chosen_.size()));
  for (std::size_t i = 0; i < chosen_.size(); ++i) {
    draw_lane(scene, run, chosen_[i], {place.x, place.y + height * static_cast<float>(i) + 2, place.w, height - 4});
  }
  sheet().AddRect(lanes_.min(), lanes_.max(), ink::edge);
  draw_cursors(scene, lanes_);
  constexpr int ticks = 6;
  for (int i = 0; i <= ticks; ++i) {
    const double after_s = view_.from_s + (view_.to_s - view_.from_s) * i / ticks;
    const float x = std::clamp(x_at(after_s, lanes_) - 36, lanes_.x - 36, lanes_.right() - 66);
    text_in({x, axis.y + 2, 72, 16}, Type::figures_small, ink::ink_soft, fmt::format("{:.0f} ms", 1000.0 * after_s),
            Align::centre);
  }
}

void TapePanel::save_csv(const BenchScene& scene, const BenchRun& run) {
  std::string text = "after_key_s";
  for (const std::size_t signal : chosen_) {
    text += fmt::format(",{}_{}", tape_signals()[signal].name, tape_signals()[signal].unit);
  }
  text += '\n';
  const double to_s = std::min(view_.to_s, run.to_s.value_or(scene.bench.newest_s()) - run.from_s);
  for (double after_s = std::max(0.0, view_.from_s); after_s < to_s; after_s += Rig::step_s) {
    text += fmt::format("{:.4f}", after_s);
    for (const std::size_t signal : chosen_) {
      const auto value = value_of(scene.bench.tape(), signal, run.from_s + after_s);
      text += value ? fmt::format(",{:.6g}", *value / shown_factor(signal)) : ",";
    }
    text += '\n';
  }
  const std::filesystem::path file = own_file("tape", ".csv");
  saved({{}, file}, problem_writing(file, text), scene.words);
}

void TapePanel::saved(const PictureWanted& picture, const std::string& problem, const Wording& words) {
  told_ = problem.empty() ? filled(words, "open_bench.volts.saved", fmt::arg("file", picture.file.string()))
                          : fmt::format("{}: {}", picture.file.string(), problem);
}

void TapePanel::draw(const BenchScene& scene, const Rect& where) {
  Rect place = where;
  const BenchRun* run = scene.bench.run_shown();
  draw_head(scene, run, place.cut_top(28));
  place.cut_top(gap_4);
  draw_chooser(scene, place.cut_right(176));
  place.cut_right(gap_16);
  if (run == nullptr) {
    text_in(place, Type::body, ink::ink_soft, scene.words.text("open_bench.volts.no_run"), Align::centre);
    return;
  }
  draw_lanes(scene, *run, place);
}

}  // namespace voltfall
