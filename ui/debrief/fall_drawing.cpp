#include "debrief/fall_drawing.h"

#include <fmt/format.h>

#include <cmath>

#include "desktop/fall_line/fall_line_model.h"

namespace voltfall {
namespace {

constexpr float left = 44, right = 620, top = 14, foot = 160;
constexpr double top_V = 13.0;

class Stairs {
 public:
  explicit Stairs(const SettledFall& fall) : points_(points_of(FallPath::power)) {
    for (std::size_t i = 0; i < points_.size(); ++i) {
      const Spot here{x_at(i), y_at(fall.at(points_[i]))};
      if (i > 0) {
        const float middle = (spots_.back().x + here.x) / 2;
        spots_.push_back({middle, spots_.back().y});
        spots_.push_back({middle, here.y});
      }
      spots_.push_back(here);
    }
  }

  const std::vector<Spot>& spots() const { return spots_; }

  float x_at(std::size_t point) const {
    return left + (right - left) * static_cast<float>(point) / static_cast<float>(points_.size() - 1);
  }
  static float y_at(double volts) { return foot - (foot - top) * static_cast<float>(volts / top_V); }

 private:
  std::vector<TestPoint> points_;
  std::vector<Spot> spots_;
};

void draw_dotted(Pen& pen, const std::vector<Spot>& spots) {
  constexpr float apart = 6;
  for (std::size_t i = 1; i < spots.size(); ++i) {
    const float dx = spots[i].x - spots[i - 1].x, dy = spots[i].y - spots[i - 1].y;
    const float length = std::hypot(dx, dy);
    for (float at = 0; at < length; at += apart) {
      pen.disc({spots[i - 1].x + dx * at / length, spots[i - 1].y + dy * at / length}, 1.4F, Tone::ink, 0);
    }
  }
}

void draw_axis(Pen& pen, const Stairs& stairs) {
  const auto points = points_of(FallPath::power);
  for (const double volts : {0.0, 4.0, 8.0, 12.0}) {
    const float y = Stairs::y_at(volts);
    pen.line({left, y}, {right, y}, 0.4F, Tone::soft);
    pen.words({left - 20, y}, fmt::format("{:.0f} V", volts), Tone::soft, false);
  }
  for (std::size_t i = 0; i < points.size(); ++i) {
    pen.words({stairs.x_at(i), foot + 16}, std::to_string(number_of(points[i])), Tone::ink, true);
  }
}

}  // namespace

void draw_falls(Pen& pen, const FallComparison& falls) {
  const Stairs healthy(falls.healthy), found(falls.found), handed_back(falls.handed_back);
  draw_axis(pen, healthy);
  pen.path(handed_back.spots(), 5.0F, Tone::copper);
  pen.path(found.spots(), 2.5F, Tone::ink);
  draw_dotted(pen, healthy.spots());
}

}  // namespace voltfall
