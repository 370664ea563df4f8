#include "desktop/bay/caption.h"

#include <fmt/format.h>

#include <algorithm>

namespace voltfall {
namespace {

double hottest_C(const Session& session) {
  const Readings& readings = session.rig().readings();
  return std::max(readings.winding_C, readings.hottest_joint_C);
}

std::string lamps_beside(const Session& session) {
  switch (session.lamp_look()) {
    case LampLook::off:
      return "";
    case LampLook::bright:
      return " Lamps bright.";
    case LampLook::dim:
      return " Lamps dim.";
    case LampLook::out:
      return " Lamps out.";
  }
  return "";
}

// With the key not at start: an engine may run, or a welded relay keep the starter going.
std::string released_words(const Session& session) {
  const std::string key = session.controls().key == KeyPosition::on ? "Key on. " : "Key off. ";
  switch (session.crank_state()) {
    case CrankState::at_rest:
      return key + "Quiet.";
    case CrankState::running:
      return key + "The engine runs.";
    default:
      return key + "The starter goes on by itself.";
  }
}

std::string starting_words(const Session& session) {
  const Readings& readings = session.rig().readings();
  switch (session.crank_state()) {
    case CrankState::cranking:
      return "The engine turns evenly.";
    case CrankState::labouring:
      return "The engine turns, labouring.";
    case CrankState::stalled:
      return "A clunk. The engine does not turn.";
    case CrankState::not_engaged:
      return readings.relay_closed ? "One click. The engine does not turn." : "A click.";
    case CrankState::chattering:
      return fmt::format("Chattering, {:.0f} a second.", session.closings_per_s());
    case CrankState::free_spin:
      return "A whirr. The engine does not turn.";
    case CrankState::running:
      return "The engine has started. Release the key.";
    case CrankState::no_relay:
      return "Not a sound.";
    case CrankState::at_rest:
      return "Key at start.";
  }
  return "";
}

}  // namespace

bool is_hot(const Session& session) {
  return hottest_C(session) > hot_C;
}

Caption caption_of(const Session& session) {
  Caption caption;
  const bool starting = session.controls().key == KeyPosition::start;
  const CrankState state = session.crank_state();
  caption.words = (starting ? starting_words(session) : released_words(session)) + lamps_beside(session);
  caption.chattering = starting && state == CrankState::chattering;
  const bool still = state == CrankState::stalled || state == CrankState::not_engaged || caption.chattering;
  const auto& crank = session.last_crank();
  if (starting && still && crank && crank->held_s > 2.0) {
    caption.advice = "It does not turn: release the key at once, it draws hundreds of A.";
    caption.danger = true;
  } else if (starting && crank && crank->held_s > 15.0) {
    caption.advice = "15 s is enough: release the key, rest it for 2 min.";
    caption.danger = true;
  } else if (state == CrankState::running) {
    caption.advice = "The ignition is live. Key off, then disable it.";
  } else if (session.rig().readings().winding_C > smoking_C) {
    caption.advice = "Smoke from the starter. Let it cool.";
    caption.danger = true;
  } else if (is_hot(session)) {
    caption.advice = "A hot smell. Let it cool before the next crank.";
  }
  return caption;
}

}  // namespace voltfall
