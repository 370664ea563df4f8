#pragma once

#include "desktop/kit/kit_parts.h"
#include "desktop/style/draw.h"

namespace voltfall {

/// What every face is drawn from.
struct Face {
  const Session& session;
  const Wording& words;
  BayState& state;
  Wishes& wishes;
};

// Faces of one kind each. The place is dark already.

void draw_hanging_face(const Face& face, Rect inside);  ///< lamp, switch, jumper, booster, heavy leads
void draw_load_tester_face(const Face& face, Rect inside);
void draw_hydrometer_face(const Face& face, Rect inside);
void draw_conductance_face(const Face& face, Rect inside);
void draw_thermometer_face(const Face& face, Rect inside);
void draw_tachometer_face(const Face& face, Rect inside);
void draw_recorder_face(const Face& face, Rect inside);

/// A key of a face.
bool face_key(const Face& face, std::string_view id, const Rect& where, std::string_view label, bool enabled = true,
              bool selected = false);

/// Name over a second line, at the left of a face.
void face_name(const Rect& where, std::string_view name, std::string_view below, bool soft = false);

/// Hang, or take off; while its points are being chosen, leave that.
void hang_key(const Face& face, Device device, const Rect& where);

/// `from 4 to 19`, `first end on 4`, `not connected`
std::string hung_text(const Face& face, Device device);

}  // namespace voltfall
