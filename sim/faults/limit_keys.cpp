#include "faults/limit_keys.h"

#include <algorithm>
#include <array>

namespace voltfall {
namespace {

// A stalled movable-shoe starter behind a bad joint draws less than a turning one and a healthy one draws 160 to 210 A,
// so drops are judged from 80 A. Above 400 A only the first surge is left, which no manual's figure is meant for.
constexpr double load_from_A = 80.0;
constexpr double load_to_A = 400.0;
constexpr double any_A = 2000.0;

constexpr double none = 0.0;
using enum MeasuredAt;

// Figures: trade practice for 12 V cars, the middle of what printed manuals allow (0.1 to 0.2 V a leg, 0.3 V for a
// separate relay, 0.1 V for any one switch or wire of the control side, 9.6 V at the posts; specific gravity of three
// quarters of a charge; 50 lb-ft held by a clutch; brushes renewed at a quarter of an inch; 2.0 to 3.5 ohm of hold-in
// coil). A joint's rise is what no sound one comes near by this model: a joint at its own limit of volts gives 20 W,
// and that is 2 K seen on bright metal. Widths of "near": half a per cent and two counts of a handheld meter, and the
// spread of sound joints, from memory.
constexpr std::array keys{
    LimitKey{"battery_rest", "V", 12.4, none, rest, 0.0, 1.0, 0.05, "battery posts, rested, nothing on"},
    LimitKey{"battery_cranking", "V", 9.6, none, key_start, load_from_A, load_to_A, 0.15,
             "battery posts while the starter draws"},
    LimitKey{"starter_cranking", "V", 9.3, none, key_start, load_from_A, load_to_A, 0.2,
             "starter terminal to starter case while cranking"},
    LimitKey{"positive_side", "V", none, 0.3, key_start, load_from_A, load_to_A, 0.03,
             "battery + post to relay battery stud"},
    LimitKey{"insulated_side", "V", none, 0.5, key_start, load_from_A, load_to_A, 0.05,
             "battery + post to starter terminal"},
    LimitKey{"ground_side", "V", none, 0.3, key_start, load_from_A, load_to_A, 0.03, "starter case to battery - post"},
    LimitKey{"post_to_clamp", "V", none, 0.05, key_start, load_from_A, load_to_A, 0.01,
             "a battery post to its own clamp"},
    LimitKey{"cable", "V", none, 0.2, key_start, load_from_A, load_to_A, 0.02, "one heavy cable, end to end"},
    LimitKey{"joint", "V", none, 0.1, key_start, load_from_A, load_to_A, 0.015,
             "a cable lug to the stud it is bolted to"},
    LimitKey{"relay_contact", "V", none, 0.3, key_start, load_from_A, load_to_A, 0.03,
             "stud to stud across the closed relay"},
    LimitKey{"mounting_face", "V", none, 0.1, key_start, load_from_A, load_to_A, 0.015, "starter case to engine block"},
    LimitKey{"block_lug", "V", none, 0.1, key_start, load_from_A, load_to_A, 0.015,
             "engine block to the negative cable's lug"},
    // The control side and the strap are judged from no current up: what is open has the volts and no amperes.
    LimitKey{"control_side", "V", none, 0.5, key_start, 0.0, load_to_A, 0.05,
             "battery + post to the relay's S terminal"},
    LimitKey{"control_leg", "V", none, 0.1, key_start, 0.0, load_to_A, 0.015,
             "any one switch, plug or wire of the control side"},
    LimitKey{"coil_ground", "V", none, 0.1, key_start, 0.0, load_to_A, 0.015, "relay case to body"},
    LimitKey{"strap", "V", none, 0.1, key_start, 0.0, load_to_A, 0.015, "body to engine block"},
    LimitKey{"released", "V", none, 0.5, rest, 0.0, load_to_A, 0.05,
             "relay motor stud to battery - post with the key let go"},
    LimitKey{"relay_coil", "ohm", 2.5, 5.0, power_off, 0.0, 0.5, 0.2, "S terminal to relay case"},
    LimitKey{"closed_path", "ohm", none, 0.5, power_off, 0.0, 0.5, 0.15, "any one wire, link, plug or strap"},
    LimitKey{"cranking_current", "A", 160, 210, key_start, 0.0, any_A, 8, "clamp round a heavy cable, engine turning"},
    LimitKey{"cranking_speed", "rpm", 140, 250, key_start, 0.0, any_A, 8, "crankshaft, warm"},
    LimitKey{"joint_rise", "K", none, 6, key_start, 0.0, any_A, 1.5,
             "a bolted joint or heavy cable end above the air after 10 s of cranking"},
    LimitKey{"battery_load_test", "V", 9.6, none, load_test, 0.0, any_A, 0.1,
             "battery posts at half the cold cranking rating for 15 s, at 21 °C"},
    LimitKey{"battery_gravity", "", 1.225, none, rest, 0.0, 1.0, 0.007, "any one cell"},
    LimitKey{"battery_cold_amps", "", 0.75, none, rest, 0.0, 1.0, 0.05, "share of the rating"},
    LimitKey{"no_load_current", "A", 50, 90, bench, 0.0, any_A, 4, "starter running free at 12 V"},
    LimitKey{"no_load_speed", "rpm", 5000, none, bench, 0.0, any_A, 300, "starter running free at 12 V"},
    LimitKey{"hold_in_coil", "ohm", 2.0, 3.5, bench, 0.0, any_A, 0.1,
             "terminal to frame, grounding contacts papered, brushes lifted"},
    LimitKey{"clutch_torque", "N·m", 68, none, bench, 0.0, any_A, 3, "held by the clutch in its driving direction"},
    LimitKey{"brush_length", "mm", 6.4, none, bench, 0.0, any_A, 0.3, "shortest brush"},
};

}  // namespace

std::span<const LimitKey> all_limit_keys() {
  return keys;
}

const LimitKey* limit_key_named(std::string_view id) {
  const auto found = std::find_if(keys.begin(), keys.end(), [&](const LimitKey& key) { return key.id == id; });
  return found == keys.end() ? nullptr : &*found;
}

}  // namespace voltfall
