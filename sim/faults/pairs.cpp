#include <array>

#include "faults/catalogue.h"

namespace voltfall {
namespace {

// trade.md A9 and the rows it is built from; those without a row there are common practice.
constexpr std::array pairs{
    FaultPair{"positive_clamp_corroded", "relay_contacts_welded",
              "The relay chatters on low volts until its contacts weld; a second relay welds as well."},
    FaultPair{"negative_clamp_corroded", "relay_contacts_welded",
              "The relay chatters on low volts until its contacts weld; a second relay welds as well."},
    FaultPair{"battery_discharged", "relay_contacts_welded",
              "The relay chatters on low volts until its contacts weld; a second relay welds as well."},
    FaultPair{"battery_aged", "block_lug_rusted",
              "Each takes its share: whoever stops at the first finds a slow crank."},
    FaultPair{"parasitic_drain", "battery_aged",
              "A battery run flat night after night grows hard; so will the new one."},
    FaultPair{"charging_low", "battery_aged", "A battery that is never full grows hard; so will the new one."},
    FaultPair{"shoe_spring_broken", "ring_teeth_missing",
              "A pinion that stays in mesh is turned by the engine and mills the ring; a new starter of the same kind "
              "would be spared, the ring is not."},
    FaultPair{"s_wire_shorted", "fusible_link_open", "The short blows the link, and will blow the next one."},
    FaultPair{"clutch_seized", "armature_dead_spot",
              "A clutch that does not overrun lets the engine spin the armature until its bars burn."},
    FaultPair{"liquid_in_cylinder", "clutch_slips", "A starter that meets a locked engine strains its clutch."},
};

}  // namespace

std::span<const FaultPair> all_pairs() {
  return pairs;
}

}  // namespace voltfall
