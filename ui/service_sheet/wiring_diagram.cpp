#include "service_sheet/wiring_diagram.h"

#include <array>
#include <cmath>
#include <numbers>
#include <string>

#include "rig/test_points.h"

namespace voltfall {
namespace {

constexpr float heavy = 4.0F, thin = 1.6F;
constexpr float loads_y = 36, control_y = 106, s_wire_y = 142, i_wire_y = 182, power_y = 218, body_y = 342,
                block_y = 434;

// ---- symbols -------------------------------------------------------------------------------------------------------

void wire(Pen& pen, std::initializer_list<Spot> spots) {
  pen.path({spots.begin(), spots.size()}, thin, Tone::ink);
}

void cable(Pen& pen, std::initializer_list<Spot> spots) {
  pen.path({spots.begin(), spots.size()}, heavy, Tone::copper);
}

void point(Pen& pen, Spot at, TestPoint which) {
  pen.disc(at, 10, Tone::paper, 1.4F);
  pen.words(at, std::to_string(number_of(which)), Tone::ink, true);
}

/// A bolted, clamped or pushed-on joint: two contacts facing each other.
void joint(Pen& pen, Spot at, bool upright) {
  const float along = 3, across = 7;
  for (const float side : {-along, along}) {
    const Spot middle = upright ? Spot{at.x, at.y + side} : Spot{at.x + side, at.y};
    const Spot reach = upright ? Spot{across, 0} : Spot{0, across};
    pen.line({middle.x - reach.x, middle.y - reach.y}, {middle.x + reach.x, middle.y + reach.y}, 2, Tone::ink);
  }
}

/// An open switch in a wire along x.
void open_switch(Pen& pen, Spot left, float length) {
  pen.line({left.x, left.y}, {left.x + length, left.y}, 6, Tone::paper);
  pen.line(left, {left.x + length - 4, left.y - 13}, 2, Tone::ink);
  for (const float x : {left.x, left.x + length}) pen.disc({x, left.y}, 2.5F, Tone::paper, 1.4F);
}

/// The small arch of a wire that passes over another without touching it.
void hop(Pen& pen, Spot at, bool upright) {
  constexpr int pieces = 8;
  constexpr float radius = 6;
  pen.line(upright ? Spot{at.x, at.y - radius} : Spot{at.x - radius, at.y},
           upright ? Spot{at.x, at.y + radius} : Spot{at.x + radius, at.y}, 3, Tone::paper);
  Spot last;
  for (int i = 0; i <= pieces; ++i) {
    const float angle = std::numbers::pi_v<float> * static_cast<float>(i) / pieces;
    const float over = radius * std::sin(angle), on = -radius * std::cos(angle);
    const Spot next = upright ? Spot{at.x + over, at.y + on} : Spot{at.x + on, at.y - over};
    if (i > 0) pen.line(last, next, thin, Tone::ink);
    last = next;
  }
}

void to_ground(Pen& pen, Spot at) {
  for (int i = 0; i < 3; ++i) {
    const float half = 9 - 3.0F * static_cast<float>(i), y = at.y + 4.0F * static_cast<float>(i);
    pen.line({at.x - half, y}, {at.x + half, y}, 1.8F, Tone::ink);
  }
}

void lamp(Pen& pen, Spot at) {
  pen.disc(at, 11, Tone::paper, 1.6F);
  pen.line({at.x - 7, at.y - 7}, {at.x + 7, at.y + 7}, thin, Tone::ink);
  pen.line({at.x - 7, at.y + 7}, {at.x + 7, at.y - 7}, thin, Tone::ink);
}

void node(Pen& pen, Spot at) {
  pen.disc(at, 2.5F, Tone::ink, 1);
}

// ---- parts of the circuit, in the order of the current -------------------------------------------------------------

void draw_battery(Pen& pen, const DiagramOptions& options) {
  if (options.body_lead) {
    wire(pen, {{118, block_y}, {118, body_y}, {290, body_y}});
    pen.words({206, body_y + 14}, "body lead", Tone::soft, false);
  }
  cable(pen, {{69, 300}, {69, power_y}, {296, power_y}});
  cable(pen, {{69, 392}, {69, block_y}, {372, block_y}});
  pen.box({30, 300}, {78, 92}, Tone::paper, 2);
  for (int cell = 0; cell < 3; ++cell) {
    const float y = 324 + 18.0F * static_cast<float>(cell);
    pen.line({52, y}, {86, y}, 1.6F, Tone::ink);
    pen.line({60, y + 8}, {78, y + 8}, 4, Tone::ink);
  }
  pen.words({96, 312}, "+", Tone::ink, true);
  pen.words({96, 381}, "\u2212", Tone::ink, true);
  pen.words({138, 316}, "battery", Tone::soft, false);
  joint(pen, {69, 258}, true);
  joint(pen, {92, block_y}, false);
  point(pen, {69, 282}, TestPoint::battery_positive_post);
  point(pen, {69, 234}, TestPoint::positive_clamp);
  point(pen, {69, 412}, TestPoint::negative_post);
  point(pen, {118, block_y}, TestPoint::negative_clamp);
  pen.words({150, power_y + 16}, "positive cable", Tone::soft, false);
  pen.words({220, block_y - 14}, "negative cable", Tone::soft, false);
}

void draw_relay(Pen& pen) {
  joint(pen, {246, power_y}, false);
  point(pen, {222, power_y}, TestPoint::relay_battery_lug);
  pen.box({296, 168}, {108, 94}, Tone::paper, 2);
  wire(pen, {{350, 152}, {350, 176}});
  pen.box({334, 176}, {32, 18}, Tone::paper, 1.6F);
  pen.line({334, 194}, {366, 176}, 1, Tone::ink);
  wire(pen, {{350, 194}, {350, 200}, {320, 200}, {320, 282}});
  cable(pen, {{296, power_y}, {340, power_y}});
  cable(pen, {{374, power_y}, {404, power_y}});
  pen.line({340, power_y}, {371, power_y - 13}, 3, Tone::ink);
  for (const float x : {340.0F, 374.0F}) pen.disc({x, power_y}, 3, Tone::paper, 1.6F);
  pen.line({320, power_y - 6}, {320, power_y + 6}, 7, Tone::paper);  // passes over, without touching
  wire(pen, {{320, power_y - 8}, {320, power_y + 8}});
  pen.words({366, 249}, "relay", Tone::ink, true);
  pen.words({328, 158}, "S", Tone::soft, true);
  pen.words({394, 182}, "I", Tone::soft, true);
}

void draw_starter_side(Pen& pen) {
  cable(pen, {{404, power_y}, {690, power_y}, {690, 266}});
  joint(pen, {452, power_y}, false);
  point(pen, {428, power_y}, TestPoint::relay_motor_stud);
  point(pen, {476, power_y}, TestPoint::relay_motor_lug);
  pen.words({534, power_y + 16}, "starter cable", Tone::soft, false);
  joint(pen, {618, power_y}, false);
  point(pen, {594, power_y}, TestPoint::starter_lug);
  point(pen, {642, power_y}, TestPoint::starter_terminal);
  cable(pen, {{690, 334}, {690, block_y}});
  pen.disc({690, 300}, 34, Tone::paper, 2);
  pen.words({690, 294}, "M", Tone::ink, true);
  pen.words({690, 310}, "starter", Tone::ink, false);
  joint(pen, {690, 386}, true);
  pen.words({750, 386}, "mounting face", Tone::soft, false);
  point(pen, {690, 358}, TestPoint::starter_case);
}

void draw_block(Pen& pen) {
  joint(pen, {356, block_y}, false);
  point(pen, {330, block_y}, TestPoint::block_lug);
  pen.box({374, block_y - 9}, {430, 18}, Tone::paper, 2);
  for (float x = 384; x < 800; x += 12) pen.line({x - 6, block_y + 8}, {x + 8, block_y - 8}, 0.8F, Tone::soft);
  pen.box({424, block_y - 8}, {92, 16}, Tone::paper, 0.01F);
  pen.words({470, block_y}, "engine block", Tone::ink, true);
  point(pen, {690, block_y}, TestPoint::engine_block);
}

void draw_control(Pen& pen, const DiagramOptions& options) {
  wire(pen, {{270, power_y}, {270, control_y}, {740, control_y}, {740, s_wire_y}, {350, s_wire_y}, {350, 152}});
  point(pen, {270, power_y}, TestPoint::relay_battery_stud);
  pen.box({296, control_y - 5}, {46, 10}, Tone::paper, 1.6F);
  pen.line({296, control_y}, {342, control_y}, 1, Tone::ink);
  pen.words({308, control_y - 17}, "fusible link", Tone::soft, false);
  joint(pen, {424, control_y}, false);
  pen.words({424, control_y + 17}, "bulkhead plug", Tone::soft, false);
  open_switch(pen, {498, control_y}, 36);
  pen.words({516, control_y + 17}, "start", Tone::soft, false);
  pen.words({530, control_y - 24}, "ignition switch", Tone::soft, false);
  if (!options.switch_in_coil_ground) {
    open_switch(pen, {606, control_y}, 36);
    pen.words({650, control_y - 24}, options.clutch_switch ? "clutch switch" : "neutral switch", Tone::soft, false);
  }
  pen.words({690, s_wire_y + 14}, "S wire", Tone::soft, false);
  joint(pen, {376, s_wire_y}, false);
  hop(pen, {474, s_wire_y}, true);
  point(pen, {370, control_y}, TestPoint::fusible_link_out);
  point(pen, {474, control_y}, TestPoint::ignition_feed);
  point(pen, {574, control_y}, TestPoint::ignition_start_output);
  point(pen, {690, control_y}, TestPoint::neutral_switch_output);
  point(pen, {400, s_wire_y}, TestPoint::s_wire_end);
  point(pen, {350, 150}, TestPoint::s_terminal);
}

void draw_coil_ground(Pen& pen, const DiagramOptions& options) {
  wire(pen, {{320, 262}, {320, body_y}});
  point(pen, {320, 283}, TestPoint::relay_case);
  if (options.switch_in_coil_ground) {
    pen.line({320, 300}, {320, 324}, 6, Tone::paper);
    pen.line({320, 324}, {333, 303}, 2, Tone::ink);
    for (const float y : {300.0F, 324.0F}) pen.disc({320, y}, 2.5F, Tone::paper, 1.4F);
    pen.words({382, 312}, options.clutch_switch ? "clutch switch" : "neutral switch", Tone::soft, false);
  } else {
    joint(pen, {320, 308}, true);
    pen.words({352, 308}, "bracket", Tone::soft, false);
  }
  pen.line({290, body_y}, {560, body_y}, 7, Tone::ink);
  pen.line({292, body_y}, {558, body_y}, 3.5F, Tone::paper);
  pen.words({420, body_y + 16}, "body", Tone::ink, true);
  wire(pen, {{520, body_y}, {520, block_y - 9}});
  pen.box({514, 362}, {12, 30}, Tone::paper, 1.4F);
  for (float y = 366; y < 392; y += 6) pen.line({514, y + 4}, {526, y - 2}, 1, Tone::ink);
  pen.words({566, 377}, "body strap", Tone::soft, false);
  point(pen, {320, body_y}, TestPoint::body);
  point(pen, {520, body_y}, TestPoint::strap_body_lug);
  point(pen, {520, 406}, TestPoint::strap_block_lug);
}

void draw_ignition(Pen& pen) {
  wire(pen, {{404, i_wire_y}, {560, i_wire_y}});
  wire(pen, {{474, control_y}, {474, i_wire_y}});
  pen.line({474, 121}, {474, 132}, 5, Tone::paper);
  pen.line({474, 132}, {483, 120}, 2, Tone::ink);
  pen.words({498, 136}, "run", Tone::soft, false);
  node(pen, {474, i_wire_y});
  pen.box({536, i_wire_y - 8}, {40, 16}, Tone::paper, 1.6F);
  wire(pen, {{576, i_wire_y}, {602, i_wire_y}, {602, i_wire_y + 8}});
  to_ground(pen, {602, i_wire_y + 8});
  pen.words({656, i_wire_y + 4}, "ignition coil", Tone::soft, false);
  point(pen, {426, i_wire_y}, TestPoint::i_terminal);
  point(pen, {510, i_wire_y}, TestPoint::ignition_coil_feed);
}

void draw_loads(Pen& pen) {
  wire(pen, {{250, loads_y}, {740, loads_y}});
  wire(pen, {{370, loads_y}, {370, control_y}});
  node(pen, {370, loads_y});
  pen.disc({210, loads_y}, 22, Tone::paper, 2);
  pen.words({210, loads_y}, "G", Tone::ink, true);
  wire(pen, {{210, loads_y + 22}, {210, loads_y + 32}});
  to_ground(pen, {210, loads_y + 32});
  pen.words({146, loads_y}, "alternator", Tone::soft, false);
  wire(pen, {{440, loads_y}, {440, 78}});
  pen.box({428, 52}, {24, 14}, Tone::paper, 1.6F);
  to_ground(pen, {440, 74});
  pen.words({470, 60}, "dash", Tone::soft, false);
  open_switch(pen, {500, loads_y}, 36);
  pen.words({518, loads_y - 22}, "lamp switch", Tone::soft, false);
  wire(pen, {{740, loads_y}, {776, loads_y}});
  wire(pen, {{776, loads_y}, {776, loads_y + 8}});
  to_ground(pen, {776, loads_y + 8});
  lamp(pen, {688, loads_y});
  pen.words({688, loads_y - 22}, "headlamps", Tone::soft, false);
  point(pen, {252, loads_y}, TestPoint::alternator_output);
  point(pen, {440, loads_y}, TestPoint::dash_feed);
  point(pen, {574, loads_y}, TestPoint::lamp_switch_output);
  point(pen, {644, loads_y}, TestPoint::headlamp_feed);
  point(pen, {734, loads_y}, TestPoint::headlamp_ground);
}

}  // namespace

DiagramOptions diagram_options(const RigParameters& healthy) {
  return {healthy.control.neutral_switch_in_coil_ground > 0.5, gearbox_of(healthy) == Gearbox::manual,
          healthy.body.lead_fitted > 0.5};
}

void draw_wiring_diagram(Pen& pen, const DiagramOptions& options) {
  draw_loads(pen);
  draw_battery(pen, options);
  draw_relay(pen);
  draw_ignition(pen);
  draw_control(pen, options);
  draw_starter_side(pen);
  draw_block(pen);
  draw_coil_ground(pen, options);
}

}  // namespace voltfall
