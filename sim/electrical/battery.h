#pragma once

namespace voltfall {

struct BatteryParameters {
  double charge = 1.0;            ///< state of charge when the key is first turned, 0 to 1
  double rated_CCA_A = 640.0;     ///< SAE J537 rating
  double capacity_Ah = 62.0;      ///< at the 20 h rate, new
  double health = 1.0;            ///< 1 new; resistance goes as 1/health, capacity as health
  double shorted_cells = 0.0;     ///< cells of six that give no volts
  double internal_ohm = 0.0;      ///< a cracked strap between cells, in series
  double surface_charge_V = 0.0;  ///< above the rested volts, fresh off a charger or a drive
  double acid_level = 1.0;        ///< share of the plates' height that is wetted
  double ice = 0.0;               ///< share of the acid frozen since the night, whatever the temperature is now

  bool operator==(const BatteryParameters&) const = default;
};

/// What changes in a battery. Acid is kept in units of charge at three places: `charge` is what the whole battery
/// holds, between the plates it is used up over minutes, in the plates' pores within seconds.
struct BatteryState {
  double charge;               ///< 0 to 1
  double between_plates_acid;  ///< lags behind the charge: what a long heavy load can get at
  double near_plate_acid;      ///< in the pores; starves under heavy load
  double fast_V, slow_V;       ///< over the two polarisation branches
  double surface_V;            ///< surface charge: goes with some 60 A s, or with half an hour
  double temperature_C;
};

BatteryState rested_battery(const BatteryParameters& battery, double temperature_C);
/// The state after `wait_s` with nothing drawn: acid evens out, polarisation and surface charge go.
BatteryState battery_rested_for(const BatteryState& state, double wait_s);

/// Specific gravity of the acid at 26.7 °C: 1.265 full to 1.120 flat (values.md section 0).
double specific_gravity(double charge);
/// Temperature at which acid of this charge begins to freeze: -59.5 °C full to -9.4 °C flat (values.md section 0).
double freezing_point_C(double charge);

/// Rested, by charge and temperature, all cells sound: 12.65 V full to 11.89 V flat (values.md 1.1 B), +2 mV/K from 25
/// °C (within the 1 to 4.5 mV/K of 1.2).
double open_circuit_V(const BatteryParameters& battery, double charge, double temperature_C);

/// Ohmic part alone. Scaled from the rating: at 25 °C and full about 2.35 V / CCA; rises in the cold and with
/// discharge.
double ohmic_ohm(const BatteryParameters& battery, double charge, double temperature_C);

/// What charge and temperature make of a battery's figures. They change slowly; the rig works them out anew now and
/// then.
struct BatteryFigures {
  double open_circuit_V;
  double ohmic_ohm, fast_ohm, slow_ohm;
  double charging_ohm;                ///< felt by a current into the battery only
  double acid_per_As;                 ///< drawn from the plates' pores, in units of charge
  double between_plates_acid_per_As;  ///< drawn from between the plates
  double rested_acid;
  double capacity_As;
};
BatteryFigures battery_figures(const BatteryParameters& battery, double charge, double temperature_C);

/// A battery seen from its posts for one step: post volts = emf_V - series_ohm x current - loss(current), the linear
/// parts gathered into a companion model, the starving plates left for the caller's iteration.
struct BatteryStep {
  double emf_V;
  double series_ohm;
};
BatteryStep battery_step(const BatteryFigures& figures, const BatteryState& state, double dt_s);

/// Loss at the plates at the end of a step with this current, and its slope. Discharging, acid is used up faster than
/// it diffuses in: the loss grows without bound as it runs out, which is what limits the current of a flat battery. On
/// charge a full battery takes little: its plates ask for volts instead.
struct StarvingLoss {
  double loss_V;
  double ohm;
};
StarvingLoss starving_loss(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s);

/// The state after a step with this current (positive discharging).
BatteryState battery_after(const BatteryFigures& figures, const BatteryState& state, double current_A, double dt_s);

}  // namespace voltfall
