#pragma once

#include <array>
#include <string_view>

namespace voltfall::outcome {

// Everything a session can answer to an action. The wording lives in the language file under [outcome].
inline constexpr std::string_view job_is_closed = "job_is_closed";
inline constexpr std::string_view not_in_kit = "not_in_kit";
inline constexpr std::string_view key_not_off = "key_not_off";
inline constexpr std::string_view nothing_on_display = "nothing_on_display";
inline constexpr std::string_view reading_unsteady = "reading_unsteady";
inline constexpr std::string_view no_such_observation = "no_such_observation";
inline constexpr std::string_view no_crank_yet = "no_crank_yet";
inline constexpr std::string_view no_such_component = "no_such_component";
inline constexpr std::string_view no_such_fault = "no_such_fault";
inline constexpr std::string_view no_such_finding = "no_such_finding";
inline constexpr std::string_view no_such_repair = "no_such_repair";
inline constexpr std::string_view too_much_evidence = "too_much_evidence";
inline constexpr std::string_view name_first = "name_first";
inline constexpr std::string_view nothing_found_stands_alone = "nothing_found_stands_alone";
inline constexpr std::string_view no_such_wait = "no_such_wait";
inline constexpr std::string_view named = "named";
inline constexpr std::string_view named_again = "named_again";
inline constexpr std::string_view repaired = "repaired";
inline constexpr std::string_view negative_still_off = "negative_still_off";
inline constexpr std::string_view job_closed = "job_closed";
inline constexpr std::string_view time_passed = "time_passed";
inline constexpr std::string_view wrong_points = "wrong_points";
inline constexpr std::string_view not_hung = "not_hung";
inline constexpr std::string_view fuse_is_whole = "fuse_is_whole";
inline constexpr std::string_view battery_not_at_rest = "battery_not_at_rest";
inline constexpr std::string_view no_such_cell = "no_such_cell";
inline constexpr std::string_view no_such_channel = "no_such_channel";
inline constexpr std::string_view no_such_load = "no_such_load";
inline constexpr std::string_view no_such_span = "no_such_span";
inline constexpr std::string_view channel_1_open = "channel_1_open";
inline constexpr std::string_view no_clutch_pedal = "no_clutch_pedal";
inline constexpr std::string_view no_park = "no_park";
inline constexpr std::string_view starter_is_off = "starter_is_off";
inline constexpr std::string_view starter_is_on = "starter_is_on";
inline constexpr std::string_view engine_turns = "engine_turns";
inline constexpr std::string_view not_put_together = "not_put_together";
inline constexpr std::string_view still_hung = "still_hung";
// A required safety step was missing at the moment of hazard: caps the result at 69.
inline constexpr std::string_view cranked_ignition_live = "cranked_ignition_live";
inline constexpr std::string_view cranked_brake_off = "cranked_brake_off";
inline constexpr std::string_view cranked_in_gear = "cranked_in_gear";
inline constexpr std::string_view no_eye_protection = "no_eye_protection";
// Hard on the equipment: points off, no cap.
inline constexpr std::string_view held_while_stalled = "held_while_stalled";
inline constexpr std::string_view cranked_too_long = "cranked_too_long";
inline constexpr std::string_view no_rest_after_long_crank = "no_rest_after_long_crank";
inline constexpr std::string_view burnt_hand = "burnt_hand";
inline constexpr std::string_view load_held_too_long = "load_held_too_long";
inline constexpr std::string_view jumper_on_heavy_studs = "jumper_on_heavy_studs";
// A critical act: the record fails whatever follows.
inline constexpr std::string_view spark_at_battery = "spark_at_battery";
inline constexpr std::string_view studs_bridged = "studs_bridged";
inline constexpr std::string_view battery_shorted = "battery_shorted";
inline constexpr std::string_view amps_across_battery = "amps_across_battery";
inline constexpr std::string_view bypass_in_gear = "bypass_in_gear";
inline constexpr std::string_view vehicle_moved = "vehicle_moved";
inline constexpr std::string_view cranked_hydrolocked = "cranked_hydrolocked";
inline constexpr std::string_view frozen_battery = "frozen_battery";

inline constexpr std::array all{
    job_is_closed,
    not_in_kit,
    key_not_off,
    nothing_on_display,
    reading_unsteady,
    no_such_observation,
    no_crank_yet,
    no_such_component,
    no_such_fault,
    no_such_finding,
    no_such_repair,
    too_much_evidence,
    name_first,
    nothing_found_stands_alone,
    no_such_wait,
    named,
    named_again,
    repaired,
    negative_still_off,
    job_closed,
    time_passed,
    cranked_ignition_live,
    cranked_brake_off,
    cranked_in_gear,
    no_eye_protection,
    held_while_stalled,
    cranked_too_long,
    no_rest_after_long_crank,
    spark_at_battery,
    wrong_points,
    not_hung,
    fuse_is_whole,
    battery_not_at_rest,
    no_such_cell,
    no_such_channel,
    no_such_load,
    no_such_span,
    channel_1_open,
    no_clutch_pedal,
    no_park,
    starter_is_off,
    starter_is_on,
    engine_turns,
    not_put_together,
    still_hung,
    burnt_hand,
    load_held_too_long,
    jumper_on_heavy_studs,
    studs_bridged,
    battery_shorted,
    amps_across_battery,
    bypass_in_gear,
    vehicle_moved,
    cranked_hydrolocked,
    frozen_battery,
};

}  // namespace voltfall::outcome
