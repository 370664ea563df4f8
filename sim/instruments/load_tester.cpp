#include "instruments/load_tester.h"

#include <algorithm>
#include <cmath>

#include "instruments/clamp_meter.h"

namespace voltfall {

void LoadTester::turn_to(double amps) {
  asked_A_ = std::clamp(amps, 0.0, most_A);
  held_s_ = 0.0;
  if (posts_V_.shown()) follow(*posts_V_.shown());
  if (!turned_up()) ohm_ = open_ohm;
}

void LoadTester::start_over() {
  held_s_ = 0.0;
  ohm_ = open_ohm;
  posts_V_.start_over();
  through_A_.start_over();
}

void LoadTester::watch(double posts_V, double time_s, double dt_s) {
  posts_V_.add(posts_V, time_s, dt_s);
  through_A_.add(posts_V / ohm_, time_s, dt_s);
  if (!turned_up()) return;
  held_s_ += dt_s;
  follow(posts_V);
}

// Every change of an attached resistance is a switch thrown for the rig, so the pile moves on in steps of a hundredth.
void LoadTester::follow(double posts_V) {
  constexpr double least_ohm = 0.005, worth_moving = 0.01;
  if (!turned_up()) return;
  const double wanted_ohm = std::max(std::abs(posts_V) / asked_A_, least_ohm);
  if (std::abs(wanted_ohm - ohm_) > worth_moving * ohm_) ohm_ = wanted_ohm;
}

MeterDisplay LoadTester::volts() const {
  if (!posts_V_.shown()) return {MeterDisplay::Kind::settling, 0.0, 2, ""};
  return {MeterDisplay::Kind::value, std::round(*posts_V_.shown() * 100.0) / 100.0 + 0.0, 2, "V"};
}

MeterDisplay LoadTester::amps() const {
  if (!through_A_.shown()) return {MeterDisplay::Kind::settling, 0.0, 0, ""};
  return {MeterDisplay::Kind::value, std::round(*through_A_.shown()) + 0.0, 0, "A"};
}

}  // namespace voltfall
