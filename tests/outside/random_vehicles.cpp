#include "outside/random_vehicles.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <sstream>

#include "faults/catalogue.h"
#include "rig/settable.h"

namespace voltfall {
namespace {

constexpr double decades_from = 100.0;  // a range this wide, end over end, is drawn from by decades

// The lowest value above nothing that makes a difference worth drawing: a range may begin at 0.
double lowest_by_decades(const Settable& settable) {
  return settable.lowest > 0.0 ? settable.lowest : 1.0e-9 * settable.highest;
}

double anywhere(const Settable& settable, Draw& draw) {
  const double lowest = lowest_by_decades(settable);
  if (settable.lowest < 0.0 || settable.highest < decades_from * lowest) {
    return draw.between(settable.lowest, settable.highest);
  }
  // Ranges that begin at 0 are too wide by decades where the unit is not ohms: half of each kind.
  if (settable.lowest == 0.0 && draw.chance(0.5)) return draw.between(0.0, settable.highest);
  return draw.in_decades(lowest, settable.highest);
}

// Within a decade of the usual value; a resistance that is usually 0 becomes one that a technician would look for.
double nearby(const Settable& settable, double usual, Draw& draw) {
  const bool added_ohms = usual == 0.0 && settable.unit == "ohm";
  if (!added_ohms && usual <= 0.0) return anywhere(settable, draw);
  const double value = added_ohms ? draw.in_decades(1.0e-4, 1.0) : draw.in_decades(0.1 * usual, 10.0 * usual);
  return std::clamp(value, settable.lowest, settable.highest);
}

double pushed(const Settable& settable, double usual, Draw& draw) {
  const double which = draw.unit();
  if (which < 0.15) return settable.lowest;
  if (which < 0.30) return settable.highest;
  return which < 0.60 ? anywhere(settable, draw) : nearby(settable, usual, draw);
}

class Maker {
 public:
  explicit Maker(std::uint64_t seed) : draw_(seed) {
    made_.seed = seed;
    words_.precision(17);
    const Settable& ambient = *settable_at("ambient_C");
    put(ambient, draw_.between(-30.0, ambient.highest));  // the world's cranking weather; its end comes by a push
  }

  void push_settables(std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
      const Settable& settable = all_settables()[draw_.below(all_settables().size())];
      put(settable, pushed(settable, settable.value_in(RigParameters{}), draw_));
    }
  }

  // Two faults never set the same value, as in a scenario; a value beyond its documented range is brought back to it.
  void add_faults(std::size_t count) {
    const Fault* earlier = nullptr;
    while (count > 0) {
      const Fault& fault = all_faults()[draw_.below(all_faults().size())];
      if (earlier != nullptr && share_a_path(*earlier, fault)) continue;
      add_fault(fault);
      earlier = &fault;
      --count;
    }
  }

  void vary(double share) {
    for (const Settable& settable : all_settables()) {
      const double usual = settable.value_in(RigParameters{});
      const bool is_switch = settable.unit.empty() && settable.lowest <= 0.0 && settable.highest <= 1.0;
      if (usual <= 0.0 || is_switch || !draw_.chance(0.15)) continue;
      put(settable,
          std::clamp(usual * draw_.in_decades(1.0 / (1.0 + share), 1.0 + share), settable.lowest, settable.highest));
    }
  }

  void rest_anywhere() {
    made_.rest = {.crank_angle_deg = draw_.between(0.0, 720.0),
                  .tooth_phase = draw_.chance(0.2) ? 0.0 : draw_.between(0.0, 1.0)};
    words_ << "rest: crank " << made_.rest.crank_angle_deg << " deg, tooth phase " << made_.rest.tooth_phase << '\n';
  }

  void hold_the_key() {
    made_.held.key = KeyPosition::start;
    made_.held.headlamps = draw_.chance(0.5);
    made_.held.gear = draw_.chance(0.1) ? Gear::neutral : Gear::park;
    made_.held.ignition_live = draw_.chance(0.2);
    if (draw_.chance(0.2)) hang_on_a_meter();
    made_.key_s = draw_.chance(0.9) ? draw_.between(0.08, 0.16) : draw_.between(0.3, 0.8);
    made_.after_s = draw_.chance(0.35) ? draw_.between(0.01, 0.05) : 0.0;
    words_ << "lamps " << made_.held.headlamps << ", neutral " << (made_.held.gear == Gear::neutral) << ", ignition "
           << made_.held.ignition_live << ", start for " << made_.key_s << " s, then on for " << made_.after_s
           << " s\n";
  }

  RandomVehicle done() {
    keep_the_disc_within_the_stroke();
    made_.made_of = "seed " + std::to_string(made_.seed) + '\n' + words_.str();
    return made_;
  }

  Draw& draw() { return draw_; }

 private:
  void put(const Settable& settable, double value) {
    settable.in(made_.parameters) = value;
    words_ << settable.path << " = " << value << '\n';
  }

  // The one rule between two values (settable.cpp): a disc that meets its studs beyond the stroke is no relay.
  void keep_the_disc_within_the_stroke() {
    RelayParameters& relay = made_.parameters.relay;
    if (relay.contact_touch_m < relay.plunger_travel_m) return;
    put(*settable_at("relay.contact_touch_m"), std::max(0.75 * relay.plunger_travel_m, 5.0e-4));
  }

  static bool share_a_path(const Fault& one, const Fault& other) {
    return std::any_of(one.edits.begin(), one.edits.end(), [&](const ParameterEdit& edit) {
      return std::any_of(other.edits.begin(), other.edits.end(),
                         [&](const ParameterEdit& second) { return second.path == edit.path; });
    });
  }

  void add_fault(const Fault& fault) {
    const double which = draw_.unit();
    const double severity = which < 0.2   ? fault.lowest
                            : which < 0.4 ? fault.highest
                                          : draw_.between(fault.lowest, fault.highest);
    words_ << "fault " << fault.id << " of " << severity << ":\n";
    made_.parameters = with_fault(made_.parameters, fault, severity);
    for (const ParameterEdit& edit : fault.edits) {
      const Settable& settable = *settable_at(edit.path);
      put(settable, std::clamp(settable.value_in(made_.parameters), settable.lowest, settable.highest));
    }
  }

  // A voltmeter's 10 Mohm, a test lamp's 4 ohm or a jumper's few milliohm across any two points.
  void hang_on_a_meter() {
    constexpr std::array<double, 3> ohms{1.0e7, 4.0, 0.005};
    const double ohm = ohms[draw_.below(ohms.size())];
    const TestPoint red = all_test_points()[draw_.below(test_point_count)];
    const TestPoint black = all_test_points()[draw_.below(test_point_count)];
    if (red == black) return;
    made_.held.attached.push_back({red, black, ohm});
    words_ << ohm << " ohm from " << id_of(red) << " to " << id_of(black) << '\n';
  }

  Draw draw_;
  RandomVehicle made_;
  std::ostringstream words_;
};

}  // namespace

double Draw::in_decades(double lowest, double highest) {
  return std::clamp(lowest * std::pow(highest / lowest, unit()), lowest, highest);
}

RandomVehicle random_vehicle(std::uint64_t seed) {
  Maker maker(seed);
  const double which = maker.draw().unit();
  if (which < 0.6) {
    maker.push_settables(maker.draw().below(5));
  } else {
    maker.push_settables(5 + maker.draw().below(which < 0.8 ? 8 : 30));
  }
  maker.add_faults(maker.draw().below(3));
  maker.rest_anywhere();
  maker.hold_the_key();
  return maker.done();
}

RandomVehicle random_cranking_vehicle(std::uint64_t seed) {
  constexpr double share = 0.25;  // what cars of one kind differ by, and more
  Maker maker(seed);
  maker.vary(share);
  maker.rest_anywhere();
  return maker.done();
}

}  // namespace voltfall
