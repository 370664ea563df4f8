#include <gtest/gtest.h>

#include "desktop/step_clock.h"
#include "support/headless_window.h"

namespace voltfall {
namespace {

// The sheet's own rule: text at least 5:1 on every ground it stands on, edges and marks at least 3:1.
TEST(Ink, TextHasFiveToOneOnEveryGround) {
  for (const ImU32 ground : {ink::paper, ink::paper_shade}) {
    EXPECT_GE(ink::contrast(ink::ink, ground), 5.0);
    EXPECT_GE(ink::contrast(ink::ink_soft, ground), 5.0);
    EXPECT_GE(ink::contrast(ink::danger, ground), 5.0);
  }
  for (const ImU32 words : {ink::on_dark, ink::on_dark_soft, ink::amber}) {
    EXPECT_GE(ink::contrast(words, ink::instrument), 5.0);
  }
  EXPECT_GE(ink::contrast(ink::display_ink, ink::display), 5.0);
  EXPECT_GE(ink::contrast(ink::on_dark, ink::red_lead), 5.0);
}

TEST(Ink, EdgesAndMarksHaveThreeToOne) {
  EXPECT_GE(ink::contrast(ink::edge, ink::paper), 3.0);
  EXPECT_GE(ink::contrast(ink::edge, ink::paper_shade), 3.0);
  EXPECT_GE(ink::contrast(ink::focus, ink::paper), 3.0);
  EXPECT_GE(ink::contrast(ink::copper_light, ink::ink), 3.0);
  EXPECT_GE(ink::contrast(ink::instrument_edge, ink::instrument), 3.0);
}

// By hand: black on white is (1 + 0.05) / (0 + 0.05) = 21.
TEST(Ink, ContrastOfBlackOnWhiteIsTwentyOne) {
  EXPECT_NEAR(ink::contrast(IM_COL32(0, 0, 0, 255), IM_COL32(255, 255, 255, 255)), 21.0, 1e-6);
}

TEST(Type, EveryRoleIsThereWithTheTradesSigns) {
  const HeadlessWindow window;
  ASSERT_EQ(window.missing_font(), "");
  for (const ImWchar sign : {0x03A9, 0x00B5, 0x2013, 0x00B0, 0x00B7, 0x201C, 0x201D, 0x2026, 0x2190}) {
    EXPECT_NE(font(Type::body)->FindGlyphNoFallback(sign), nullptr) << std::hex << sign;
  }
  EXPECT_NE(font(Type::figures)->FindGlyphNoFallback(0x2013), nullptr);
}

TEST(Text, IsNeverCutWithoutAnEllipsisNorInsideALetter) {
  const HeadlessWindow window;
  ASSERT_EQ(window.missing_font(), "");
  EXPECT_EQ(shortened(Type::body, "relay", 400), "relay");
  const std::string cut = shortened(Type::body, "\u03A9\u03A9\u03A9\u03A9\u03A9\u03A9\u03A9\u03A9", 60);
  EXPECT_LE(text_width(Type::body, cut), 60.0F);
  ASSERT_GE(cut.size(), 3U);
  EXPECT_EQ(cut.substr(cut.size() - 3), "\u2026");
  EXPECT_EQ(cut.size() % 2, 1U) << "whole two-byte letters and a three-byte ellipsis";
}

TEST(StepClock, GivesWholeStepsAndKeepsTheRest) {
  StepClock clock(0.01);
  EXPECT_EQ(clock.steps_due(0.025), 2);
  EXPECT_EQ(clock.steps_due(0.006), 1);  // 5 ms were left over
}

TEST(StepClock, RunsLateAfterAStallInsteadOfRacing) {
  StepClock clock(0.01);
  EXPECT_LE(clock.steps_due(30.0), 10);
}

}  // namespace
}  // namespace voltfall
