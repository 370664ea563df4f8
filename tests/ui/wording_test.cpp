#include "wording/wording.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>
#include <set>

#include "desktop/bench/walk_panel.h"
#include "faults/catalogue.h"
#include "faults/hidden_faults.h"
#include "faults/visible_signs.h"
#include "hearing/crank_watch.h"
#include "session/outcomes.h"
#include "vehicles/vehicle_types.h"
#include "walks/walk_measures.h"

namespace voltfall {
namespace {

using testing::Contains;
using testing::ElementsAre;
using testing::IsEmpty;
using testing::Not;

std::vector<std::string> ids_of(const std::vector<Nameable>& choices) {
  std::vector<std::string> ids;
  ids.reserve(choices.size());
  for (const Nameable& choice : choices) ids.push_back(choice.id);
  return ids;
}

/// A word is there when it is not merely its own id.
void expect_worded(std::string_view words, std::string_view id) {
  EXPECT_NE(words, id) << "no words for " << id;
  EXPECT_FALSE(words.empty()) << id;
}

TEST(EnglishWording, ReadsWithoutAProblem) {
  std::vector<Problem> problems;
  Wording::read(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "assets/wording/english.toml", problems);
  for (const Problem& problem : problems) ADD_FAILURE() << problem.text();
}

TEST(EnglishWording, HasTheVehicle) {
  std::set<std::string_view> names;
  for (const TestPoint point : all_test_points()) {
    expect_worded(english().point(point), id_of(point));
    EXPECT_TRUE(english().has("point." + std::string(id_of(point)) + ".short")) << id_of(point);
    EXPECT_TRUE(names.insert(english().point(point)).second) << "two points are called " << english().point(point);
    EXPECT_LE(english().point_short(point).size(), 18u) << english().point_short(point);
  }
  for (const HeavyCable cable :
       {HeavyCable::positive, HeavyCable::starter, HeavyCable::negative, HeavyCable::body_strap}) {
    expect_worded(english().cable(cable), id_of(cable));
  }
  for (const std::string_view component : all_components()) expect_worded(english().component(component), component);
}

TEST(EnglishWording, NamesEveryFaultRepairAndLimit) {
  std::set<std::string_view> names;
  for (const Fault& fault : all_faults()) {
    expect_worded(english().fault(fault.id), fault.id);
    expect_worded(english().found(fault.id), fault.id);
    EXPECT_TRUE(names.insert(english().fault(fault.id)).second)
        << "two faults are called " << english().fault(fault.id);
    for (const char* part : {".like", ".wrong_call"}) {
      EXPECT_TRUE(english().has("fault." + std::string(fault.id) + part)) << fault.id << part;
    }
    EXPECT_FALSE(english().list("fault." + std::string(fault.id) + ".also").empty()) << fault.id;
  }
  for (const Repair& repair : all_repairs()) {
    expect_worded(english().repair(repair.id), repair.id);
    expect_worded(english().repaired(repair.id), repair.id);
  }
  for (const LimitKey& key : all_limit_keys()) expect_worded(english().limit(key.id), key.id);
}

TEST(EnglishWording, HasEveryLookTriggerAndTypeOfVehicle) {
  for (const VisibleSign& sign : all_visible_signs()) expect_worded(english().look(sign.look), sign.look);
  for (const std::string_view when : all_when_ids()) EXPECT_TRUE(english().has("when." + std::string(when))) << when;
  for (const VehicleType& type : all_vehicle_types()) {
    EXPECT_EQ(english().text("vehicle_type." + std::string(type.id) + ".name"), type.name);
    for (const Capacity& capacity : type.capacities) {
      EXPECT_TRUE(english().has("capacity." + std::string(capacity.id))) << capacity.id;
    }
  }
}

TEST(EnglishWording, HasWhatIsHeardSaidAndScored) {
  for (const Observation& observation : all_observations()) {
    expect_worded(english().observation(observation.id), observation.id);
  }
  for (const std::string_view id : outcome::all) expect_worded(english().outcome(id), id);
  for (const ElectricalState state : {ElectricalState::at_rest, ElectricalState::key_on, ElectricalState::cranking}) {
    EXPECT_TRUE(english().has("state." + std::string(id_of(state))));
  }
  for (int state = 0; state <= static_cast<int>(CrankState::no_relay); ++state) {
    EXPECT_TRUE(english().has("crank_state." + std::string(id_of(static_cast<CrankState>(state)))));
  }
  for (int kind = 0; kind <= static_cast<int>(RigEventKind::top_centre); ++kind) {
    EXPECT_TRUE(english().has("event." + std::string(id_of(static_cast<RigEventKind>(kind)))));
  }
  for (const std::string_view gate : {"cured", "proved", "no_critical_act", "supported"}) {
    expect_worded(english().gate(gate), gate);
  }
  EXPECT_EQ(english().lamp_look(LampLook::dim), "dim");
}

TEST(EnglishWording, NamesTheKitTheBenchAndTheHands) {
  for (const Kit kit : all_kit()) {
    expect_worded(english().kit(kit), id_of(kit));
    expect_worded(english().kit_about(kit), id_of(kit));
  }
  for (const Device device : all_devices()) expect_worded(english().device(device), id_of(device));
  for (const std::string_view id : {"look", "wiggle", "press", "tap", "feel"}) expect_worded(english().touch(id), id);
  for (const std::string_view id : {"no_load", "hold_in", "clutch_torque", "brush_length"}) {
    expect_worded(english().bench(id), id);
  }
  for (const VehicleType& type : all_vehicle_types()) {
    for (const Capacity& capacity : type.capacities) expect_worded(english().capacity(capacity.id), capacity.id);
    for (const JointTorque& joint : type.torques) expect_worded(english().component(joint.component), joint.component);
  }
}

// The cautions that every work order has to carry.
TEST(EnglishWording, CarriesTheCautions) {
  std::string all;
  for (const std::string_view caution : english().cautions()) all += std::string(caution) + "\n";
  for (const std::string_view needed :
       {"Eyes", "spark", "negative clamp off first", "parking brake", "Fuel or ignition", "belts", "Rings", "stands",
        "Never bridge", "away from the battery", "frozen or cracked", "by hand only", "two seconds", "fifteen seconds",
        "two minutes", "maker's procedure, local rules and a qualified technician"}) {
    EXPECT_THAT(all, testing::HasSubstr(std::string(needed)));
  }
}

// Every observation that the catalogue takes as a sign has to be one that can be noted.
TEST(EnglishWording, EverySignOfAFaultCanBeHeard) {
  for (const Fault& fault : all_faults()) {
    for (const std::string_view sign : fault.signs)
      EXPECT_NE(observation_named(sign), nullptr) << fault.id << " " << sign;
  }
}

TEST(MissingWords, ShowAsTheirId) {
  const Wording none;
  EXPECT_EQ(none.fault("relay_coil_open"), "relay_coil_open");
  EXPECT_EQ(none.text("outcome.named"), "outcome.named");
  EXPECT_THAT(none.cautions(), IsEmpty());
}

TEST(Completion, WaitsForThreeLetters) {
  EXPECT_THAT(english().complete("re"), IsEmpty());
  EXPECT_THAT(english().complete("  r e"), Not(Contains(testing::Field(&Nameable::id, "nothing_found"))));
  EXPECT_THAT(english().complete("rel"), Not(IsEmpty()));
}

TEST(Completion, IsAlphabeticalAndNeverByLikelihood) {
  const std::vector<Nameable> found = english().complete("battery");
  ASSERT_GT(found.size(), 5u);
  const auto before = [](const Nameable& a, const Nameable& b) { return a.name < b.name; };
  EXPECT_TRUE(std::is_sorted(found.begin(), found.end(), before));
}

TEST(Completion, FindsByAnyWordOfTheNameInAnyOrder) {
  EXPECT_THAT(ids_of(english().complete("corr clamp pos")), ElementsAre("positive_clamp_corroded"));
  EXPECT_THAT(ids_of(english().complete("PITTED")), ElementsAre("relay_contacts_pitted"));
}

TEST(Completion, AcceptsSynonyms) {
  EXPECT_THAT(ids_of(english().complete("flat batt")), ElementsAre("battery_discharged"));
  EXPECT_THAT(ids_of(english().complete("earth")), Contains("relay_case_ground_lost"));
}

TEST(Completion, HoldsDecoysAndNothingFound) {
  EXPECT_THAT(ids_of(english().complete("weak spark")), ElementsAre("ignition_coil_weak"));
  EXPECT_THAT(ids_of(english().complete("nothing")), ElementsAre("nothing_found"));
  EXPECT_EQ(fault_named("ignition_coil_weak"), nullptr);
}

TEST(Completion, CoversEverythingThatCanBeNamed) {
  const std::vector<std::string> ids = ids_of(english().namings());
  for (const Fault& fault : all_faults()) EXPECT_THAT(ids, Contains(std::string(fault.id)));
  std::set<std::string_view> names;
  for (const Nameable& choice : english().namings()) {
    EXPECT_NE(choice.name, choice.id);
    EXPECT_TRUE(names.insert(choice.name).second) << "two things are called " << choice.name;
  }
}

TEST(MeantBy, TakesAWholeNameOrSynonymWhateverItsPunctuation) {
  EXPECT_EQ(english().meant_by("positive clamp corroded"), "positive_clamp_corroded");
  EXPECT_EQ(english().meant_by("Flat battery!"), "battery_discharged");
  EXPECT_EQ(english().meant_by("positive clamp"), std::nullopt);
  EXPECT_EQ(english().meant_by(""), std::nullopt);
}

TEST(ReadWording, TellsWhereSomethingIsNoText) {
  const std::filesystem::path file = std::filesystem::temp_directory_path() / "voltfall_wording_test.toml";
  std::ofstream(file) << "[outcome]\nnamed = 3\njob_closed = \"closed\"\n";
  std::vector<Problem> problems;
  const Wording words = Wording::read(file, problems);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].text(), file.string() + ":2:9: outcome.named is no text; allowed: a text or a list of texts");
  EXPECT_EQ(words.outcome("job_closed"), "closed");
  std::filesystem::remove(file);
}

TEST(EnglishWording, TellsAWalksAnswerInALearnersWords) {
  for (const WalkMeasure& measure : all_walk_measures()) {
    WalkQuestion question;
    question.measured.measure = &measure;
    for (const std::string_view word : measure.words) {
      const std::string told = value_words(english(), question, {0.0, word});
      EXPECT_EQ(told.find_first_of("_."), std::string::npos) << measure.id << " " << told;
    }
  }
}

}  // namespace
}  // namespace voltfall
