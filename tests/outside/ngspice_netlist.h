#pragma once

#include <string>
#include <string_view>

namespace voltfall {

/// A netlist for ngspice, written line by line. Values stand in SI units; a node's voltage may stand for something else
/// (a speed in rad/s, a travel in mm, a temperature in °C), and then a capacitor to ground is the integrator.
class Netlist {
 public:
  explicit Netlist(std::string_view title);

  void comment(std::string_view words);
  void line(const std::string& words);
  void resistor(std::string_view name, std::string_view from, std::string_view to, double ohm);
  /// A current, as an expression, through a source from one node to another.
  void current(std::string_view name, std::string_view from, std::string_view to, const std::string& amperes);
  void volts(std::string_view name, std::string_view from, std::string_view to, const std::string& volts);
  /// Node whose voltage is the integral of `rate` over `per_V` from `start`.
  void integral(std::string_view node, double per_V, double start, const std::string& rate);

  const std::string& text() const { return text_; }

 private:
  std::string text_;
};

/// A coil: copper, leakage and the volts of turns round a pole whose one turn stands at node `turn_<pole>`. Its current
/// is that of the zero-volt source V<name>.
struct CoilText {
  std::string_view name, from, to;
  std::string ohm;  ///< an expression
  double leakage_H;
  double turns;
  std::string_view pole;
};
void write_coil(Netlist& netlist, const CoilText& coil);

/// One pole in iron with a shorted eddy turn. Node `tesla_<name>` is its flux density B, `turn_<name>` the volts of one
/// turn:
///     area dB/dt = eddy_ohm (ampere_turns - B/mu0 (gap + iron / (1 - (B/Bs)^2)))
struct PoleText {
  std::string_view name;
  double area_m2, iron_gap_m, saturation_T, eddy_ohm;
  std::string gap_m, ampere_turns;  ///< expressions
};
void write_pole(Netlist& netlist, const PoleText& pole);
/// Maxwell's pull, B^2 area / (2 mu0), as an expression in N.
std::string pull_text(std::string_view pole, double area_m2);

/// A stop as an expression in N: a stiff spring going in, softer by `restitution` squared coming out, so that just that
/// share of the speed is given back.
/// @param pressed_mm,closing expressions: how deep it is pressed, not below 0, and the speed into it
std::string stop_text(double N_per_m, double restitution, const std::string& pressed_mm, const std::string& closing);

/// A mass that slides between two stops: node `<name>` is its travel in mm, `<name>_speed` its speed in m/s.
struct SlideText {
  std::string_view name;
  double mass_kg, travel_m, friction_N, damping_Ns_per_m, restitution;
  double stop_s;       ///< about as long as a stop takes to turn it round
  std::string push_N;  ///< an expression: magnet less springs, away from rest
};
void write_slide(Netlist& netlist, const SlideText& slide);

/// A current through metal that touches or not: `touching`, an expression from 0 to 1, moves the conductance from open
/// to closed by equal factors, so that ngspice finds its way through all the powers of ten between.
std::string switch_text(const std::string& volts, double closed_ohm, double open_ohm, std::string_view touching);

/// A pair of contacts. Open, only the insulation conducts until the volts reach those of an arc; above that, the arc
/// does. (An arc that has gone out can't strike again here, either: the battery has less than its volts.)
struct ContactText {
  std::string_view name, from, to;
  std::string touching, arc_V;  ///< expressions
  double closed_ohm, open_ohm, arc_ohm;
};
void write_contact(Netlist& netlist, const ContactText& contact);

/// The square of an expression. ngspice begins a shortened step from wherever the failed one had strayed to, and gives
/// up when that overflows: so no square goes beyond what a circuit can reach.
std::string square_text(const std::string& value);

/// 1 once `value` lies more than `width` above `threshold`, 0 at it, a ramp between.
std::string past_text(const std::string& value, double threshold, double width);

/// A part that warms as one lump: node `celsius_<name>` is its temperature.
void write_lump(Netlist& netlist, std::string_view name, double J_per_K, double cooling_s, double ambient_C,
                const std::string& watts);
/// Copper at the lump's temperature, as an expression in ohm.
std::string copper_text(double ohm_at_20C, std::string_view lump);

}  // namespace voltfall
