#include "desktop/rail/rail.h"

#include <gtest/gtest.h>

#include <filesystem>

#include "desktop/fall_line/fall_line.h"
#include "desktop/layout.h"
#include "desktop/rail/rail_text.h"
#include "faults/catalogue.h"
#include "scenario/read_scenario.h"
#include "support/headless_sheet.h"

namespace voltfall {
namespace {

Session session_of(const std::filesystem::path& file) {
  const ReadScenario read = read_scenario(file);
  EXPECT_TRUE(read.scenario) << file;
  return Session(*read.scenario);
}

Session shipped(const std::string& name) {
  return session_of(std::string(VOLTFALL_SOURCE_DIR) + "/scenarios/" + name + ".toml");
}

/// The rail of one session, with what it wished for.
struct Bench {
  Session session;
  BayState state;
  Wishes wishes;
  Layout zones = layout_of(1280, 720);
  HeadlessSheet sheet{state.hands, [this] { draw_rail(session, english(), state, wishes, zones.rail); }};
};

template <class Wanted>
const Wanted* only_wish(const Wishes& wishes) {
  return wishes.actions.size() == 1 ? std::get_if<Wanted>(&wishes.actions.front()) : nullptr;
}

void note_battery_cranking(Session& session) {
  session.act(WearEyeProtection{true});
  session.act(SetBrake{true});
  session.act(DisableIgnition{true});
  session.act(PutClamp{HeavyCable::positive});
  session.act(PutProbe{true, TestPoint::battery_positive_post});
  session.act(PutProbe{false, TestPoint::negative_post});
  session.act(TurnKey{KeyPosition::start});
  session.run_for_s(1.2);
  ASSERT_TRUE(session.act(NoteReading{}).done);
  session.act(TurnKey{KeyPosition::off});
  session.run_for_s(0.5);
}

TEST(Rail, FitsItsZoneInEveryScenarioOnEveryTab) {
  for (const auto& entry : std::filesystem::directory_iterator(std::string(VOLTFALL_SOURCE_DIR) + "/scenarios")) {
    if (entry.path().extension() != ".toml") continue;
    Bench bench{session_of(entry.path()), {}, {}};
    ASSERT_EQ(bench.sheet.missing_font(), "");
    note_battery_cranking(bench.session);
    for (const RailTab tab : {RailTab::work_order, RailTab::findings, RailTab::suspects, RailTab::kit}) {
      for (const Noting noting : {Noting::nothing, Noting::heard_or_seen, Noting::look}) {
        bench.state.tab = tab;
        bench.state.noting = noting;
        bench.sheet.frame();
        shortened_texts().clear();
        bench.sheet.frame();
        EXPECT_EQ(shortened_texts(), std::vector<std::string>{}) << entry.path();
        EXPECT_EQ(bench.sheet.corners_outside(bench.zones.rail), 0) << entry.path();
      }
    }
  }
}

TEST(Rail, TitleBlockAndFallLineFitTheirZonesInEveryScenario) {
  for (const auto& entry : std::filesystem::directory_iterator(std::string(VOLTFALL_SOURCE_DIR) + "/scenarios")) {
    if (entry.path().extension() != ".toml") continue;
    Session session = session_of(entry.path());
    note_battery_cranking(session);
    BayState state;
    const Layout zones = layout_of(1280, 720);
    bool block = true;
    HeadlessSheet sheet(state.hands, [&] {
      if (block) return draw_title_block(session, zones.title_block);
      draw_fall_line(session, state, zones.fall_line);
    });
    shortened_texts().clear();
    sheet.frame();
    EXPECT_EQ(sheet.corners_outside(zones.title_block), 0) << entry.path();
    block = false;
    for (const FallPath path : {FallPath::power, FallPath::control}) {
      state.fall_path = path;
      sheet.frame();
      EXPECT_EQ(sheet.corners_outside(zones.fall_line), 0) << entry.path();
    }
    EXPECT_EQ(shortened_texts(), std::vector<std::string>{}) << entry.path();
  }
}

TEST(Rail, MeterKeysAskForWhatIsPrintedOnThem) {
  Bench bench{shipped("healthy_walk"), {}, {}};
  ASSERT_TRUE(bench.sheet.click_on("meter/function/ohms", bench.zones.rail));
  const auto* function = only_wish<SetMeterFunction>(bench.wishes);
  ASSERT_NE(function, nullptr);
  EXPECT_EQ(function->to, MeterFunction::ohms);

  bench.wishes.actions.clear();
  ASSERT_TRUE(bench.sheet.enter_on("meter/hold/lowest"));
  const auto* hold = only_wish<SetMeterHold>(bench.wishes);
  ASSERT_NE(hold, nullptr);
  EXPECT_EQ(hold->to, MeterHold::lowest);
}

TEST(Rail, NoteKeyWaitsForAFigure) {
  Bench bench{shipped("healthy_walk"), {}, {}};
  EXPECT_FALSE(bench.sheet.tab_to("meter/note")) << "nothing on the display to note";
  bench.session.act(PutProbe{true, TestPoint::battery_positive_post});
  bench.session.act(PutProbe{false, TestPoint::negative_post});
  bench.session.run_for_s(1.0);
  ASSERT_TRUE(bench.sheet.enter_on("meter/note"));
  EXPECT_NE(only_wish<NoteReading>(bench.wishes), nullptr);
}

TEST(Rail, SafetyKeysTurnStatesOnAndOff) {
  Bench bench{shipped("healthy_walk"), {}, {}};
  ASSERT_TRUE(bench.sheet.enter_on("safe/eyes"));
  const auto* on = only_wish<WearEyeProtection>(bench.wishes);
  ASSERT_NE(on, nullptr);
  EXPECT_TRUE(on->on);

  bench.session.act(*on);
  bench.wishes.actions.clear();
  ASSERT_TRUE(bench.sheet.enter_on("safe/eyes"));
  const auto* off = only_wish<WearEyeProtection>(bench.wishes);
  ASSERT_NE(off, nullptr);
  EXPECT_FALSE(off->on);
}

TEST(Rail, NotesWhatWasHeardFromAList) {
  Bench bench{shipped("healthy_walk"), {}, {}};
  bench.state.tab = RailTab::findings;
  ASSERT_TRUE(bench.sheet.enter_on("findings/observe"));
  ASSERT_TRUE(bench.sheet.enter_on("observation/one_click"));
  const auto* heard = only_wish<NoteObservation>(bench.wishes);
  ASSERT_NE(heard, nullptr);
  EXPECT_EQ(heard->id, "one_click");
  EXPECT_EQ(bench.state.noting, Noting::nothing);
}

TEST(Rail, StrikesASuspectOutAndBackIn) {
  Bench bench{shipped("healthy_walk"), {}, {}};
  bench.state.tab = RailTab::suspects;
  const std::string first = "suspect/" + std::string(all_faults()[0].id);
  ASSERT_TRUE(bench.sheet.click_on(first, bench.zones.rail));
  const auto* out = only_wish<StrikeSuspect>(bench.wishes);
  ASSERT_NE(out, nullptr);
  EXPECT_EQ(out->fault_id, all_faults()[0].id);
  EXPECT_TRUE(out->struck);
  ASSERT_TRUE(bench.session.act(*out).done);
  bench.wishes.actions.clear();
  ASSERT_TRUE(bench.sheet.enter_on(first));
  const auto* in = only_wish<StrikeSuspect>(bench.wishes);
  ASSERT_NE(in, nullptr);
  EXPECT_FALSE(in->struck);
}

TEST(Rail, ListOfSuspectsHoldsTheWholeCatalogue) {
  Bench bench{shipped("healthy_walk"), {}, {}};
  bench.state.tab = RailTab::suspects;
  for (const Fault& fault : {all_faults().front(), all_faults().back()}) {
    if (!fault.can_be_on(bench.session.scenario().healthy)) continue;
    EXPECT_TRUE(bench.sheet.tab_to("suspect/" + std::string(fault.id))) << fault.id;
  }
}

TEST(RailText, SaysWhatIsSafeNow) {
  Session session = shipped("healthy_walk");
  EXPECT_EQ(made_safe_text(session), "park");
  session.act(SetBrake{true});
  session.act(WearEyeProtection{true});
  EXPECT_EQ(made_safe_text(session), "eyes \u00B7 brake \u00B7 park");
}

TEST(RailText, SaysLimitsWithTheirCurrents) {
  EXPECT_EQ(limit_text(*limit_key_named("cable"), {0.0, 0.2, 80, 400}), "at most 0.2 V, 80 to 400 A");
  EXPECT_EQ(limit_text(*limit_key_named("battery_rest"), {12.4, 0.0, 0, 1}), "at least 12.4 V");
  EXPECT_EQ(limit_text(*limit_key_named("relay_coil"), {2.5, 5.0, 0, 1}), "2.5 to 5 \u03A9, power off");
  EXPECT_EQ(limit_text(*limit_key_named("cranking_current"), {160, 210, 0, 400}), "160 to 210 A");
}

TEST(RailText, SaysFindingsByTheirNumbers) {
  Session session = shipped("healthy_walk");
  note_battery_cranking(session);
  const Finding& finding = session.findings().front();
  EXPECT_EQ(where_text(finding, english()), "1\u201313");
  EXPECT_EQ(figure_text(finding), finding.shown.text() + " V");
  EXPECT_EQ(amps_text(0.4), "0.4 A");
  EXPECT_EQ(amps_text(194.0), "194 A");
}

}  // namespace
}  // namespace voltfall
