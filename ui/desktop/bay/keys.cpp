#include "desktop/bay/keys.h"

#include <fmt/format.h>

#include <SFML/Window/Keyboard.hpp>
#include <array>

#include "desktop/bay/close_up.h"
#include "desktop/bay/entry.h"
#include "desktop/kit/kit_parts.h"
#include "desktop/rail/rail.h"
#include "desktop/style/key_list.h"
#include "desktop/vehicle_kind.h"

namespace voltfall {
namespace {

constexpr std::array uses{
    KeyUse{"hold C", "turn the key to start; let go and it springs back"},
    KeyUse{"K", "key off or on"},
    KeyUse{"1  2  3  4", "crank for 2, 5, 10, 15 s"},
    KeyUse{"R  or  B", "red or black lead: then a number or a name, Enter"},
    KeyUse{"\u2190  \u2192", "walk the lead moved last along the circuit"},
    KeyUse{"A", "clamp round a cable: its name, Enter"},
    KeyUse{"D", "the instrument in hand: its points, typed or clicked"},
    KeyUse{"hold U", "press the remote switch"},
    KeyUse{"N", "note the meter's reading (Shift+N: the one in hand)"},
    KeyUse{"V", "look closely at the chosen point's part (1 min)"},
    KeyUse{"Z", "close-up of the chosen point"},
    KeyUse{"E  P  I", "make safe: eye protection, parking brake, ignition lead off"},
    KeyUse{"H  F", "headlamps; clutch pedal of a manual gearbox"},
    KeyUse{"T", "the Kit tab"},
    KeyUse{"O", "close out, or back to the vehicle"},
    KeyUse{"hold L", "names of all points"},
    KeyUse{"M", "calm motion: no shake, no smoke"},
    KeyUse{"Tab", "walk the keys on the sheet; Enter or Space presses"},
    KeyUse{"Esc", "leave an entry, a lead, a close-up, the close-out"},
};

void open_entry(BayState& state, Pick pick) {
  state.typed = pick;
  state.typed_words.clear();
  state.first_point.reset();
  // The letter that opened the line is not part of what is typed.
  ImGui::GetIO().InputQueueCharacters.resize(0);
}

void handle_probe_keys(const Session& session, BayState& state, Wishes& wishes) {
  if (letter_pressed(state.hands, 'R'))
    open_entry(state, Pick::red);
  else if (letter_pressed(state.hands, 'B'))
    open_entry(state, Pick::black);
  else if (letter_pressed(state.hands, 'A'))
    open_entry(state, Pick::clamp);
  else if (letter_pressed(state.hands, 'D') && begin_aiming(session, state))
    ImGui::GetIO().InputQueueCharacters.resize(0);
  const auto arrow = [](ImGuiKey key) { return ImGui::IsKeyPressed(ImGui::GetKeyIndex(key), true); };
  if (state.typed != Pick::nothing || state.hands.typing()) return;
  if (arrow(ImGuiKey_RightArrow)) walk_lead(session, state, wishes, state.walking, 1);
  if (arrow(ImGuiKey_LeftArrow)) walk_lead(session, state, wishes, state.walking, -1);
}

/// By key: the hands go where typing goes on.
void open_close_out(const Session& session, BayState& state) {
  turn_close_out(session, state);
  if (!state.close_out_open) return;
  const bool proved = session.cranked_since_repair() && !session.repairs_done().empty();
  state.hands.focus_on(session.namings().empty() ? "close_out/words"
                       : proved                  ? "close_out/hand_back"
                                                 : "close_out/repair_words");
}

void handle_safety_keys(const Session& session, const Hands& hands, Wishes& wishes) {
  if (letter_pressed(hands, 'E')) wishes.act(WearEyeProtection{!session.eye_protection_on()});
  if (letter_pressed(hands, 'P')) wishes.act(SetBrake{!session.brake_on()});
  if (letter_pressed(hands, 'I')) wishes.act(DisableIgnition{session.controls().ignition_live});
}

void handle_vehicle_keys(const Session& session, BayState& state, Wishes& wishes) {
  const Hands& hands = state.hands;
  if (letter_down(hands, 'C')) state.crank_held = true;
  if (letter_pressed(hands, 'K')) {
    const bool off = session.controls().key == KeyPosition::off;
    wishes.act(TurnKey{off ? KeyPosition::on : KeyPosition::off});
  }
  if (letter_down(hands, 'U')) state.remote_held = true;
  if (letter_pressed(hands, 'F')) wishes.act(MoveClutchPedal{!session.controls().clutch_pedal_down});
  if (letter_pressed(hands, 'H')) wishes.act(SwitchHeadlamps{!session.controls().headlamps});
  constexpr std::array timed_s{2.0, 5.0, 10.0, 15.0};
  for (std::size_t i = 0; i < timed_s.size() && !hands.typing(); ++i) {
    const int key = sf::Keyboard::Num1 + static_cast<int>(i);
    if (ImGui::IsKeyPressed(key, false)) state.timed_crank_left_s = timed_s[i];
  }
}

}  // namespace

void handle_keys(const Session& session, BayState& state, Wishes& wishes) {
  const Hands& hands = state.hands;
  if (ImGui::IsKeyPressed(sf::Keyboard::F1, false)) state.keys_shown = true;
  const bool escaped = ImGui::IsKeyPressed(ImGui::GetKeyIndex(ImGuiKey_Escape), false);
  if (escaped && state.close_out_open && !state.keys_shown && !state.close_up) turn_close_out(session, state);
  if (hands.typing()) return;
  handle_safety_keys(session, hands, wishes);
  handle_vehicle_keys(session, state, wishes);
  if (letter_pressed(hands, 'O')) open_close_out(session, state);
  if (letter_pressed(hands, 'N')) {
    wishes.act(NoteReading{ImGui::GetIO().KeyShift ? state.in_hand : Kit::multimeter});
  }
  if (letter_pressed(hands, 'T')) {
    state.tab = RailTab::kit;
    state.hands.focus_on(fmt::format("kit/{}", id_of(state.in_hand)));
  }
  if (letter_pressed(hands, 'M')) state.calm_motion = !state.calm_motion;
  state.names_shown = letter_down(hands, 'L');
  if (letter_pressed(hands, 'V') && state.chosen) {
    if (const auto component = component_of(*state.chosen, start_switch_of(session.scenario())))
      wishes.act(LookClosely{std::string(*component)});
  }
  if (letter_pressed(hands, 'Z') && state.chosen) state.close_up = crowded_place_of(*state.chosen);
  handle_probe_keys(session, state, wishes);
}

void draw_keys_list(BayState& state, const Rect& picture) {
  if (draw_key_list(state.hands, uses, "Back to the vehicle  (Esc)", picture)) state.keys_shown = false;
}

}  // namespace voltfall
