#include "tally/concepts.h"

#include <algorithm>

namespace voltfall {
namespace {

using Kind = Finding::Kind;

/// What had been noted when the vehicle was first named or worked on.
std::span<const Finding> before_decision(const Session& session) {
  const auto& findings = session.findings();
  std::size_t count = findings.size();
  if (!session.namings().empty()) count = static_cast<std::size_t>(session.namings().front().findings_then);
  const auto repaired =
      std::find_if(findings.begin(), findings.end(), [](const Finding& finding) { return finding.repairs_before > 0; });
  count = std::min(count, static_cast<std::size_t>(repaired - findings.begin()));
  return std::span(findings).first(count);
}

bool is_cranking_volts(const Finding& finding) {
  return finding.kind == Kind::volts && finding.state == ElectricalState::cranking && finding.red && finding.black;
}

/// Its posts while the starter pulls, or a tester across it.
bool checks_battery(const Finding& finding) {
  const bool tested =
      finding.kind == Kind::load_volts || finding.kind == Kind::gravity || finding.kind == Kind::cold_amps;
  return tested ||
         (is_cranking_volts(finding) && finding.is_between(TestPoint::battery_positive_post, TestPoint::negative_post));
}

bool is_ground(TestPoint point) {
  using enum TestPoint;
  return point == starter_case || point == engine_block || point == block_lug || point == negative_clamp ||
         point == negative_post || point == body;
}

bool checks_ground_side(const Finding& finding) {
  return is_cranking_volts(finding) && is_ground(*finding.red) && is_ground(*finding.black);
}

void count(Tallied& tallied, bool held) {
  ++tallied.of;
  tallied.held += held ? 1 : 0;
}

bool gate_held(const Score& score, std::string_view id) {
  return std::any_of(score.gates.begin(), score.gates.end(),
                     [&](const Gate& gate) { return gate.id == id && gate.held; });
}

}  // namespace

void tally_concepts(const Session& session, std::array<Tallied, concept_count>& concepts) {
  const auto of = [&](Concept one) -> Tallied& { return concepts.at(static_cast<std::size_t>(one)); };
  const auto before = before_decision(session);
  count(of(Concept::battery_first), std::any_of(before.begin(), before.end(), checks_battery));
  count(of(Concept::ground_side), std::any_of(before.begin(), before.end(), checks_ground_side));
  for (const Finding& finding : session.findings()) {
    if (finding.kind != Kind::volts || checks_battery(finding)) continue;
    count(of(Concept::loaded_testing), worth_of(finding, session.scenario()).able);
  }
  count(of(Concept::supported_name), gate_held(*session.score(), "supported"));
  count(of(Concept::same_reading_again), gate_held(*session.score(), "proved"));
  count(of(Concept::safe_work), session.log().marks().empty());
}

std::string_view id_of(Concept one) {
  constexpr std::array<std::string_view, concept_count> ids{"battery_first",  "loaded_testing",     "ground_side",
                                                            "supported_name", "same_reading_again", "safe_work"};
  return ids.at(static_cast<std::size_t>(one));
}

}  // namespace voltfall
