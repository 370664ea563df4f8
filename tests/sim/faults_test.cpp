#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "faults/catalogue.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

bool same(const RigParameters& one, const RigParameters& other) {
  return std::all_of(all_settables().begin(), all_settables().end(),
                     [&](const Settable& s) { return s.value_in(one) == s.value_in(other); });
}

/// A vehicle that is healthy yet nowhere at the usual values a fault could be mistaken for.
RigParameters scattered_vehicle() {
  RigParameters vehicle;
  vehicle.battery.charge = 0.93;
  vehicle.battery.health = 0.97;
  vehicle.battery.rated_CCA_A = 610.0;
  vehicle.relay.contact_ohm = 3.7e-4;
  vehicle.cables.positive.AWG = 1.0;
  vehicle.control.start_contact_ohm = 0.013;
  return vehicle;
}

class EveryFault : public testing::TestWithParam<std::string_view> {
 protected:
  const Fault& fault() const { return *fault_named(GetParam()); }
};

TEST_P(EveryFault, NamesExistingPathsAndStaysInTheirRange) {
  ASSERT_FALSE(fault().edits.empty());
  for (const double severity : {fault().lowest, fault().usual, fault().highest}) {
    const RigParameters faulty = with_fault(RigParameters{}, fault(), severity);
    for (const ParameterEdit& edit : fault().edits) {
      const Settable* settable = settable_at(edit.path);
      ASSERT_NE(settable, nullptr) << edit.path;
      EXPECT_GE(settable->value_in(faulty), settable->lowest) << edit.path << " at severity " << severity;
      EXPECT_LE(settable->value_in(faulty), settable->highest) << edit.path << " at severity " << severity;
    }
  }
}

TEST_P(EveryFault, ChangesTheVehicleAndOnlyWhatItNames) {
  const RigParameters healthy = scattered_vehicle();
  const RigParameters faulty = with_fault(healthy, fault(), fault().usual);
  std::set<std::string_view> changed, named;
  for (const Settable& s : all_settables()) {
    if (s.value_in(healthy) != s.value_in(faulty)) changed.insert(s.path);
  }
  for (const ParameterEdit& edit : fault().edits) named.insert(edit.path);
  EXPECT_EQ(changed, named);
}

TEST_P(EveryFault, IsCuredExactlyByItsOwnRepair) {
  const RigParameters healthy = scattered_vehicle();
  const Repair* repair = repair_named(fault().repair);
  ASSERT_NE(repair, nullptr) << fault().repair;
  for (const double severity : {fault().lowest, fault().usual, fault().highest}) {
    const RigParameters faulty = with_fault(healthy, fault(), severity);
    EXPECT_TRUE(same(with_repair(faulty, *repair, healthy), healthy)) << "severity " << severity;
  }
}

TEST_P(EveryFault, HasAWayToBeProved) {
  EXPECT_FALSE(fault().proof.empty() && fault().signs.empty());
  for (const ProvingPair& pair : fault().proof) {
    EXPECT_NE(pair.first, pair.second);
    EXPECT_NE(limit_key_named(pair.limit), nullptr) << pair.limit;
  }
}

TEST_P(EveryFault, HasARangeAroundItsUsualSeverityAndAKnownComponent) {
  EXPECT_LE(fault().lowest, fault().usual);
  EXPECT_LE(fault().usual, fault().highest);
  EXPECT_EQ(fault().has_degrees(), fault().lowest < fault().highest);
  EXPECT_EQ(std::count(all_components().begin(), all_components().end(), fault().component), 1) << fault().component;
}

std::vector<std::string_view> fault_ids() {
  std::vector<std::string_view> ids;
  for (const Fault& fault : all_faults()) ids.push_back(fault.id);
  return ids;
}

INSTANTIATE_TEST_SUITE_P(Catalogue, EveryFault, testing::ValuesIn(fault_ids()),
                         [](const auto& info) { return std::string(info.param); });

TEST(Catalogue, CoversEveryClassAndGivesEachIdOnce) {
  std::set<FaultClass> classes;
  std::set<std::string_view> ids;
  for (const Fault& fault : all_faults()) {
    classes.insert(fault.fault_class);
    EXPECT_TRUE(ids.insert(fault.id).second) << fault.id;
  }
  EXPECT_EQ(classes.size(), 9u);  // FaultClass has nine values
  EXPECT_EQ(fault_named("no_such_fault"), nullptr);
}

TEST(Repairs, RestoreExistingPathsCostTimeAndHaveAKnownComponent) {
  for (const Repair& repair : all_repairs()) {
    EXPECT_GT(repair.minutes, 0.0) << repair.id;
    EXPECT_GE(repair.parts_price, 0.0) << repair.id;
    EXPECT_EQ(std::count(all_components().begin(), all_components().end(), repair.component), 1) << repair.id;
    for (const std::string_view prefix : repair.restores) {
      EXPECT_TRUE(std::any_of(all_settables().begin(), all_settables().end(),
                              [&](const Settable& s) { return s.path.starts_with(prefix); }))
          << repair.id << " restores " << prefix;
    }
  }
  EXPECT_EQ(repair_named("no_such_repair"), nullptr);
}

// Swapping the dear part for a fault elsewhere must leave the fault where it is (trade: the starter sent back for a
// painted face comes home to the same paint).
TEST(Repairs, TheWrongOneLeavesTheFault) {
  const RigParameters healthy = scattered_vehicle();
  const auto left_by = [&](std::string_view fault_id, std::string_view repair_id) {
    const Fault& fault = *fault_named(fault_id);
    const RigParameters faulty = with_fault(healthy, fault, fault.usual);
    return same(with_repair(faulty, *repair_named(repair_id), healthy), faulty);
  };
  EXPECT_TRUE(left_by("mounting_face_painted", "renew_starter"));
  EXPECT_TRUE(left_by("positive_clamp_corroded", "renew_battery"));
  EXPECT_TRUE(left_by("relay_case_ground_lost", "renew_relay"));
  EXPECT_TRUE(left_by("body_strap_lost", "renew_ignition_switch"));
  EXPECT_TRUE(left_by("battery_aged", "charge_battery"));
}

TEST(WithFault, AddsSetsAndScales) {
  RigParameters healthy;
  healthy.joints.positive_clamp.added_ohm = 0.001;  // a healthy car's own scatter
  healthy.battery.rated_CCA_A = 600.0;
  EXPECT_DOUBLE_EQ(with_fault(healthy, *fault_named("positive_clamp_corroded"), 0.05).joints.positive_clamp.added_ohm,
                   0.051);
  EXPECT_DOUBLE_EQ(with_fault(healthy, *fault_named("battery_too_small"), 0.5).battery.rated_CCA_A, 300.0);
  EXPECT_DOUBLE_EQ(with_fault(healthy, *fault_named("relay_contacts_pitted"), 0.02).relay.contact_ohm, 0.02);
  EXPECT_DOUBLE_EQ(
      with_fault(healthy, *fault_named("grounding_contacts_never_close"), 1.0).starter.grounding_contacts_stuck, -1.0);
}

TEST(LimitKeys, HaveFiguresRangesAndUniqueIds) {
  std::set<std::string_view> ids;
  for (const LimitKey& key : all_limit_keys()) {
    EXPECT_TRUE(ids.insert(key.id).second) << key.id;
    EXPECT_GT(key.lowest + key.highest, 0.0) << key.id;
    EXPECT_GT(key.near, 0.0) << key.id;
    EXPECT_LT(key.from_A, key.to_A) << key.id;
    EXPECT_FALSE(key.meaning.empty()) << key.id;
  }
  // values.md 3.3: separate magnetic switch 0.3 V, a control wire or switch 0.1 V, control circuit 0.5 V in all.
  EXPECT_DOUBLE_EQ(limit_key_named("relay_contact")->highest, 0.3);
  EXPECT_DOUBLE_EQ(limit_key_named("control_leg")->highest, 0.1);
  EXPECT_DOUBLE_EQ(limit_key_named("control_side")->highest, 0.5);
  EXPECT_DOUBLE_EQ(limit_key_named("battery_cranking")->lowest, 9.6);
}

// The relay coil alone draws some 3 A: the strap's limit has to hold at that current, for the engine never turns.
TEST(LimitKeys, TheStrapIsJudgedAtTheRelayCoilsCurrent) {
  const LimitKey& strap = *limit_key_named("strap");
  EXPECT_LT(strap.from_A, 3.0);
  EXPECT_EQ(strap.measured_at, MeasuredAt::key_start);
}

TEST(Fault, SeverityGoesFromMildestToWorst) {
  for (const Fault& fault : all_faults()) {
    EXPECT_DOUBLE_EQ(fault.severity_at(0.0), fault.lowest) << fault.id;
    EXPECT_NEAR(fault.severity_at(1.0), fault.highest, 1.0e-12 * fault.highest) << fault.id;
    if (fault.highest <= fault.lowest) continue;
    EXPECT_NEAR(fault.share_of(fault.severity_at(0.3)), 0.3, 1.0e-9) << fault.id;
  }
  const Fault& painted = *fault_named("mounting_face_painted");
  const double middle = painted.severity_at(0.5);
  EXPECT_NEAR(middle / painted.lowest, painted.highest / middle, 1.0e-9) << "by ratio";
}

}  // namespace
}  // namespace voltfall
