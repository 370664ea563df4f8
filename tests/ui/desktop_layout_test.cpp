#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <set>

#include "desktop/bay/notes.h"
#include "desktop/bay/place.h"
#include "desktop/layout.h"
#include "desktop/style/ink.h"
#include "faults/catalogue.h"

namespace voltfall {
namespace {

constexpr std::array<std::array<float, 2>, 3> windows{{{1280, 720}, {1600, 1000}, {1920, 1080}}};

std::array<Rect, 5> zones_of(const Layout& layout) {
  return {layout.bar, layout.picture, layout.fall_line, layout.rail, layout.title_block};
}

TEST(Layout, ZonesCoverTheSheetWithoutOverlap) {
  for (const auto& size : windows) {
    const Layout layout = layout_of(size[0], size[1]);
    const auto zones = zones_of(layout);
    float area = 0;
    for (std::size_t i = 0; i < zones.size(); ++i) {
      area += zones[i].w * zones[i].h;
      for (std::size_t j = i + 1; j < zones.size(); ++j) EXPECT_FALSE(zones[i].overlaps(zones[j])) << i << " " << j;
    }
    EXPECT_FLOAT_EQ(area, size[0] * size[1]);
  }
}

// By hand: a 24 px title bar on a 720 px screen leaves 696; 696 / 720 of the sheet's size shows all of it.
TEST(Layout, SmallerWindowsShowTheWholeSheetSmaller) {
  EXPECT_EQ(shrunk_to(1280, 720), 1.0F);
  EXPECT_EQ(shrunk_to(1600, 1000), 1.0F);
  EXPECT_FLOAT_EQ(shrunk_to(1280, 696), 696.0F / 720.0F);
  EXPECT_FLOAT_EQ(shrunk_to(1024, 768), 1024.0F / 1280.0F);
  EXPECT_EQ(shrunk_to(1278, 776), 1.0F) << "a border of two pixels";
}

// The sizes the design asks for at 1280 x 720.
TEST(Layout, HasTheSizesOfTheDesign) {
  const Layout layout = layout_of(1280, 720);
  EXPECT_EQ(layout.bar.h, 48);
  EXPECT_EQ(layout.rail.w, 336);
  EXPECT_EQ(layout.fall_line.h, 144);
  EXPECT_GE(layout.picture.w, 920);
  EXPECT_GE(layout.picture.h, 500);
}

float away(ImVec2 a, ImVec2 b) {
  return std::hypot(a.x - b.x, a.y - b.y);
}

TEST(Place, DiscsStandAtLeastThirtySixPixelsApart) {
  const Projection projection(layout_of(1280, 720).picture.inset(1));
  for (const TestPoint one : all_test_points()) {
    for (const TestPoint other : all_test_points()) {
      if (one >= other) continue;
      EXPECT_GE(away(projection.to_screen(place_of(one).disc), projection.to_screen(place_of(other).disc)),
                least_apart_px)
          << number_of(one) << " and " << number_of(other);
    }
  }
}

TEST(Place, EveryTargetLiesInThePictureAndOffTheNotes) {
  for (const auto& size : windows) {
    const Rect picture = layout_of(size[0], size[1]).picture;
    const Projection projection(picture.inset(1));
    const Rect notes{picture.x, picture.bottom() - notes_height - 4, notes_width + gap_16, notes_height};
    for (const TestPoint point : all_test_points()) {
      const ImVec2 disc = projection.to_screen(place_of(point).disc);
      EXPECT_TRUE(picture.inset(disc_radius_px).holds(disc)) << number_of(point);
      EXPECT_FALSE(notes.inset(-disc_radius_px).holds(disc)) << number_of(point);
    }
  }
}

TEST(Place, WhatTheCatalogueKnowsCanBePointedAtAndNothingElse) {
  const auto known = all_components();
  std::set<std::string_view> found;
  for (const StartSwitch fitted : {StartSwitch::neutral, StartSwitch::clutch, StartSwitch::clutch_in_coil_ground}) {
    for (const TestPoint point : all_test_points()) {
      if (const auto component = component_of(point, fitted)) found.insert(*component);
    }
    for (float y = 0; y < drawing_height; y += 4) {
      for (float x = 0; x < drawing_width; x += 4) {
        if (const auto component = component_at({x, y}, fitted)) found.insert(*component);
      }
    }
  }
  EXPECT_EQ(found, std::set<std::string_view>(known.begin(), known.end()));
}

TEST(Place, ACableIsFoundWhereItsJawSits) {
  EXPECT_EQ(component_at(jaw_place(HeavyCable::positive), StartSwitch::neutral), "positive_cable");
  EXPECT_EQ(component_at(jaw_place(HeavyCable::starter), StartSwitch::neutral), "starter_cable");
  EXPECT_EQ(component_at(jaw_place(HeavyCable::negative), StartSwitch::neutral), "negative_cable");
  EXPECT_EQ(component_at(jaw_place(HeavyCable::body_strap), StartSwitch::neutral), "body_strap");
}

TEST(Place, CloseUpsHoldThePairsWhoseJointMatters) {
  for (const CrowdedPlace& place : crowded_places()) {
    EXPECT_LE(away(place_of(place.stud).metal, place.middle), place.radius);
    EXPECT_LE(away(place_of(place.lug).metal, place.middle), place.radius);
  }
}

}  // namespace
}  // namespace voltfall
