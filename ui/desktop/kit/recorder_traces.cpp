#include "desktop/kit/recorder_traces.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "desktop/style/draw.h"

namespace voltfall {
namespace {

constexpr double narrowest_share = 0.02;

struct Scale {
  double low = 0.0, high = 1.0;
  float y_at(double value, const Rect& lane) const {
    return lane.bottom() - lane.h * static_cast<float>((value - low) / (high - low));
  }
};

std::size_t sample_at(const std::vector<double>& samples, double share) {
  const double at = std::clamp(share, 0.0, 1.0) * static_cast<double>(samples.size() - 1);
  return static_cast<std::size_t>(std::lround(at));
}

/// The whole capture's range, so that zooming in never changes how high a volt stands.
Scale scale_of(const std::vector<double>& samples) {
  const auto [low, high] = std::minmax_element(samples.begin(), samples.end());
  const double spread = std::max(*high - *low, 0.05 * std::max(1.0, std::abs(*high)));
  return {*low - 0.08 * spread, *low + 1.08 * spread};
}

double shown_share(const RecorderView& view, float along) {
  return view.from_share + static_cast<double>(along) * (view.to_share - view.from_share);
}

float x_of(const RecorderView& view, double share, const Rect& lane) {
  return lane.x + lane.w * static_cast<float>((share - view.from_share) / (view.to_share - view.from_share));
}

/// One upright stroke a pixel, from the least to the most of what lies in it: nothing that was recorded is skipped.
void draw_trace(const std::vector<double>& samples, const RecorderView& view, const Scale& scale, const Rect& lane,
                ImU32 colour, float width) {
  const int columns = static_cast<int>(lane.w);
  ImVec2 last{};
  for (int x = 0; x < columns; ++x) {
    const std::size_t from = sample_at(samples, shown_share(view, static_cast<float>(x) / lane.w));
    const std::size_t to =
        std::max(from + 1, sample_at(samples, shown_share(view, static_cast<float>(x + 1) / lane.w)));
    const auto begin = samples.begin() + static_cast<std::ptrdiff_t>(from);
    const auto end = samples.begin() + static_cast<std::ptrdiff_t>(std::min(to, samples.size()));
    const auto [low, high] = std::minmax_element(begin, end);
    const float column = lane.x + static_cast<float>(x);
    const ImVec2 top{column, scale.y_at(*high, lane)}, bottom{column, scale.y_at(*low, lane)};
    if (x > 0) sheet().AddLine(last, top, colour, width);
    sheet().AddLine(top, {bottom.x, bottom.y + 0.5F}, colour, width);
    last = bottom;
  }
}

/// Most and least of a channel at its own side, on paper of their own so that the traces pass behind.
void draw_scale_words(const Scale& scale, int channel, std::string_view unit, const Rect& lane) {
  const auto figure = [&](double value) { return fmt::format("{:.{}f} {}", value, unit == "A" ? 0 : 1, unit); };
  const auto write = [&](std::string_view words, float y) {
    const float width = text_width(Type::small, words) + 2 * gap_4;
    const Rect box{channel == 0 ? lane.x + 1 : lane.right() - width - 1, y, width, 16};
    sheet().AddRectFilled(box.min(), box.max(), ink::paper);
    text_in(box, Type::small, ink::ink, words, Align::centre);
  };
  write(fmt::format("{}: {}", channel + 1, figure(scale.high)), lane.y + 1);
  write(figure(scale.low), lane.bottom() - 17);
}

void draw_cursor(const RecorderView& view, std::size_t cursor, const Rect& lane) {
  const float x = x_of(view, view.cursors.at(cursor), lane);
  if (x < lane.x || x >= lane.right()) return;
  const bool chosen = view.cursor == static_cast<int>(cursor);
  sheet().AddRectFilled({x - 1, lane.y}, {x + (chosen ? 1.0F : 0.0F), lane.bottom()}, ink::focus);
  const Rect tag{x - 8, lane.y, 16, 16};
  sheet().AddRectFilled(tag.min(), tag.max(), chosen ? ink::focus : ink::paper);
  sheet().AddRect(tag.min(), tag.max(), ink::focus);
  text_in(tag, Type::small_bold, chosen ? ink::on_dark : ink::focus, cursor == 0 ? "A" : "B", Align::centre);
}

void drag_cursors(RecorderView& view, const Hands& hands, const Rect& lane) {
  const ImGuiIO& io = ImGui::GetIO();
  if (hands.over(lane) && io.MouseClicked[0]) {
    const auto away = [&](std::size_t cursor) {
      return std::abs(x_of(view, view.cursors.at(cursor), lane) - io.MousePos.x);
    };
    view.cursor = away(0) <= away(1) ? 0 : 1;
    view.dragging = true;
  }
  if (!io.MouseDown[0]) view.dragging = false;
  if (!view.dragging) return;
  const float along = std::clamp((io.MousePos.x - lane.x) / lane.w, 0.0F, 1.0F);
  view.cursors.at(static_cast<std::size_t>(view.cursor)) = shown_share(view, along);
}

}  // namespace

std::optional<double> value_at(const Capture& capture, int channel, double share) {
  const auto& samples = capture.samples.at(static_cast<std::size_t>(channel));
  if (samples.empty()) return std::nullopt;
  return samples[sample_at(samples, share)];
}

double time_at(const Capture& capture, double share) {
  const std::size_t count = std::max(capture.samples[0].size(), capture.samples[1].size());
  const double sample = std::clamp(share, 0.0, 1.0) * static_cast<double>(count > 0 ? count - 1 : 0);
  return (std::round(sample) - static_cast<double>(capture.trigger_sample)) * capture.sample_s;
}

void zoom(RecorderView& view, bool in) {
  const double width = std::clamp((view.to_share - view.from_share) * (in ? 0.5 : 2.0), narrowest_share, 1.0);
  const double middle = view.cursors.at(static_cast<std::size_t>(view.cursor));
  view.from_share = std::clamp(middle - width / 2, 0.0, 1.0 - width);
  view.to_share = view.from_share + width;
}

void draw_recorder_traces(const Capture& capture, RecorderView& view, const Hands& hands, const Rect& place) {
  drag_cursors(view, hands, place);
  sheet().AddRectFilled(place.min(), place.max(), ink::paper);
  sheet().PushClipRect(place.min(), place.max(), true);
  const std::size_t count = std::max(capture.samples[0].size(), capture.samples[1].size());
  const double trigger =
      static_cast<double>(capture.trigger_sample) / static_cast<double>(std::max<std::size_t>(count, 2) - 1);
  rule_down(x_of(view, trigger, place), place.y, place.bottom(), ink::hairline);
  for (std::size_t channel = 2; channel-- > 0;) {
    const auto& samples = capture.samples.at(channel);
    if (samples.size() < 2) continue;
    const Scale scale = scale_of(samples);
    draw_trace(samples, view, scale, place, channel == 0 ? ink::ink : ink::copper, channel == 0 ? 2.0F : 1.5F);
  }
  for (std::size_t channel = 0; channel < 2; ++channel) {
    const auto& samples = capture.samples.at(channel);
    if (samples.size() < 2) continue;
    draw_scale_words(scale_of(samples), static_cast<int>(channel), capture.inputs.at(channel).round ? "A" : "V", place);
  }
  for (std::size_t cursor = 0; cursor < view.cursors.size(); ++cursor) draw_cursor(view, cursor, place);
  sheet().PopClipRect();
  sheet().AddRect(place.min(), place.max(), ink::ink);
}

}  // namespace voltfall
