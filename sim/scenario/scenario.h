#pragma once

#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "faults/catalogue.h"
#include "faults/hidden_faults.h"
#include "faults/visible_signs.h"
#include "instruments/kit.h"
#include "rig/parameters.h"
#include "vehicles/vehicle_types.h"

namespace voltfall {

/// A declared limit: what a manual would print for this vehicle, in the unit of its key, and the loop current at which
/// it applies.
struct Limit {
  double lowest = 0.0;              ///< above 0: the reading must be at least this
  double highest = 0.0;             ///< above 0: at most this
  double from_A = 0.0, to_A = 0.0;  ///< loop current range for which it is meant
};

/// Those that a type's manual prints: the usual figures of the limit table, and its own. Null: no type, all usual.
std::map<std::string, Limit> limits_of(const VehicleType* type);

enum class Level { guided, plain, test };
std::string_view id_of(Level level);

/// Points of each part of a score, 100 in all, and what a pass asks.
struct ScoreWeights {
  double diagnosis = 40.0, proof = 15.0, safety = 10.0, economy = 20.0, method = 15.0;
  double pass_mark = 70.0;

  double sum() const { return diagnosis + proof + safety + economy + method; }
};

/// Two faults that come together on this vehicle, beside those of trade practice: the first brings the second about, or
/// hides behind it.
struct DeclaredPair {
  std::string cause, casualty;  ///< fault ids
  std::optional<double> share;  ///< against all single faults, which make 1; empty: as one of the trade's pairs
};

/// What a job that was dealt sealed carries along.
struct Seal {
  std::string file_text;     ///< the sealed job as it was dealt: what a record holds in place of the scenario
  std::string code;          ///< what stands for the pupil
  std::string job;           ///< digest of the sealed scenario, 64 hexadecimal digits: no two sealed jobs share it
  bool score_closed = true;  ///< until the instructor releases it
};

/// A job as its author wrote it.
struct Scenario {
  std::string id;                     ///< the file's name without `.toml`
  std::string title;                  ///< on the title block
  int sheet = 0;                      ///< number printed on the work order
  std::string complaint;              ///< what the driver says
  std::vector<std::string> symptoms;  ///< observations that the author says can be made; for whoever vets the job
  std::string vehicle_type;           ///< id of a vehicle type
  std::string vehicle_name;
  std::string setting;  ///< one line: place, weather
  /// What a vehicle of this kind is like, and where its engine rests: all that anybody can know of it.
  RigParameters typical;
  RestingPlace typical_rest;
  /// This very one before anything went wrong: typical but for the file's [scatter].
  RigParameters healthy;
  RestingPlace rest;
  std::vector<HiddenFault> faults;
  std::vector<DeclaredPair> pairs;
  std::vector<std::string> deal_faults;  ///< ids of the faults that variants may have; empty: any that sounds the same
  std::vector<DecoyLook> decoys;
  std::vector<Kit> kit;
  Level level = Level::plain;
  std::map<std::string, Limit> limits;        ///< by limit key: joint, cable, relay_contact, ...
  std::map<FaultClass, double> priors;        ///< share of complaints by class, in place of the trade's
  std::map<std::string, double> part_prices;  ///< by repair id, in place of the catalogue's
  std::string currency = "cr";
  ScoreWeights weights;
  double labour_per_hour = 0.0;
  std::string debrief;       ///< what the author wants the learner to take home
  std::string source_text;   ///< the file as read: what a record is bound to
  std::optional<Seal> seal;  ///< empty for a scenario that anybody may read

  /// `healthy` with every hidden fault applied, intermittent ones as though their trigger held.
  RigParameters faulty() const;
  /// `typical` with the same.
  RigParameters typical_faulty() const;

  /// A sealed job that nobody has released: it is worked, and scored by its instructor alone.
  bool score_stays_closed() const { return seal && seal->score_closed; }
};

}  // namespace voltfall
