#include "rig/circuit.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <stdexcept>

#include "electrical/conductor.h"
#include "rig/relay.h"

namespace voltfall {
namespace {

constexpr double relay_leakage_H = 2.0e-3;
constexpr double stiff_supply_ohm = 1.0e-5;
constexpr double absent_S = 1.0e-9;  // a battery that is not there

// A branch whose volts are  v = ohm i + emf_V  for this round.
struct SeriesLaw {
  double ohm, emf_V;
};

void put(Network& network, Network::Branch branch, const SeriesLaw& law) {
  network.set(branch, 1.0 / law.ohm, -law.emf_V / law.ohm);
}

/// One round's linear picture of a coil with some turns on a pole: v = R i + L di/dt + turns dflux/dt.
struct Coil {
  double ohm, leakage_H, turns;
};

SeriesLaw coil_law(const Coil& coil, double current_A, double guess_A, const FluxStep& flux, double flux_before_Wb,
                   double dt_s) {
  const double turns_per_s = coil.turns / dt_s;
  const double flux_ohm = turns_per_s * flux.Wb_per_ampere_turn * coil.turns;
  return {coil.ohm + coil.leakage_H / dt_s + flux_ohm,
          -coil.leakage_H / dt_s * current_A + turns_per_s * (flux.flux_Wb - flux_before_Wb) - flux_ohm * guess_A};
}

double starter_eddy_ohm(const StarterParameters& starter) {
  return eddy_ohm(starter_pole(starter), starter.seated_gap_m, starter.eddy_time_constant_s);
}

class Solver {
 public:
  Solver(Wiring& wiring, const RigState& before, const CircuitSurroundings& around)
      : wiring_(wiring),
        before_(before),
        around_(around),
        starter_(around.parameters.starter),
        pole_(starter_pole(starter_), starter_eddy_ohm(starter_), around.dt_s),
        relay_pole_(relay_pole(around.parameters.relay), relay_eddy_ohm(around.parameters.relay), around.dt_s),
        turns_(starter_.coil_turns * starter_.flux_fraction) {
    result_.torque_per_A = torque_per_A(starter_, before.fluxes);
    result_.currents = expected_currents();
    result_.fluxes = expected_fluxes();
  }

  CircuitResult run() {
    set_once();
    for (result_.rounds = 1; result_.rounds <= most_rounds; ++result_.rounds) {
      const LiveCurrents guess = result_.currents;
      set_movable_pole();
      set_fixed_poles();
      set_armature();
      set_relay_coil();
      set_battery();
      wiring_.network.solve();
      read_currents();
      if (settled(guess)) {
        follow_with_fluxes(guess);
        return result_;
      }
    }
    throw std::runtime_error(
        fmt::format("the circuit did not converge at {:.4f} s", static_cast<double>(before_.steps) * around_.dt_s));
  }

 private:
  static constexpr int most_rounds = 60;

  // Where the currents would be if they went on as in the last step: Newton's method begins there.
  LiveCurrents expected_currents() const {
    const LiveCurrents& now = before_.currents;
    const LiveCurrents& per_s = before_.currents_per_s;
    const double dt_s = around_.dt_s;
    return {.battery_A = now.battery_A + dt_s * per_s.battery_A,
            .relay_coil_A = now.relay_coil_A + dt_s * per_s.relay_coil_A,
            .drive_A = now.drive_A + dt_s * per_s.drive_A,
            .hold_in_A = now.hold_in_A + dt_s * per_s.hold_in_A,
            .field_2_A = now.field_2_A + dt_s * per_s.field_2_A,
            .field_34_A = now.field_34_A + dt_s * per_s.field_34_A,
            .armature_A = now.armature_A + dt_s * per_s.armature_A};
  }

  PoleFluxes expected_fluxes() const {
    const PoleFluxes& now = before_.fluxes;
    const PoleFluxes& per_s = before_.fluxes_per_s;
    const double dt_s = around_.dt_s;
    return {.movable_Wb = now.movable_Wb + dt_s * per_s.movable_Wb,
            .second_Wb = now.second_Wb + dt_s * per_s.second_Wb,
            .third_and_fourth_Wb = now.third_and_fourth_Wb + dt_s * per_s.third_and_fourth_Wb,
            .relay_Wb = now.relay_Wb + dt_s * per_s.relay_Wb};
  }

  // What does not change from round to round.
  void set_once() {
    Network& network = wiring_.network;
    const RigParameters& p = around_.parameters;
    const double open_ohm = p.body.insulation_ohm;
    const double relay_opening_m = p.relay.contact_touch_m - before_.relay.disc.travel_m;
    const double relay_ohm = p.relay.contact_ohm + before_.relay_constriction.ohm;
    const ContactBranch relay =
        contact_branch(before_.relay_contact, relay_ohm, open_ohm, relay_opening_m, before_.relay_contact_A);
    network.set(wiring_.relay_contact, relay.siemens, relay.source_A);
    const double tips_m = before_.shoe.travel_m - p.shoe.contacts_open_at * p.shoe.travel_m;
    const ContactBranch grounding = contact_branch(before_.grounding_contacts, starter_.grounding_contacts_ohm,
                                                   open_ohm, tips_m, before_.grounding_contacts_A);
    network.set(wiring_.grounding_contacts, grounding.siemens, grounding.source_A);
    if (wiring_.supply >= 0) {
      network.set(wiring_.supply, 1.0 / stiff_supply_ohm, around_.load.supply_V / stiff_supply_ohm);
    }
  }

  FluxStep movable_flux(const LiveCurrents& currents) const {
    const double applied = turns_ * currents.drive_A + starter_.hold_in_turns * currents.hold_in_A;
    return pole_.flux_after(movable_pole_gap_m(around_.parameters, before_.shoe.travel_m), before_.fluxes.movable_Wb,
                            applied, result_.fluxes.movable_Wb);
  }
  FluxStep second_flux(const LiveCurrents& currents) const {
    return pole_.flux_after(starter_.seated_gap_m, before_.fluxes.second_Wb, turns_ * currents.field_2_A,
                            result_.fluxes.second_Wb);
  }
  FluxStep third_flux(const LiveCurrents& currents) const {
    return pole_.flux_after(starter_.seated_gap_m, before_.fluxes.third_and_fourth_Wb, turns_ * currents.field_34_A,
                            result_.fluxes.third_and_fourth_Wb);
  }
  FluxStep relay_flux(const LiveCurrents& currents) const {
    const RelayParameters& relay = around_.parameters.relay;
    return relay_pole_.flux_after(relay_gap_m(relay, before_.relay.plunger.travel_m), before_.fluxes.relay_Wb,
                                  relay.coil_turns * currents.relay_coil_A, result_.fluxes.relay_Wb);
  }

  // The last round moved the currents by next to nothing: the fluxes go along on their slopes.
  void follow_with_fluxes(const LiveCurrents& guess) {
    const LiveCurrents& now = result_.currents;
    PoleFluxes& fluxes = result_.fluxes;
    fluxes.movable_Wb += movable_slope_ * (turns_ * (now.drive_A - guess.drive_A) +
                                           starter_.hold_in_turns * (now.hold_in_A - guess.hold_in_A));
    fluxes.second_Wb += second_slope_ * turns_ * (now.field_2_A - guess.field_2_A);
    fluxes.third_and_fourth_Wb += third_slope_ * turns_ * (now.field_34_A - guess.field_34_A);
    fluxes.relay_Wb += relay_slope_ * around_.parameters.relay.coil_turns * (now.relay_coil_A - guess.relay_coil_A);
  }

  // Drive coil and hold-in share the movable pole: two branches with a mutual part.
  void set_movable_pole() {
    const LiveCurrents& guess = result_.currents;
    const FluxStep flux = movable_flux(guess);
    const PartTemperatures& warm = before_.temperatures;
    const Coil drive{starter_.drive_coil_ohm * copper_factor(warm.drive_C), starter_.coil_leakage_H, turns_};
    const Coil hold_in{starter_.hold_in_ohm * copper_factor(warm.drive_C), starter_.hold_in_leakage_H,
                       starter_.hold_in_turns};
    SeriesLaw drive_law =
        coil_law(drive, before_.currents.drive_A, guess.drive_A, flux, before_.fluxes.movable_Wb, around_.dt_s);
    SeriesLaw hold_in_law =
        coil_law(hold_in, before_.currents.hold_in_A, guess.hold_in_A, flux, before_.fluxes.movable_Wb, around_.dt_s);
    const double mutual_ohm = drive.turns * hold_in.turns * flux.Wb_per_ampere_turn / around_.dt_s;
    drive_law.emf_V -= mutual_ohm * guess.hold_in_A;
    hold_in_law.emf_V -= mutual_ohm * guess.drive_A;
    const double determinant = drive_law.ohm * hold_in_law.ohm - mutual_ohm * mutual_ohm;
    const double drive_S = hold_in_law.ohm / determinant;
    const double hold_in_S = drive_law.ohm / determinant;
    const double mutual_S = -mutual_ohm / determinant;
    Network& network = wiring_.network;
    network.set(wiring_.drive_coil, drive_S, -drive_S * drive_law.emf_V - mutual_S * hold_in_law.emf_V);
    network.set(wiring_.hold_in, hold_in_S, -hold_in_S * hold_in_law.emf_V - mutual_S * drive_law.emf_V);
    network.set_mutual(mutual_S);
    result_.fluxes.movable_Wb = flux.flux_Wb;
    movable_slope_ = flux.Wb_per_ampere_turn;
  }

  void set_fixed_poles() {
    const LiveCurrents& guess = result_.currents;
    const double ohm = starter_.field_coil_ohm * copper_factor(before_.temperatures.field_C);
    const FluxStep second = second_flux(guess);
    put(wiring_.network, wiring_.field_2,
        coil_law({ohm, starter_.coil_leakage_H, turns_}, before_.currents.field_2_A, guess.field_2_A, second,
                 before_.fluxes.second_Wb, around_.dt_s));
    const FluxStep third = third_flux(guess);
    const SeriesLaw one = coil_law({ohm, starter_.coil_leakage_H, turns_}, before_.currents.field_34_A,
                                   guess.field_34_A, third, before_.fluxes.third_and_fourth_Wb, around_.dt_s);
    put(wiring_.network, wiring_.field_34, {2.0 * one.ohm, 2.0 * one.emf_V});
    result_.fluxes.second_Wb = second.flux_Wb;
    result_.fluxes.third_and_fourth_Wb = third.flux_Wb;
    second_slope_ = second.Wb_per_ampere_turn;
    third_slope_ = third.Wb_per_ampere_turn;
  }

  // v = R i + L di/dt + Vb tanh(i / Is) + k w, where the armature's mean speed w is itself a line in the torque k i.
  void set_armature() {
    const double guess_A = result_.currents.armature_A;
    const double k = result_.torque_per_A;
    const double brush = std::tanh(guess_A / starter_.brush_knee_A);
    const double brush_ohm = starter_.brush_drop_V * (1.0 - brush * brush) / starter_.brush_knee_A;
    const double inductive_ohm = starter_.armature_leakage_H / around_.dt_s;
    const double copper_ohm = starter_.armature_ohm * copper_factor(before_.temperatures.armature_C);
    put(wiring_.network, wiring_.armature,
        {copper_ohm + brush_path_ohm(starter_, before_.drive_train.armature_rad) + inductive_ohm + brush_ohm +
             k * k * around_.drive_train.per_Nm,
         -inductive_ohm * before_.currents.armature_A + starter_.brush_drop_V * brush - brush_ohm * guess_A +
             k * around_.drive_train.at_rest_rad_per_s});
  }

  void set_relay_coil() {
    const RelayParameters& relay = around_.parameters.relay;
    const FluxStep flux = relay_flux(result_.currents);
    put(wiring_.network, wiring_.relay_coil,
        coil_law({relay.coil_ohm * copper_factor(before_.temperatures.relay_coil_C), relay_leakage_H, relay.coil_turns},
                 before_.currents.relay_coil_A, result_.currents.relay_coil_A, flux, before_.fluxes.relay_Wb,
                 around_.dt_s));
    result_.fluxes.relay_Wb = flux.flux_Wb;
    relay_slope_ = flux.Wb_per_ampere_turn;
  }

  void set_battery() {
    if (wiring_.supply >= 0) {
      wiring_.network.set(wiring_.battery, absent_S);
      return;
    }
    if (around_.load.supply_V > 0.0) {
      put(wiring_.network, wiring_.battery, {stiff_supply_ohm, -around_.load.supply_V});
      return;
    }
    const double guess_A = result_.currents.battery_A;
    const BatteryStep step = battery_step(around_.battery, before_.battery, around_.dt_s);
    const StarvingLoss loss = starving_loss(around_.battery, before_.battery, guess_A, around_.dt_s);
    put(wiring_.network, wiring_.battery, {step.series_ohm + loss.ohm, -step.emf_V + loss.loss_V - loss.ohm * guess_A});
  }

  void read_currents() {
    const Network& network = wiring_.network;
    result_.currents = {.battery_A = network.amps(wiring_.supply >= 0 ? wiring_.supply : wiring_.battery),
                        .relay_coil_A = network.amps(wiring_.relay_coil),
                        .drive_A = network.amps(wiring_.drive_coil),
                        .hold_in_A = network.amps(wiring_.hold_in),
                        .field_2_A = network.amps(wiring_.field_2),
                        .field_34_A = network.amps(wiring_.field_34),
                        .armature_A = network.amps(wiring_.armature)};
  }

  // Newton doubles the digits at each round: one that moved by a part in 20 000 leaves an error below one in 10^8.
  bool settled(const LiveCurrents& guess) const {
    const LiveCurrents& now = result_.currents;
    const std::array<double, 7> moved_A{now.battery_A - guess.battery_A,  now.relay_coil_A - guess.relay_coil_A,
                                        now.drive_A - guess.drive_A,      now.hold_in_A - guess.hold_in_A,
                                        now.field_2_A - guess.field_2_A,  now.field_34_A - guess.field_34_A,
                                        now.armature_A - guess.armature_A};
    double most_A = 0.0;
    for (const double current_A : moved_A) most_A = std::max(most_A, std::abs(current_A));
    return most_A <= 5.0e-5 * (1.0 + std::abs(now.battery_A));
  }

  Wiring& wiring_;
  const RigState& before_;
  const CircuitSurroundings& around_;
  const StarterParameters& starter_;
  PoleStep pole_, relay_pole_;
  double turns_;
  double movable_slope_ = 0.0, second_slope_ = 0.0, third_slope_ = 0.0, relay_slope_ = 0.0;  ///< Wb per ampere-turn
  CircuitResult result_{};
};

double eddy_W(const PoleParameters& pole, double eddy_turn_ohm, double gap_m, double flux_Wb, double applied) {
  const double driving = applied - ampere_turns(pole, flux_Wb, gap_m);
  return eddy_turn_ohm * driving * driving;
}

}  // namespace

PoleParameters starter_pole(const StarterParameters& starter) {
  return {starter.pole_area_m2, starter.iron_gap_m, starter.saturation_T};
}

double movable_pole_gap_m(const RigParameters& parameters, double shoe_travel_m) {
  return parameters.starter.seated_gap_m + parameters.shoe.travel_m - shoe_travel_m;
}

double torque_per_A(const StarterParameters& starter, const PoleFluxes& fluxes) {
  const double sum_Wb = fluxes.movable_Wb + fluxes.second_Wb + 2.0 * fluxes.third_and_fourth_Wb;
  return starter.machine_constant_Nm_per_A_T * 0.25 * sum_Wb / starter.pole_area_m2;
}

double brush_path_ohm(const StarterParameters& starter, double armature_rad) {
  const double everywhere = starter.brush_added_ohm + starter.commutator_film_ohm;
  if (starter.dead_spot_ohm <= 0.0) return everywhere;
  // Four poles: a dead bar comes under a brush four times in a turn.
  constexpr double under_brush = std::numbers::sqrt2 / 2.0;  // cos(4 x dead_bars_half_rad)
  const double dead = std::max(std::cos(4.0 * armature_rad) - under_brush, 0.0) / (1.0 - under_brush);
  return everywhere + dead * starter.dead_spot_ohm;
}

CircuitResult solve_circuit(Wiring& wiring, const RigState& before, const CircuitSurroundings& around) {
  return Solver(wiring, before, around).run();
}

double leakage_J(const RigParameters& parameters, const LiveCurrents& i) {
  const StarterParameters& starter = parameters.starter;
  return 0.5 *
         (starter.coil_leakage_H *
              (i.drive_A * i.drive_A + i.field_2_A * i.field_2_A + 2.0 * i.field_34_A * i.field_34_A) +
          starter.armature_leakage_H * i.armature_A * i.armature_A +
          starter.hold_in_leakage_H * i.hold_in_A * i.hold_in_A + relay_leakage_H * i.relay_coil_A * i.relay_coil_A);
}

double stored_magnetic_J(const RigParameters& parameters, const RigState& state) {
  const StarterParameters& starter = parameters.starter;
  const PoleParameters pole = starter_pole(starter);
  const double iron_J = stored_J(pole, state.fluxes.movable_Wb, movable_pole_gap_m(parameters, state.shoe.travel_m)) +
                        stored_J(pole, state.fluxes.second_Wb, starter.seated_gap_m) +
                        2.0 * stored_J(pole, state.fluxes.third_and_fourth_Wb, starter.seated_gap_m) +
                        stored_J(relay_pole(parameters.relay), state.fluxes.relay_Wb,
                                 relay_gap_m(parameters.relay, state.relay.plunger.travel_m));
  return leakage_J(parameters, state.currents) + iron_J;
}

double eddy_heat_W(const RigParameters& parameters, const RigState& state) {
  const StarterParameters& starter = parameters.starter;
  const PoleParameters pole = starter_pole(starter);
  const double turns = starter.coil_turns * starter.flux_fraction;
  const double turn_ohm = starter_eddy_ohm(starter);
  const LiveCurrents& i = state.currents;
  const RelayParameters& relay = parameters.relay;
  return eddy_W(pole, turn_ohm, movable_pole_gap_m(parameters, state.shoe.travel_m), state.fluxes.movable_Wb,
                turns * i.drive_A + starter.hold_in_turns * i.hold_in_A) +
         eddy_W(pole, turn_ohm, starter.seated_gap_m, state.fluxes.second_Wb, turns * i.field_2_A) +
         2.0 * eddy_W(pole, turn_ohm, starter.seated_gap_m, state.fluxes.third_and_fourth_Wb, turns * i.field_34_A) +
         eddy_W(relay_pole(relay), relay_eddy_ohm(relay), relay_gap_m(relay, state.relay.plunger.travel_m),
                state.fluxes.relay_Wb, relay.coil_turns * i.relay_coil_A);
}

}  // namespace voltfall
