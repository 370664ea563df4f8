#pragma once

#include <memory>
#include <optional>

#include "outside/independent_integrator_model.h"

namespace voltfall {

/// The engaged motor integrated by SUNDIALS' CVODE: implicit multistep (BDF) of order and step of its own choosing,
/// valves found as roots.
class IndependentIntegrator {
 public:
  static constexpr double tolerance = 1.0e-8;  ///< of each of its steps, relative

  /// Begins at the rig's state. Throws std::invalid_argument if the motor is not engaged in it.
  /// `pile_ohm`: a carbon pile across the battery's posts, if any.
  IndependentIntegrator(const RigParameters& parameters, const RigState& from, const LoadParameters& load = {},
                        std::optional<double> pile_ohm = {}, double relative_tolerance = tolerance);
  ~IndependentIntegrator();
  IndependentIntegrator(const IndependentIntegrator&) = delete;
  IndependentIntegrator& operator=(const IndependentIntegrator&) = delete;

  /// Goes on by `span_s` and tells what the gauges then show. Throws std::runtime_error if CVODE gives up.
  EngagedMotorModel::Outputs after(double span_s);
  /// Temperatures and the battery's figures, which the rig holds for a tenth of a second at a time, move on.
  void warm_to(const RigState& state);

  int valves_passed() const;
  long own_steps() const;

 private:
  struct Solver;
  std::unique_ptr<Solver> solver_;
};

}  // namespace voltfall
