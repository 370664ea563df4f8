#include "scenario/format.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>

namespace voltfall {
namespace {

constexpr std::string_view needed = "needed";

constexpr std::array sections{
    FormatSection{"job", true, false, "The work order: what the learner reads, and how much is told on the way."},
    FormatSection{
        "vehicle", true, false,
        "The sound vehicle. Beside the keys here any value of the vehicle may be set by its path (listed below), "
        "for example `battery.charge = 0.9`; what is left out is as the vehicle type has it."},
    FormatSection{"rest", false, false, "Where the engine stopped; it decides how pinion and ring gear meet."},
    FormatSection{
        "scatter", false, false,
        "Makes this vehicle differ from others of its type as sound vehicles do, and its engine rest somewhere "
        "else. `voltfall deal` writes it."},
    FormatSection{"fault", false, true, "A hidden fault. None at all makes a job in which nothing is wrong."},
    FormatSection{"pair", false, true,
                  "Two faults that come together on this vehicle more often than elsewhere; beliefs reckon with them."},
    FormatSection{
        "deal", false, false,
        "What `voltfall deal` may hide in place of the fault above. Without it: any single fault that the driver "
        "could tell the same tale of."},
    FormatSection{"decoy", false, false, "What a close look shows although it is harmless."},
    FormatSection{"kit", true, false, "What the learner may use."},
    FormatSection{
        "limits", false, false,
        "Limits that differ from the usual (listed below): `cable = { highest_V = 0.3, from_A = 80, to_A = 400 "
        "}`. A figure left out keeps its usual value."},
    FormatSection{"prices", false, false,
                  "Money. Beside the keys here the price of every repair may be set by its id (listed below)."},
    FormatSection{
        "priors", false, false,
        "How often each class of fault is behind such a complaint, in place of the trade's shares: any of "
        "`battery`, `joint`, `cable`, `relay`, `control`, `ground`, `starter_electrical`, `starter_mechanical`, "
        "`engine`, each a number from 0.001 to 100; only their proportions count."},
    FormatSection{"scoring", false, false, "Points of the parts of a score, which have to make 100 together."},
    FormatSection{"debrief", true, false, "What the learner is told at the end."},
};

constexpr std::array keys{
    FormatKey{"job", "title", "text", 0, 0, "", needed, "stands on the title block; must not give the fault away",
              "\"Clicks in the morning\""},
    FormatKey{"job", "sheet", "whole number", 1, 9999, "", "0, no number",
              "number of the work order; 100 and above are walks, which the start page does not list", "7"},
    FormatKey{"job", "setting", "text", 0, 0, "", needed, "place and weather, one line", "\"Depot yard, 4 °C, dry\""},
    FormatKey{"job", "complaint", "text", 0, 0, "", needed, "what the driver says, in a driver's words",
              "\"It only clicks.\""},
    FormatKey{"job", "symptoms", "list of", 0, 0, "", "none",
              "observations that you say can be made with the key at start; `voltfall vet` checks them",
              "[\"chatter\"]"},
    FormatKey{"job", "level", "one of", 0, 0, "", "plain",
              "guided: told at once of an unwarranted naming; plain: told at the end; test: silent", "\"plain\""},
    FormatKey{"vehicle", "type", "one of", 0, 0, "", "pickup_v8", "the type it is", "\"van_six\""},
    FormatKey{"vehicle", "name", "text", 0, 0, "", needed, "as the work order calls it; invented, no brand",
              "\"Depot van no. 4\""},
    FormatKey{"rest", "seed", "whole number", 0, 1.0e9, "", "as the type rests",
              "draws one of the places where compression leaves such an engine", "3"},
    FormatKey{"rest", "crank_angle_deg", "number", 0, 720, "°", "by seed", "the place itself", "95"},
    FormatKey{"rest", "tooth_phase", "number", 0, 1, "", "by crank angle",
              "0 tooth against tooth, 0.5 tooth against space", "0.5"},
    FormatKey{"scatter", "seed", "whole number", 0, 1.0e9, "", needed, "same seed, same vehicle", "1204"},
    FormatKey{"fault", "id", "text", 0, 0, "", needed, "one of the faults listed below", "\"block_lug_rusted\""},
    FormatKey{"fault", "severity", "number", 0, 0, "the fault's own", "the fault's usual",
              "within the fault's range; none for a fault without degrees", "0.02"},
    FormatKey{"fault", "when", "one of", 0, 0, "", "always",
              "when it is there: it comes and goes with heat, shaking or damp", "\"hot\""},
    FormatKey{"pair", "cause", "text", 0, 0, "", needed, "id of the fault that brings the other about",
              "\"negative_clamp_slack\""},
    FormatKey{"pair", "casualty", "text", 0, 0, "", needed, "id of the fault that is brought about",
              "\"relay_contacts_pitted\""},
    FormatKey{"pair", "share", "number", 0.001, 0.5, "", "as one of the trade's pairs",
              "how often, against all single faults, which make 1", "0.05"},
    FormatKey{"deal", "faults", "list of", 0, 0, "", needed,
              "ids of faults, each once; theirs is the usual range of severity",
              "[\"block_lug_rusted\", \"negative_clamp_corroded\"]"},
    FormatKey{"decoy", "looks", "list of", 0, 0, "", needed, "`component:look`, listed below", "[\"block_lug:rust\"]"},
    FormatKey{"kit", "instruments", "list of", 0, 0, "", needed, "instruments and tools, listed below",
              "[\"multimeter\", \"clamp_meter\"]"},
    FormatKey{"limits", "from_A", "number", 0, 2000, "A", "as listed",
              "loop current from which the limit means anything", "80"},
    FormatKey{"limits", "to_A", "number", 0, 2000, "A", "as listed", "loop current up to which it does", "400"},
    FormatKey{"prices", "currency", "text", 0, 0, "", "cr", "what money is called; never alters a score", "\"cr\""},
    FormatKey{"prices", "labour_per_hour", "number", 0, 1.0e6, "", "0, and the plan reckons with the trade's",
              "what an hour of work costs", "54"},
    FormatKey{"prices", "REPAIR", "number", 0, 1.0e6, "", "as listed", "price of the parts of that repair", "128"},
    FormatKey{"priors", "CLASS", "number", 0.001, 100, "", "the trade's", "share of that class", "0.4"},
    FormatKey{"scoring", "diagnosis", "number", 0, 100, "points", "40", "the name, and what supports it", "40"},
    FormatKey{"scoring", "proof", "number", 0, 100, "points", "15", "the cure, shown", "15"},
    FormatKey{"scoring", "safety", "number", 0, 100, "points", "10", "the usual cautions", "10"},
    FormatKey{"scoring", "economy", "number", 0, 100, "points", "20", "minutes against the cheapest sound order", "20"},
    FormatKey{"scoring", "method", "number", 0, 100, "points", "15", "what each test could tell", "15"},
    FormatKey{"scoring", "pass_mark", "number", 0, 100, "points", "70", "what a pass asks, beside all gates", "70"},
    FormatKey{"debrief", "text", "text", 0, 0, "", needed, "what to take home", "\"A drop shows only under load.\""},
};

}  // namespace

std::span<const FormatSection> all_format_sections() {
  return sections;
}

std::span<const FormatKey> all_format_keys() {
  return keys;
}

const FormatKey& format_key(std::string_view section, std::string_view key) {
  const auto found = std::find_if(keys.begin(), keys.end(),
                                  [&](const FormatKey& row) { return row.section == section && row.key == key; });
  if (found == keys.end()) throw std::logic_error(fmt::format("{}.{} has no row in the format's table", section, key));
  return *found;
}

}  // namespace voltfall
