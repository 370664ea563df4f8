#include "desktop/service_sheet/service_sheet.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <filesystem>
#include <set>

#include "desktop/layout.h"
#include "scenario/read_scenario.h"
#include "service_sheet/svg_pen.h"
#include "support/headless_sheet.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {
namespace {

using testing::HasSubstr;
using testing::Not;

Scenario shipped(const std::string& name) {
  const ReadScenario read = read_scenario(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "scenarios" / (name + ".toml"));
  EXPECT_TRUE(read.scenario);
  return *read.scenario;
}

/// Keeps what it is told to write.
class WordsPen : public Pen {
 public:
  void line(Spot, Spot, float, Tone) override {}
  void box(Spot, Spot, Tone, float) override {}
  void disc(Spot, float, Tone, float) override {}
  void words(Spot centre, std::string_view text, Tone, bool) override {
    EXPECT_TRUE(written.emplace(text).second || text == "clutch switch") << text << " stands twice";
    EXPECT_GT(centre.x, 0);
    EXPECT_LT(centre.x, diagram_width);
    EXPECT_GT(centre.y, 0);
    EXPECT_LT(centre.y, diagram_height);
  }
  std::set<std::string> written;
};

TEST(WiringDiagram, CarriesEveryTestPointOnceForEveryVehicle) {
  for (const VehicleType& type : all_vehicle_types()) {
    WordsPen pen;
    draw_wiring_diagram(pen, diagram_options(type.healthy));
    for (const TestPoint point : all_test_points()) {
      EXPECT_TRUE(pen.written.contains(std::to_string(number_of(point)))) << type.id << " " << id_of(point);
    }
    const bool manual = gearbox_of(type.healthy) == Gearbox::manual;
    EXPECT_EQ(pen.written.contains("clutch switch"), manual) << type.id;
    EXPECT_EQ(pen.written.contains("neutral switch"), !manual) << type.id;
  }
}

TEST(ServiceSheet, TellsNothingOfWhatIsHidden) {
  Scenario job = shipped("clicks_in_the_morning");
  const std::string with_fault = sheet_as_html(sheet_contents(job, english()));
  job.faults.clear();
  EXPECT_EQ(sheet_as_html(sheet_contents(job, english())), with_fault);
}

TEST(ServiceSheet, PrintsLimitsTorquesAndEveryCaution) {
  const std::string page = sheet_as_html(sheet_contents(shipped("clicks_in_the_morning"), english()));
  for (const std::string_view heading : {"Test points", "Declared limits", "Tightening torques", "Cautions"}) {
    EXPECT_THAT(page, HasSubstr(std::string(heading)));
  }
  EXPECT_THAT(page, HasSubstr("<svg"));
  EXPECT_THAT(page, Not(HasSubstr("src=")));  // one file, nothing fetched
  for (const std::string_view caution : english().cautions()) {
    EXPECT_THAT(page, HasSubstr(escaped(caution)));
  }
}

TEST(ServiceSheet, EscapesWhatMarkupWouldTakeForItsOwn) {
  EXPECT_EQ(escaped("a < b & \"c\" > d"), "a &lt; b &amp; &quot;c&quot; &gt; d");
}

TEST(ServiceSheet, FitsTheSmallestSheetWithNoTextCut) {
  for (const std::string name : {"clicks_in_the_morning", "healthy_walk"}) {
    const SheetContents contents = sheet_contents(shipped(name), english());
    Hands hands;
    bool back = false;
    const Rect whole = layout_of(1280, 720).sheet;
    HeadlessSheet sheet(hands, [&] { back = draw_service_sheet(contents, hands, whole) || back; });
    shortened_texts().clear();
    sheet.frame();
    EXPECT_EQ(shortened_texts(), std::vector<std::string>{}) << name;
    EXPECT_EQ(sheet.corners_outside(whole), 0) << name;
    EXPECT_FALSE(back);
    sheet.press(ImGuiKey_Escape);
    EXPECT_TRUE(back);
  }
}

}  // namespace
}  // namespace voltfall
