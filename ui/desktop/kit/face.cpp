#include <fmt/format.h>

#include <algorithm>

#include "desktop/kit/faces.h"
#include "desktop/rail/rail_parts.h"

namespace voltfall {
namespace {

Device hanging_next(const Session& session, Kit kit) {
  Device next = Device::load_tester;
  for (const Device device : all_devices()) {
    if (kit_of(device) != kit) continue;
    next = device;
    if (hung_at(session, device) == nullptr) break;
  }
  return next;
}

bool hangs(Kit kit) {
  const auto devices = all_devices();
  return std::any_of(devices.begin(), devices.end(), [&](Device device) { return kit_of(device) == kit; });
}

}  // namespace

const Hung* hung_at(const Session& session, Device device) {
  const auto& hung = session.hung();
  const auto found = std::find_if(hung.begin(), hung.end(), [&](const Hung& one) { return one.device == device; });
  return found == hung.end() ? nullptr : &*found;
}

bool begin_aiming(const Session& session, BayState& state) {
  if (!session.has_kit(state.in_hand)) return false;
  state.typed_words.clear();
  state.first_point.reset();
  if (hangs(state.in_hand)) {
    state.typed = Pick::device;
    state.to_hang = hanging_next(session, state.in_hand);
    return true;
  }
  if (state.in_hand == Kit::thermometer) state.typed = Pick::thermometer;
  if (state.in_hand == Kit::recorder) state.typed = Pick::channel;
  return state.in_hand == Kit::thermometer || state.in_hand == Kit::recorder;
}

bool face_key(const Face& face, std::string_view id, const Rect& where, std::string_view label, bool enabled,
              bool selected) {
  KeyLook look;
  look.on_dark = true;
  look.type = Type::small;
  look.enabled = enabled;
  look.selected = selected;
  return push_key(face.state.hands, id, where, label, look);
}

void face_name(const Rect& where, std::string_view name, std::string_view below, bool soft) {
  Rect lines = where;
  text_in(lines.cut_top(lines.h / 2), Type::small_bold, ink::on_dark, name);
  text_in(lines, Type::small, soft ? ink::on_dark_soft : ink::on_dark, below);
}

std::string hung_text(const Face& face, Device device) {
  if (const Hung* hung = hung_at(face.session, device)) {
    return fmt::format("{} to {}, last", number_of(hung->first), number_of(hung->last));
  }
  const bool choosing = face.state.typed == Pick::device && face.state.to_hang == device;
  if (choosing && face.state.first_point) return fmt::format("{} to ?", number_of(*face.state.first_point));
  return choosing ? "first point?" : "in the box";
}

void hang_key(const Face& face, Device device, const Rect& where) {
  const std::string id = fmt::format("hang/{}", id_of(device));
  const bool choosing = face.state.typed == Pick::device && face.state.to_hang == device;
  if (hung_at(face.session, device) != nullptr) {
    if (face_key(face, id, where, "take off")) face.wishes.act(TakeDeviceOff{device});
  } else if (face_key(face, id, where, choosing ? "leave it" : "hang  D", true, choosing)) {
    face.state.typed = choosing ? Pick::nothing : Pick::device;
    face.state.to_hang = device;
    face.state.first_point.reset();
    face.state.typed_words.clear();
  }
}

float face_height(const Session& session, const BayState& state) {
  if (!session.has_kit(state.in_hand)) return 0;
  switch (state.in_hand) {
    case Kit::multimeter:
      return 0;
    case Kit::clamp_meter:
      return clamp_height;
    case Kit::load_tester:
      return 106;
    case Kit::hydrometer:
      return 84;
    case Kit::heavy_leads:
      return 76;
    default:
      return 52;
  }
}

void draw_face(const Session& session, const Wording& words, BayState& state, Wishes& wishes, const Rect& place) {
  if (state.in_hand == Kit::clamp_meter) return draw_clamp(session, words, state, wishes, place);
  sheet().AddRectFilled(place.min(), place.max(), ink::instrument);
  const Face face{session, words, state, wishes};
  const Rect inside = place.inset(gap_8, gap_8);
  switch (state.in_hand) {
    case Kit::multimeter:
    case Kit::clamp_meter:
      return;
    case Kit::load_tester:
      return draw_load_tester_face(face, inside);
    case Kit::conductance_tester:
      return draw_conductance_face(face, inside);
    case Kit::hydrometer:
      return draw_hydrometer_face(face, inside);
    case Kit::thermometer:
      return draw_thermometer_face(face, inside);
    case Kit::tachometer:
      return draw_tachometer_face(face, inside);
    case Kit::recorder:
      return draw_recorder_face(face, inside);
    case Kit::test_lamp:
    case Kit::remote_switch:
    case Kit::fused_jumper:
    case Kit::booster_pack:
    case Kit::heavy_leads:
      return draw_hanging_face(face, inside);
  }
}

}  // namespace voltfall
