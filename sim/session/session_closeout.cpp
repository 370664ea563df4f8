#include <algorithm>

#include "faults/catalogue.h"
#include "rig/settable.h"
#include "scoring/score_job.h"
#include "session/outcomes.h"
#include "session/session.h"

// Naming, repairing, handing back.

namespace voltfall {
namespace {

constexpr std::string_view nothing_found = "nothing_found";
constexpr std::size_t most_evidence = 6;

Outcome refused(std::string_view id) {
  return {false, std::string(id)};
}

bool same_everywhere(const RigParameters& one, const RigParameters& other) {
  const auto settables = all_settables();
  return std::all_of(settables.begin(), settables.end(),
                     [&](const Settable& settable) { return settable.value_in(one) == settable.value_in(other); });
}

// A repair's published minutes have the starter's coming off in them; on the bench already, it costs the rest.
double minutes_of(const Repair& repair, bool starter_off) {
  const bool at_starter = repair.component == "starter" || repair.component == "mounting_face";
  if (!starter_off || !at_starter) return repair.minutes;
  return std::max(repair.minutes - job_minutes::starter_off, job_minutes::least_starter_repair);
}

double price_of(const Repair& repair, const Scenario& scenario) {
  const auto own = scenario.part_prices.find(std::string(repair.id));
  return own == scenario.part_prices.end() ? repair.parts_price : own->second;
}

}  // namespace

Outcome Session::check_naming(const NameFault& action) const {
  const auto& ids = action.fault_ids;
  const bool blank = std::any_of(ids.begin(), ids.end(), [](const std::string& id) { return id.empty(); });
  if (ids.empty() || blank) return refused(outcome::no_such_fault);
  const bool nothing = std::find(ids.begin(), ids.end(), nothing_found) != ids.end();
  if (nothing && ids.size() > 1) return refused(outcome::nothing_found_stands_alone);
  if (action.evidence.size() > most_evidence) return refused(outcome::too_much_evidence);
  const int last = static_cast<int>(findings_.size());
  const bool listed = std::all_of(action.evidence.begin(), action.evidence.end(),
                                  [&](int number) { return number >= 1 && number <= last; });
  return listed ? Outcome{} : refused(outcome::no_such_finding);
}

Outcome Session::carry_out(const NameFault& action) {
  if (Outcome checked = check_naming(action); !checked.done) return checked;
  Naming naming;
  naming.fault_ids = action.fault_ids;
  naming.evidence = action.evidence;
  naming.findings_then = static_cast<int>(findings_.size());
  naming.repairs_before = static_cast<int>(repairs_done_.size());
  namings_.push_back(std::move(naming));
  log_.add("name", action.fault_ids.front(), 0.0, true);
  return {true, std::string(namings_.size() > 1 ? outcome::named_again : outcome::named)};
}

Outcome Session::carry_out(const DoRepair& action) {
  const Repair* repair = repair_named(action.repair_id);
  if (repair == nullptr) return refused(outcome::no_such_repair);
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (namings_.empty()) return refused(outcome::name_first);

  let_go_of_brushes();
  Outcome outcome{true, std::string(outcome::repaired)};
  if (repair->needs_negative_off) {
    if (const Outcome eyes = require_eye_protection(); !eyes.id.empty()) outcome = eyes;
    if (battery_is_live()) {
      log_.mark(MarkKind::critical, outcome::spark_at_battery);
      outcome.id = outcome::spark_at_battery;
    }
  }
  const bool charges = repair->id == "charge_battery";
  if (const auto hazard = charge_hazard(); charges && !hazard.empty()) {
    log_.mark(MarkKind::critical, hazard);
    outcome.id = hazard;
  }
  const RigParameters before = awake();
  const RigParameters after = with_repair(before, *repair, scenario_.healthy);
  rig_.refit(with_repair(rig_.parameters(), *repair, scenario_.healthy), charges_battery(*repair));
  // Before time goes by: what is mended does not come back when the vehicle cools or dries meanwhile.
  repairs_done_.push_back(action.repair_id);
  const double minutes = minutes_of(*repair, controls_.starter_off);
  rig_.rest(minutes * 60.0);
  follow_wait(minutes * 60.0);
  const double price = price_of(*repair, scenario_);
  log_.add("repair", action.repair_id, minutes, true, price);
  if (same_everywhere(before, after)) log_.waste(price);
  cranked_since_repair_ = false;
  cranks_since_repair_ = 0;
  switched();
  return outcome;
}

std::optional<double> Session::take_as_displayed(std::string_view recorded) {
  return set_displayed(findings_.back(), recorded);
}

JobFacts Session::facts() const {
  return {scenario_, *job_.diagnosis, job_.par, rig_.parameters(),    findings_,
          namings_,  repairs_done_,   log_,     cranked_since_repair_};
}

Outcome Session::carry_out(const CloseJob& /*action*/) {
  if (controls_.key != KeyPosition::off || starter_fed()) return refused(outcome::key_not_off);
  if (!controls_.battery_connected) return refused(outcome::negative_still_off);
  const bool apart = controls_.starter_off || controls_.belt_off || controls_.plugs_out || !controls_.s_wire_on;
  if (apart) return refused(outcome::not_put_together);
  if (!devices_.all().empty()) return refused(outcome::still_hung);
  log_.add("close", "", 0.0, true);
  if (!scenario_.score_stays_closed()) {
    const std::vector<Question> besides = questions_besides(findings_, scenario_);
    job_ = known_jobs_ ? known_jobs_->get(scenario_, tables_, besides) : known_job(scenario_, tables_, besides);
    score_ = score_job(facts());
  }
  closed_ = true;
  return {true, std::string(outcome::job_closed)};
}

}  // namespace voltfall
