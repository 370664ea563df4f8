#pragma once

#include <memory>
#include <vector>

#include "rig/controls.h"
#include "rig/parameters.h"
#include "rig/readings.h"
#include "rig/state.h"

namespace voltfall {

/// Where every joule has gone since the start; see `closure_error_J`.
struct EnergyLedger {
  double battery_out_J = 0.0;     ///< delivered at the posts (or by the supply)
  double instruments_in_J = 0.0;  ///< put in by ohmmeters
  double alternator_in_J = 0.0;   ///< put in once the engine runs
  double resistive_heat_J = 0.0;  ///< every cable, joint, switch, winding, lamp and leak
  double brush_heat_J = 0.0;
  double arc_heat_J = 0.0;
  double eddy_heat_J = 0.0;
  double clutch_heat_J = 0.0;
  double tooth_heat_J = 0.0;             ///< impact, friction and mesh damping
  double shoe_and_plunger_heat_J = 0.0;  ///< friction, damping and stops
  double starter_friction_J = 0.0;
  double engine_friction_J = 0.0;
  double gas_work_J = 0.0;   ///< net into the gas: held, leaked and lost as heat
  double load_work_J = 0.0;  ///< into the test stand's brake
  double stored_magnetic_J = 0.0;
  double stored_kinetic_J = 0.0;
  double stored_spring_J = 0.0;
  double stored_at_start_J = 0.0;  ///< above 0 only for a rig that goes on from another's state

  double stored_J() const { return stored_magnetic_J + stored_kinetic_J + stored_spring_J; }
  /// In less out less stored: 0 when the books balance.
  double closure_error_J() const;
};

/// Whether a rig keeps account of its energy: who only looks at readings saves the time.
enum class Books { kept, closed };

/// The whole vehicle: parts joined, stepped together. Parameters that contradict each other (`contradiction_in`) throw
/// std::invalid_argument. Same parameters, resting place and controls give the same bits.
class Rig {
 public:
  static constexpr double step_s = 2.0e-4;

  explicit Rig(const RigParameters& parameters, const RestingPlace& rest = {}, const LoadParameters& load = {},
               double dt_s = step_s, Books books = Books::kept);
  /// Goes on from a state that a rig of these parameters was in; books and readings begin anew.
  Rig(const RigState& from, const RigParameters& parameters, const LoadParameters& load = {}, double dt_s = step_s,
      Books books = Books::kept);
  ~Rig();
  Rig(Rig&&) noexcept;
  Rig& operator=(Rig&&) noexcept;

  /// Advances by one fixed step: the circuit is solved at one instant, then everything moves.
  void step(const Controls& controls);

  /// Lets `wait_s` go by with the key off: parts cool, the battery recovers and gives what is drawn with the key off
  /// (`body.drain_A`, headlamps left on, a chafed cable), nothing turns. Coarse; for minutes and hours.
  void rest(double wait_s);

  /// A repair or a part fitted: new parameters, same temperatures and resting place. The battery keeps the charge that
  /// it has, unless it was charged or renewed (or the parameters name another charge): then it has the parameters'.
  void refit(const RigParameters& parameters, bool battery_charged = false);

  const RigParameters& parameters() const;
  const RigState& state() const;
  const Readings& readings() const;
  /// Throws std::logic_error when no books are kept.
  const EnergyLedger& energy() const;

  /// Worst Kirchhoff residual of the last step in amperes, and the largest branch current it stands against.
  double kirchhoff_residual_A() const;
  double largest_branch_A() const;

  /// Events since the last call.
  std::vector<RigEvent> take_events();

 private:
  struct Parts;
  std::unique_ptr<Parts> parts_;
};

}  // namespace voltfall
