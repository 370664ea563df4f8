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
// A required safety step was missing at the moment of hazard: caps the result at 69.
inline constexpr std::string_view cranked_ignition_live = "cranked_ignition_live";
inline constexpr std::string_view cranked_brake_off = "cranked_brake_off";
inline constexpr std::string_view cranked_in_gear = "cranked_in_gear";
inline constexpr std::string_view no_eye_protection = "no_eye_protection";
// Hard on the equipment: points off, no cap.
inline constexpr std::string_view held_while_stalled = "held_while_stalled";
inline constexpr std::string_view cranked_too_long = "cranked_too_long";
inline constexpr std::string_view no_rest_after_long_crank = "no_rest_after_long_crank";
// A critical act: the record fails whatever follows.
inline constexpr std::string_view spark_at_battery = "spark_at_battery";

inline constexpr std::array all{
    job_is_closed,      not_in_kit,
    key_not_off,        nothing_on_display,
    reading_unsteady,   no_such_observation,
    no_crank_yet,       no_such_component,
    no_such_fault,      no_such_finding,
    no_such_repair,     too_much_evidence,
    name_first,         nothing_found_stands_alone,
    no_such_wait,       named,
    named_again,        repaired,
    negative_still_off, job_closed,
    time_passed,        cranked_ignition_live,
    cranked_brake_off,  cranked_in_gear,
    no_eye_protection,  held_while_stalled,
    cranked_too_long,   no_rest_after_long_crank,
    spark_at_battery,
};

}  // namespace voltfall::outcome
