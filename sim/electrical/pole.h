#pragma once

namespace voltfall {

/// One magnetic pole: an iron core that saturates, in series with an air gap. One function gives the flux; pull, stored
/// energy and back-emf all follow from it, so that the books balance.
///
///     ampere-turns   F(flux, gap) = B gap / mu0 + B iron / (mu0 (1 - (B / Bs)^2)),    B = flux / area
///     stored energy  W(flux, gap) = integral of F dflux at constant gap
///     pull           P(flux)      = -dW/dgap = B^2 area / (2 mu0)           (Maxwell; values.md 10, S1 and S2)
struct PoleParameters {
  double area_m2;
  double iron_gap_m;    ///< reluctance of the unsaturated iron as a length of air, above 0
  double saturation_T;  ///< B never reaches this
};

double ampere_turns(const PoleParameters& pole, double flux_Wb, double air_gap_m);
/// dF/dflux at constant gap, always positive.
double ampere_turns_per_Wb(const PoleParameters& pole, double flux_Wb, double air_gap_m);
double stored_J(const PoleParameters& pole, double flux_Wb, double air_gap_m);
double pull_N(const PoleParameters& pole, double flux_Wb);

/// Solid iron carries one shorted eddy turn:  dflux/dt = eddy_ohm (ampere_turns applied - F(flux, gap)).
/// The turn's resistance for a pole whose unsaturated flux, at this gap, lags by `time_constant_s`.
double eddy_ohm(const PoleParameters& pole, double air_gap_m, double time_constant_s);

/// Flux at the end of a step (backward Euler) and its slope against the applied ampere-turns.
struct FluxStep {
  double flux_Wb;
  double Wb_per_ampere_turn;
};

/// A pole over a step of this length: poles of one iron share it, and what neither flux nor gap changes is worked out
/// once for all of them.
class PoleStep {
 public:
  PoleStep(const PoleParameters& pole, double eddy_turn_ohm, double dt_s);
  FluxStep flux_after(double air_gap_m, double flux_before_Wb, double applied_ampere_turns, double guess_Wb) const;

 private:
  double iron_gap_m_, most_Wb_, per_most_;
  double gain_;        ///< Wb per ampere-turn left over for eddy currents
  double gain_per_m_;  ///< the same as a share of the flux, per metre of air
};

}  // namespace voltfall
