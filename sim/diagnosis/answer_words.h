#pragma once

#include <array>
#include <span>
#include <string_view>

#include "diagnosis/question.h"

// The words that questions are answered in, for the files of this folder that put, answer and predict them.

namespace voltfall {

inline constexpr std::string_view lamps_about = "lamps";

// What a person names first: the odd before the plain.
inline constexpr std::array<std::string_view, 14> sounds{
    "runs_on",        "chatter", "silence",   "whirr",     "thud_and_stop", "kicks_back",   "grind",
    "shoe_drops_out", "hum",     "one_clunk", "one_click", "slow_crank",    "uneven_crank", "normal_crank"};
inline constexpr std::array<std::string_view, 3> lamp_words{"lamps_bright", "lamps_dim", "lamps_out"};
inline constexpr std::array<std::string_view, 2> yes_or_no{"no", "yes"};
inline constexpr std::array<std::string_view, reading_answers> judgements{"not_telling", "below", "near", "inside",
                                                                          "above"};
inline constexpr std::array<std::string_view, 3> look_answers{"nothing", "a_sign", "plain_to_see"};
inline constexpr std::array<std::string_view, 6> bar_words{"bar_free",        "bar_hard",       "bar_one_soft",
                                                           "bar_stops_solid", "bar_liquid_out", "bar_locked"};
inline constexpr std::array<std::string_view, 2> wiggle_words{"firm", "moves"};
inline constexpr std::array<std::string_view, 3> warmth_words{"feels_cold", "feels_warm", "feels_hot"};
inline constexpr std::array<std::string_view, 3> glow_words{"lamp_bright", "lamp_dim", "lamp_dark"};
// Amperes by revolutions, as the trade's bench table sorts them (trade.md B step 13).
inline constexpr std::array<std::string_view, 6> no_load_words{"low_A_slow",   "low_A_fast",  "usual_A_slow",
                                                               "usual_A_fast", "high_A_slow", "high_A_fast"};
inline constexpr std::string_view engine_about = "engine", no_load_about = "no_load";

/// Felt for warmth after a crank, not wiggled or barred.
bool is_of_warmth(const Question& question);

/// -1 when it is none of them.
int index_in(std::span<const std::string_view> words, std::string_view word);

/// The words a question is answered in; the judgements of a reading for one that has none of its own.
std::span<const std::string_view> words_for(const Question& question);

/// What a look showed, as an index into `look_answers`.
int look_answer(std::string_view look);

}  // namespace voltfall
