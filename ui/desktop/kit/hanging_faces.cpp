#include <fmt/format.h>

#include "desktop/kit/faces.h"
#include "desktop/kit/objects.h"

namespace voltfall {
namespace {

constexpr float key_width = 76, key_gap = gap_4;

/// The instrument on a piece of paper set into its face, so that dark objects show on the dark ground.
void draw_inset(const Face& face, const Rect& where) {
  sheet().AddRectFilled(where.min(), where.max(), ink::paper);
  const float glow = face.state.in_hand == Kit::test_lamp ? static_cast<float>(face.session.test_lamp_light()) : 0.0F;
  draw_kit_object(face.state.in_hand, where.inset(2), glow);
}

void draw_lamp_keys(const Face& face, Rect row) {
  if (face_key(face, "lamp/note", row.cut_right(52), "note", face.session.can_be_noted(Kit::test_lamp))) {
    face.wishes.act(NoteReading{Kit::test_lamp});
  }
  row.cut_right(key_gap);
  hang_key(face, Device::test_lamp, row);
}

void draw_remote_keys(const Face& face, Rect row) {
  KeyLook look;
  look.on_dark = true;
  look.type = Type::small;
  look.enabled = hung_at(face.session, Device::remote_switch) != nullptr;
  look.selected = face.session.remote_pressed();
  if (hold_key(face.state.hands, "remote/press", row.cut_right(68), "hold  U", look)) face.state.remote_held = true;
  row.cut_right(key_gap);
  hang_key(face, Device::remote_switch, row);
}

void draw_jumper_keys(const Face& face, Rect row) {
  if (face.session.jumper_fuse_blown()) {
    if (face_key(face, "jumper/fuse", row.cut_right(68), "new fuse")) face.wishes.act(ReplaceFuse{Kit::fused_jumper});
    row.cut_right(key_gap);
  }
  hang_key(face, Device::fused_jumper, row);
}

void draw_heavy_lead(const Face& face, Device device, Rect row) {
  hang_key(face, device, row.cut_right(key_width));
  row.cut_right(gap_8);
  text_in(row.cut_left(88), Type::small_bold, ink::on_dark, face.words.device(device));
  text_in(row, Type::small, ink::on_dark_soft, hung_text(face, device));
}

Device only_device_of(Kit kit) {
  for (const Device device : all_devices()) {
    if (kit_of(device) == kit) return device;
  }
  return Device::test_lamp;
}

}  // namespace

void draw_hanging_face(const Face& face, Rect inside) {
  draw_inset(face, inside.cut_left(48));
  inside.cut_left(gap_8);
  const Kit kit = face.state.in_hand;
  if (kit == Kit::heavy_leads) {
    draw_heavy_lead(face, Device::heavy_lead_1, inside.cut_top(28));
    inside.cut_top(gap_4);
    return draw_heavy_lead(face, Device::heavy_lead_2, inside);
  }
  const bool has_second_key = kit == Kit::test_lamp || kit == Kit::remote_switch || face.session.jumper_fuse_blown();
  const Rect keys = inside.cut_right(key_width + (has_second_key ? 72.0F : 0.0F)).inset(0, 4);
  inside.cut_right(gap_4);
  const Device device = only_device_of(kit);
  const bool blown = kit == Kit::fused_jumper && face.session.jumper_fuse_blown();
  face_name(inside, face.words.kit(kit), blown ? "fuse blown" : hung_text(face, device),
            hung_at(face.session, device) == nullptr && !blown);
  switch (kit) {
    case Kit::test_lamp:
      return draw_lamp_keys(face, keys);
    case Kit::remote_switch:
      return draw_remote_keys(face, keys);
    case Kit::fused_jumper:
      return draw_jumper_keys(face, keys);
    default:
      return hang_key(face, device, keys);
  }
}

}  // namespace voltfall
