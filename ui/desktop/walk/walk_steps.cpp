#include "desktop/walk/walk_steps.h"

#include <algorithm>
#include <array>

namespace voltfall {
namespace {

using enum TestPoint;

bool noted(const Session& session, TestPoint one, TestPoint other, ElectricalState state, bool after_repair = false) {
  const auto& findings = session.findings();
  return std::any_of(findings.begin(), findings.end(), [&](const Finding& finding) {
    return finding.kind == Finding::Kind::volts && finding.is_between(one, other) && finding.state == state &&
           finding.after_repair == after_repair;
  });
}

bool made_safe(const Session& session, const WalkAnswers& /*answers*/) {
  return session.eye_protection_on() && session.brake_on() && !session.controls().ignition_live;
}

bool heard_a_crank(const Session& session, const WalkAnswers& /*answers*/) {
  const auto& crank = session.last_crank();
  return crank && crank->held_s > 1.0 && session.controls().key != KeyPosition::start;
}

bool battery_at_rest(const Session& session, const WalkAnswers& /*answers*/) {
  return noted(session, battery_positive_post, negative_post, ElectricalState::at_rest);
}

bool battery_cranking(const Session& session, const WalkAnswers& /*answers*/) {
  return noted(session, battery_positive_post, negative_post, ElectricalState::cranking);
}

bool predicted(const Session& /*session*/, const WalkAnswers& answers) {
  return answers.predicted.has_value();
}

bool clamp_cranking(const Session& session, const WalkAnswers& /*answers*/) {
  return noted(session, battery_positive_post, positive_clamp, ElectricalState::cranking);
}

bool starter_cranking(const Session& session, const WalkAnswers& /*answers*/) {
  return noted(session, positive_clamp, starter_terminal, ElectricalState::cranking) ||
         noted(session, starter_terminal, starter_case, ElectricalState::cranking);
}

bool always(const Session& /*session*/, const WalkAnswers& /*answers*/) {
  return true;
}

bool clamp_at_rest(const Session& session, const WalkAnswers& /*answers*/) {
  return noted(session, battery_positive_post, positive_clamp, ElectricalState::at_rest) ||
         noted(session, battery_positive_post, positive_clamp, ElectricalState::key_on);
}

bool cleaned(const Session& session, const WalkAnswers& /*answers*/) {
  const auto& done = session.repairs_done();
  return std::find(done.begin(), done.end(), "clean_positive_clamp") != done.end();
}

bool proved(const Session& session, const WalkAnswers& /*answers*/) {
  return noted(session, battery_positive_post, positive_clamp, ElectricalState::cranking, true);
}

constexpr std::array<std::string_view, 3> choices{"about 0.01 V", "about 1 V", "about 6 V"};

constexpr std::array steps{
    WalkStep{"Make it safe",
             "At the right, under Work order, tick all three: eye protection, parking brake, ignition lead off.",
             made_safe},
    WalkStep{"Listen",
             "Hold C, or press \u201C2 s\u201D at the top. Under the vehicle stands what you would hear and see.",
             heard_a_crank},
    WalkStep{"The battery at rest",
             "Key off. Drag red to 1, black to 13 (or R 1 Enter, B 13 Enter). Press N, or Note, to note the figure.",
             battery_at_rest},
    WalkStep{"The battery at work", "Leads as they are: crank for 5 s, and press N while it turns.", battery_cranking},
    WalkStep{"Foretell", "Post to its own clamp, 1 to 2, while cranking: how much?", predicted, true},
    WalkStep{"Measure it", "Red on 1, black on 2. Crank for 5 s, and press N while it turns.", clamp_cranking, false,
             false, true},
    WalkStep{"Nearer the starter", "Now red on 2, black on 8: cable and relay. Crank, and press N.", starter_cranking},
    WalkStep{"See the sum",
             "The fall line below adds up what you noted. Little is lost on the way to the starter; the rest does "
             "work in the motor.",
             always, false, true},
    WalkStep{"The same car, next week", "\u201CIt only clicks.\u201D Make it safe again.", made_safe},
    WalkStep{"Listen again", "Crank for 2 s. What is different: sound, lamps?", heard_a_crank},
    WalkStep{"At rest it hides", "Red on 1, black on 2, key off: note it. Nothing flows, so nothing is lost.",
             clamp_at_rest},
    WalkStep{"Under load it shows", "The same two points: crank for 2 s, and press N while the key is held.",
             clamp_cranking},
    WalkStep{"Name it, then clean it",
             "Close out: pick \u201CPositive clamp, corroded\u201D, tick the cranking finding, seal. Then clean it: "
             "negative clamp off first.",
             cleaned},
    WalkStep{"Prove it", "Negative clamp on again. Back at the vehicle: 1 to 2, crank for 5 s, press N while it turns.",
             proved},
    WalkStep{"What you know now",
             "A bad joint reads nothing at rest and takes volts under load. Test under load; repair; repeat the same "
             "reading.",
             always},
};

}  // namespace

std::span<const WalkStep> walk_steps() {
  return steps;
}

std::span<const std::string_view> prediction_choices() {
  return choices;
}

}  // namespace voltfall
