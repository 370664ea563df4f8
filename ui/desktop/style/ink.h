#pragma once

#include <imgui.h>

namespace voltfall::ink {

// Every colour of the sheet. Text on its ground has a contrast of at least 5:1, edges and marks at least 3:1
// (tests/ui/desktop_style_test.cpp holds each pair to it); nothing is told by colour alone.

inline constexpr ImU32 paper = IM_COL32(245, 240, 230, 255);
inline constexpr ImU32 paper_shade = IM_COL32(232, 225, 210, 255);  ///< body panels, pressed paper keys
inline constexpr ImU32 ink = IM_COL32(31, 42, 50, 255);             ///< lines and text
inline constexpr ImU32 ink_soft = IM_COL32(88, 84, 74, 255);        ///< secondary text, on paper and on shade
inline constexpr ImU32 hairline = IM_COL32(190, 182, 165, 255);  ///< rules inside a zone: ornament, carries no meaning
inline constexpr ImU32 edge = IM_COL32(128, 121, 106, 255);      ///< the border of something that can be pressed

inline constexpr ImU32 copper = IM_COL32(186, 103, 45, 255);
inline constexpr ImU32 copper_light = IM_COL32(224, 153, 92, 255);
inline constexpr ImU32 steel = IM_COL32(200, 203, 201, 255);
inline constexpr ImU32 steel_dark = IM_COL32(158, 165, 166, 255);
inline constexpr ImU32 casting = IM_COL32(226, 219, 203, 255);  ///< engine block
inline constexpr ImU32 casting_dark = IM_COL32(208, 199, 181, 255);

inline constexpr ImU32 instrument = IM_COL32(35, 47, 57, 255);  ///< meter, clamp, battery case
inline constexpr ImU32 instrument_edge = IM_COL32(128, 141, 150, 255);
inline constexpr ImU32 on_dark = IM_COL32(245, 240, 230, 255);
inline constexpr ImU32 on_dark_soft = IM_COL32(186, 194, 196, 255);
inline constexpr ImU32 amber = IM_COL32(242, 209, 166, 255);    ///< clamp digits, selected bar on a dark ground
inline constexpr ImU32 display = IM_COL32(221, 227, 209, 255);  ///< the meter's glass
inline constexpr ImU32 display_ink = IM_COL32(20, 28, 24, 255);

inline constexpr ImU32 red_lead = IM_COL32(178, 36, 40, 255);
inline constexpr ImU32 black_lead = IM_COL32(28, 36, 44, 255);
inline constexpr ImU32 focus = IM_COL32(22, 96, 176, 255);   ///< the 3 px ring, outside a thin paper casing
inline constexpr ImU32 danger = IM_COL32(160, 28, 28, 255);  ///< always with words
inline constexpr ImU32 crust = IM_COL32(62, 132, 104, 255);  ///< what looking closely can find
inline constexpr ImU32 lamp_lit = IM_COL32(246, 214, 112, 255);

/// Contrast of two opaque colours, 1 to 21 (ratio of relative luminances, each plus 0.05).
double contrast(ImU32 one, ImU32 other);

/// `from` at 0, `to` at 1; outside, clamped.
ImU32 blend(ImU32 from, ImU32 to, float share);

/// The same colour, more or less opaque: 0 to 1.
ImU32 faded(ImU32 colour, float opacity);

}  // namespace voltfall::ink

namespace voltfall {

// The steps of every distance on the sheet, in pixels.
inline constexpr float gap_4 = 4, gap_8 = 8, gap_16 = 16, gap_24 = 24;

}  // namespace voltfall
