#pragma once

#include <vector>

#include "desktop/drawings/vehicle.h"
#include "session/session.h"

namespace voltfall {

/// How the vehicle moves on the screen between readings: cables thrown at the first surge, light that follows the
/// lamps slowly enough that nothing flashes (chatter becomes a steady mean).
class Motion {
 public:
  /// @param events  of the steps since the last call.
  void follow(const Session& session, const std::vector<RigEvent>& events, double frame_s, bool calm);

  VehicleLook look(const Session& session) const;

 private:
  double lamp_light_ = 0.0, dash_light_ = 0.0;
  double thrown_ = 0.0;  ///< amplitude of the cables' throw, 0 to 1
  double since_throw_s_ = 1.0e9;
  double rock_ = 0.0;
  double smoke_ = 0.0;
  double angle_deg_ = 0.0;
};

}  // namespace voltfall
