#include "rig/readings.h"

namespace voltfall {

std::string_view id_of(CrankState state) {
  switch (state) {
    case CrankState::at_rest:
      return "at_rest";
    case CrankState::cranking:
      return "cranking";
    case CrankState::labouring:
      return "labouring";
    case CrankState::stalled:
      return "stalled";
    case CrankState::not_engaged:
      return "not_engaged";
    case CrankState::chattering:
      return "chattering";
    case CrankState::free_spin:
      return "free_spin";
    case CrankState::running:
      return "running";
    case CrankState::no_relay:
      break;
  }
  return "no_relay";
}

std::string_view id_of(RigEventKind kind) {
  switch (kind) {
    case RigEventKind::relay_closed:
      return "relay_closed";
    case RigEventKind::relay_opened:
      return "relay_opened";
    case RigEventKind::relay_arc:
      return "relay_arc";
    case RigEventKind::shoe_moved:
      return "shoe_moved";
    case RigEventKind::teeth_abutted:
      return "teeth_abutted";
    case RigEventKind::teeth_met:
      return "teeth_met";
    case RigEventKind::teeth_struck:
      return "teeth_struck";
    case RigEventKind::shoe_seated:
      return "shoe_seated";
    case RigEventKind::shoe_dropped:
      return "shoe_dropped";
    case RigEventKind::grounding_contacts_opened:
      return "grounding_contacts_opened";
    case RigEventKind::grounding_contacts_closed:
      return "grounding_contacts_closed";
    case RigEventKind::crank_turned:
      return "crank_turned";
    case RigEventKind::crank_stopped:
      return "crank_stopped";
    case RigEventKind::clutch_slipped:
      return "clutch_slipped";
    case RigEventKind::relay_bounced:
      return "relay_bounced";
    case RigEventKind::relay_welded:
      return "relay_welded";
    case RigEventKind::grounding_contacts_welded:
      return "grounding_contacts_welded";
    case RigEventKind::winding_burnt:
      return "winding_burnt";
    case RigEventKind::commutator_burnt:
      return "commutator_burnt";
    case RigEventKind::fusible_link_blown:
      return "fusible_link_blown";
    case RigEventKind::stray_path_burnt:
      return "stray_path_burnt";
    case RigEventKind::engine_fired:
      return "engine_fired";
    case RigEventKind::engine_running:
      return "engine_running";
    case RigEventKind::engine_stopped:
      return "engine_stopped";
    case RigEventKind::top_centre:
      break;
  }
  return "top_centre";
}

}  // namespace voltfall
