#pragma once

#include "electrical/battery.h"
#include "electrical/contact.h"
#include "mechanical/drive_train.h"
#include "mechanical/engine.h"
#include "mechanical/sprung_slide.h"
#include "rig/relay.h"
#include "rig/wiring.h"

namespace voltfall {

/// Currents in the live branches, each positive along its branch in wiring.h.
struct LiveCurrents {
  double battery_A = 0.0, relay_coil_A = 0.0;
  double drive_A = 0.0, hold_in_A = 0.0, field_2_A = 0.0, field_34_A = 0.0, armature_A = 0.0;
};

/// Flux of each pole; poles 3 and 4 carry the same current and share one figure.
struct PoleFluxes {
  double movable_Wb = 0.0, second_Wb = 0.0, third_and_fourth_Wb = 0.0, relay_Wb = 0.0;
};

/// How the pinion and the ring gear are looked after: apart, in the contact world, or by the gear-lash law.
enum class Meshing { apart, in_contact_world, seated };

/// Everything that changes in the course of a run.
struct RigState {
  long steps = 0;
  LiveCurrents currents;
  LiveCurrents currents_per_s;  ///< how they changed over the last step: where the next solve begins to look
  PoleFluxes fluxes;
  PoleFluxes fluxes_per_s;
  ContactState relay_contact = ContactState::open;
  ContactState grounding_contacts = ContactState::closed;
  double relay_contact_A = 0.0, grounding_contacts_A = 0.0;
  ContactWear relay_wear, grounding_wear;
  Constriction relay_constriction{};
  BatteryState battery{};
  double filament_V = 0.0;
  RelayMechanism relay;
  SlideState shoe;
  DriveTrainState drive_train;
  EngineState engine;
  Meshing meshing = Meshing::apart;
  double tooth_position_m = 0.0;  ///< pinion tooth from a ring tooth, within half a pitch
  PartTemperatures temperatures{20.0};
};

}  // namespace voltfall
