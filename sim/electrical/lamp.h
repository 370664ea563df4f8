#pragma once

namespace voltfall {

/// A filament lamp rated in watts at 12.8 V. Settled current goes as V^0.55 and light as V^3.4 (values.md section 8);
/// a cold filament has about a twelfth of its hot resistance.
double lamp_ohm(double rated_W, double filament_V);
double lamp_light(double filament_V);

/// The filament's temperature follows the volts with a lag; this is the volts it glows for.
double filament_after_V(double filament_V, double lamp_V, double dt_s);

}  // namespace voltfall
