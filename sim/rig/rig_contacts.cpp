#include <cmath>

#include "rig/rig_parts.h"

namespace voltfall {
namespace {

// Metal burnt off by arcs leaves pits and oxide. A relay that breaks some 200 A at 2 J each opening gains 10 mohm in
// 15 000 openings, which is a starter relay's life (from memory).
constexpr double relay_burnt_ohm_per_J = 3.0e-7;
constexpr double grounding_burnt_ohm_per_J = 1.0e-7;

constexpr double bounce_s = 0.004;  // closed again sooner than this, it is the same closing

// An arc goes out as its current passes through zero; it does not strike again the other way.
bool goes_out(ContactState contact, double current_A, double solved_A) {
  return contact == ContactState::arcing && solved_A * current_A <= 0.0;
}

// Burning shows in the contact's resistance once it is a tenth of a milliohm more: one opening of a good relay is not a
// change of the vehicle.
void burn(ContactWear& wear, double arc_J, double burnt_ohm_per_J, double& contact_ohm) {
  constexpr double told_from_ohm = 1.0e-4;
  wear.burnt_J += arc_J;
  wear.warm_J += arc_J;
  const double burnt_ohm = burnt_ohm_per_J * wear.burnt_J;
  if (burnt_ohm < told_from_ohm) return;
  contact_ohm += burnt_ohm;
  wear.burnt_J = 0.0;
}

}  // namespace

// Faces that shut weld by the heat that arcs have left in them; faces that part have torn their weld.
void Rig::Parts::shut_or_part(ContactState& contact, bool touching, double current_A, ContactWear& wear) {
  const ContactState next = contact_next(contact, touching, current_A);
  if (next == contact) return;
  wear.weld_N = next == ContactState::closed ? weld_strength_N(wear.warm_J) : 0.0;
  last_contact_change_s = now_s();
  contact = next;
}

void Rig::Parts::move_contacts() {
  const ContactState relay_was = state.relay_contact;
  shut_or_part(state.relay_contact, relay_contacts_touch(parameters.relay, state.relay), state.relay_contact_A,
               state.relay_wear);
  if (state.relay_contact != relay_was) {
    wiring_stale = true;
    if (state.relay_contact == ContactState::closed) {
      tell(now_s() - relay_parted_s < bounce_s ? RigEventKind::relay_bounced : RigEventKind::relay_closed);
      state.relay_constriction = {parameters.relay.constriction_ohm, parameters.relay.constriction_ohm};
    }
    if (state.relay_contact == ContactState::arcing) tell(RigEventKind::relay_arc);
    if (relay_was == ContactState::closed) {
      tell(RigEventKind::relay_opened);
      relay_parted_s = now_s();
    }
  }

  const StarterParameters& starter = parameters.starter;
  const bool home = state.shoe.travel_m >= parameters.shoe.contacts_open_at * parameters.shoe.travel_m;
  const ContactState grounding_was = state.grounding_contacts;
  const bool pushed_apart = home && !grounding_weld_holds();
  const bool tips_touch =
      starter.grounding_contacts_stuck > 0.5 || (starter.grounding_contacts_stuck > -0.5 && !pushed_apart);
  shut_or_part(state.grounding_contacts, tips_touch, state.grounding_contacts_A, state.grounding_wear);
  if (state.grounding_contacts == grounding_was) return;
  if (state.grounding_contacts == ContactState::closed) tell(RigEventKind::grounding_contacts_closed);
  if (grounding_was == ContactState::closed) tell(RigEventKind::grounding_contacts_opened);
}

// A weld that the shoe, at the end of its travel, can't push apart stays for good.
bool Rig::Parts::grounding_weld_holds() {
  if (state.grounding_wear.weld_N <= 0.0 || state.grounding_contacts != ContactState::closed) return false;
  const double push_N = pull_N(starter_pole(parameters.starter), state.fluxes.movable_Wb) -
                        shoe_spring_N(parameters.shoe, state.shoe.travel_m);
  if (push_N > state.grounding_wear.weld_N) return false;
  if (parameters.starter.grounding_contacts_stuck <= 0.5) {
    parameters.starter.grounding_contacts_stuck = 1.0;
    tell(RigEventKind::grounding_contacts_welded);
  }
  return true;
}

// True when an arc could not last through the piece just solved: it is to be solved again without it.
bool Rig::Parts::put_out_arcs() {
  const Network& network = wiring.network;
  const bool relay = goes_out(state.relay_contact, state.relay_contact_A, network.amps(wiring.relay_contact));
  const bool grounding =
      goes_out(state.grounding_contacts, state.grounding_contacts_A, network.amps(wiring.grounding_contacts));
  if (relay) state.relay_contact = ContactState::open;
  if (grounding) state.grounding_contacts = ContactState::open;
  if (relay) set_resistances();
  return relay || grounding;
}

void Rig::Parts::carry_contacts() {
  const Network& network = wiring.network;
  state.relay_contact_A = network.amps(wiring.relay_contact);
  state.grounding_contacts_A = network.amps(wiring.grounding_contacts);
  if (state.relay_contact == ContactState::closed) {
    state.relay_constriction =
        constriction_after(state.relay_constriction, state.temperatures.relay_contact_C, state.relay_contact_A);
  }
}

void Rig::Parts::burn_contacts(bool relay_arcs, bool grounding_arcs, double relay_J, double grounding_J) {
  if (relay_arcs) burn(state.relay_wear, relay_J, relay_burnt_ohm_per_J, parameters.relay.contact_ohm);
  if (grounding_arcs) {
    burn(state.grounding_wear, grounding_J, grounding_burnt_ohm_per_J, parameters.starter.grounding_contacts_ohm);
  }
}

}  // namespace voltfall
