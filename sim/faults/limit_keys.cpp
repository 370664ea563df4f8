#include "faults/limit_keys.h"

#include <algorithm>
#include <array>

namespace voltfall {
namespace {

// A stalled movable-shoe starter behind a bad joint draws less than a turning one and a healthy one draws 160 to 210 A,
// so drops are judged from 80 A. Above 400 A only the first surge is left, which no manual's figure is meant for.
constexpr double load_from_A = 80.0;
constexpr double load_to_A = 400.0;

constexpr auto drop = LimitKind::drop;
constexpr auto key_start = MeasuredAt::key_start;

// Figures: trade practice for 12 V cars, the middle of what printed manuals allow (0.1 to 0.2 V a leg, 0.3 V for a
// separate relay, 0.1 V for any one switch or wire of the control side, 9.6 V at the posts).
constexpr std::array keys{
    LimitKey{"battery_rest", LimitKind::floor, MeasuredAt::rest, 12.4, 0.0, 1.0, "battery posts, rested, nothing on"},
    LimitKey{"battery_cranking", LimitKind::floor, key_start, 9.6, load_from_A, load_to_A,
             "battery posts while the starter draws"},
    LimitKey{"starter_cranking", LimitKind::floor, key_start, 9.3, load_from_A, load_to_A,
             "starter terminal to starter case while cranking"},
    LimitKey{"positive_side", drop, key_start, 0.3, load_from_A, load_to_A, "battery + post to relay battery stud"},
    LimitKey{"insulated_side", drop, key_start, 0.5, load_from_A, load_to_A, "battery + post to starter terminal"},
    LimitKey{"ground_side", drop, key_start, 0.3, load_from_A, load_to_A, "starter case to battery - post"},
    LimitKey{"post_to_clamp", drop, key_start, 0.05, load_from_A, load_to_A, "a battery post to its own clamp"},
    LimitKey{"cable", drop, key_start, 0.2, load_from_A, load_to_A, "one heavy cable, end to end"},
    LimitKey{"joint", drop, key_start, 0.1, load_from_A, load_to_A, "a cable lug to the stud it is bolted to"},
    LimitKey{"relay_contact", drop, key_start, 0.3, load_from_A, load_to_A, "stud to stud across the closed relay"},
    LimitKey{"mounting_face", drop, key_start, 0.1, load_from_A, load_to_A, "starter case to engine block"},
    LimitKey{"block_lug", drop, key_start, 0.1, load_from_A, load_to_A, "engine block to the negative cable's lug"},
    // The control side and the strap are judged from no current up: what is open has the volts and no amperes.
    LimitKey{"control_side", drop, key_start, 0.5, 0.0, load_to_A, "battery + post to the relay's S terminal"},
    LimitKey{"control_leg", drop, key_start, 0.1, 0.0, load_to_A, "any one switch, plug or wire of the control side"},
    LimitKey{"coil_ground", drop, key_start, 0.1, 0.0, load_to_A, "relay case to body"},
    LimitKey{"strap", drop, key_start, 0.1, 0.0, load_to_A, "body to engine block"},
    LimitKey{"released", drop, MeasuredAt::rest, 0.5, 0.0, load_to_A,
             "relay motor stud to battery - post with the key let go"},
    LimitKey{"relay_coil", LimitKind::ohms, MeasuredAt::power_off, 5.0, 0.0, 0.5, "S terminal to relay case"},
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
