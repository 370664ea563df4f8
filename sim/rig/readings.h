#pragma once

#include <array>
#include <cstdint>
#include <string>
#include <string_view>

#include "rig/test_points.h"

namespace voltfall {

/// What the vehicle is doing, in the words of the trade.
/// `running` is an engine that goes by itself.
enum class CrankState { at_rest, cranking, labouring, stalled, not_engaged, chattering, free_spin, no_relay, running };
std::string_view id_of(CrankState state);

enum class LampLook { off, bright, dim, out };

/// Worked out at the end of a step; never stored in the state.
struct Readings {
  double time_s = 0.0;
  std::array<double, test_point_count> node_V{};    ///< against battery -, by TestPoint
  std::array<double, heavy_cable_count> cable_A{};  ///< by HeavyCable
  double loop_A = 0.0;                              ///< out of the battery + post
  double crank_rpm = 0.0;
  double motor_rpm = 0.0;
  double shaft_Nm = 0.0;  ///< at the pinion, driving positive
  double shoe_travel_m = 0.0;
  double pinion_travel_m = 0.0;
  bool shoe_seated = false;
  bool meshed = false;
  bool relay_closed = false;
  bool grounding_contacts_closed = true;
  double lamp_light = 0.0;  ///< of full light; proportional to volts^3.4
  double lamp_V = 0.0;
  double crank_angle_deg = 0.0;
  double winding_C = 20.0;
  double hottest_joint_C = 20.0;

  double volts_at(TestPoint point) const { return node_V[static_cast<std::size_t>(point)]; }
  double amps_in(HeavyCable cable) const { return cable_A[static_cast<std::size_t>(cable)]; }
};

enum class RigEventKind : std::uint8_t {
  relay_closed,
  relay_bounced,  ///< shut again within the same closing
  relay_opened,
  relay_arc,
  relay_welded,
  shoe_moved,
  teeth_abutted,
  teeth_met,
  teeth_struck,  ///< the ring's next tooth after a gap caught the pinion
  shoe_seated,
  shoe_dropped,
  grounding_contacts_opened,
  grounding_contacts_closed,
  grounding_contacts_welded,
  crank_turned,
  crank_stopped,
  clutch_slipped,
  winding_burnt,  ///< insulation has begun to fail: the damage stays
  commutator_burnt,
  fusible_link_blown,
  stray_path_burnt,  ///< a control cable or thin lead between block, body and battery
  engine_fired,
  engine_running,
  engine_stopped,
  top_centre,
};
std::string_view id_of(RigEventKind kind);

struct RigEvent {
  double time_s;
  RigEventKind kind;
  int interval = 0;  ///< of a top centre: which of the engine's cycle, from 0
};

}  // namespace voltfall
