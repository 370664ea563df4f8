#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "faults/limit_keys.h"
#include "rig/parameters.h"
#include "rig/test_points.h"

namespace voltfall {

/// How a fault changes one parameter. `set` and `add` use the severity itself, `scale` multiplies by it; with
/// `fixed` given, that value is used in its place (for the second and later edits of one fault).
enum class EditKind { set, add, scale };

struct ParameterEdit {
  std::string_view path;  ///< a Settable's path
  EditKind kind = EditKind::set;
  std::optional<double> fixed = std::nullopt;
};

/// Two points whose volts (or ohms) prove the fault when the reading is outside `limit`.
struct ProvingPair {
  TestPoint first, second;
  std::string_view limit;  ///< a LimitKey's id
};

enum class FaultClass { battery, joint, cable, relay, control, ground, starter_electrical, starter_mechanical, engine };

std::span<const FaultClass> all_fault_classes();
/// The id used in scenario files, for example `starter_electrical`.
std::string_view id_of(FaultClass fault_class);

/// One row of the catalogue: a fault is data. Physics never asks whether there is one.
struct Fault {
  std::string_view id;  ///< for example `positive_clamp_corroded`; wording lives in the language file
  FaultClass fault_class;
  std::string_view component;     ///< for example `positive_clamp`
  std::string_view unit;          ///< of the severity; empty when the fault has no degrees
  double lowest, highest, usual;  ///< documented range of the severity and what is used when none is given
  std::vector<ParameterEdit> edits;
  std::vector<ProvingPair> proof;
  std::vector<std::string_view>
      signs;  ///< observations that are the failing of the thing itself, where no pair of points reaches it
  std::string_view repair;                        ///< id of the repair that cures it
  std::optional<Gearbox> gearbox = std::nullopt;  ///< set: only a vehicle with this gearbox can have it

  bool has_degrees() const { return !unit.empty(); }
  bool can_be_on(const RigParameters& vehicle) const { return !gearbox || *gearbox == gearbox_of(vehicle); }
  /// The severity a share of the way from mildest to worst, 0 to 1, as a person thinks of ohms: by ratio where the
  /// range allows it. And the other way round.
  double severity_at(double share) const;
  double share_of(double severity) const;
};

/// Two faults that come together in life: the first brings the second about or hides behind it (trade.md A9).
struct FaultPair {
  std::string_view cause, casualty;
  std::string_view why;  ///< one plain line
};
std::span<const FaultPair> all_pairs();

/// A job the learner can order. It puts every parameter whose path starts with one of `restores` back to healthy.
struct Repair {
  std::string_view id;
  std::string_view component;
  double minutes;
  double parts_price;  ///< in the scenario's currency units; a scenario may override
  std::vector<std::string_view> restores;
  bool needs_negative_off;  ///< power joints are unbolted
};

/// In the order of the circuit, class by class.
std::span<const Fault> all_faults();
/// Null when there is no such fault.
const Fault* fault_named(std::string_view id);

std::span<const Repair> all_repairs();
/// Null when there is no such repair.
const Repair* repair_named(std::string_view id);

/// Everything that can be looked at closely, repaired or named, in the order of the circuit.
std::span<const std::string_view> all_components();

/// Healthy parameters in, faulty ones out. The severity is the caller's to check against the documented range.
RigParameters with_fault(RigParameters parameters, const Fault& fault, double severity);

/// The repair puts back every value that the fault changes.
bool mends(const Repair& repair, const Fault& fault);

/// The first path that both faults set; empty when there is none, and they can be there together.
std::string_view shared_path(const Fault& one, const Fault& other);

/// The battery comes out of it with the charge of a healthy one: charged, or renewed.
bool charges_battery(const Repair& repair);

/// `now` with everything this repair touches taken from `healthy`.
RigParameters with_repair(RigParameters now, const Repair& repair, const RigParameters& healthy);

}  // namespace voltfall
