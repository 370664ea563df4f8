#include "support/handy_person.h"

#include <algorithm>

namespace voltfall::test {
namespace {

using Kind = Finding::Kind;

constexpr double crank_s = 1.5;  // by then every display has a whole steady window

MeterFunction function_for(Kind kind) {
  return kind == Kind::ohms ? MeterFunction::ohms : MeterFunction::volts_dc;
}

Kit instrument_for(Kind kind) {
  switch (kind) {
    case Kind::amps:
      return Kit::clamp_meter;
    case Kind::speed:
      return Kit::tachometer;
    case Kind::lamp:
      return Kit::test_lamp;
    default:
      return Kit::multimeter;
  }
}

}  // namespace

Outcome HandyPerson::act(const Action& action) {
  return session_.act(action);
}

void HandyPerson::let_time_pass() {
  session_.run_for_s(10.0);
}

void HandyPerson::make_safe() {
  act(WearEyeProtection{true});
  act(SetBrake{true});
  act(DisableIgnition{true});
  switch_as(Condition::rest);
}

void HandyPerson::switch_as(Condition condition) {
  const Controls wanted = controls_in(condition, session_.scenario().healthy);
  const Controls& now = session_.controls();
  if (now.gear != wanted.gear) act(ShiftGear{wanted.gear});
  if (now.clutch_pedal_down != wanted.clutch_pedal_down) act(MoveClutchPedal{wanted.clutch_pedal_down});
  if (now.headlamps != wanted.headlamps) act(SwitchHeadlamps{wanted.headlamps});
  if (now.belt_off != wanted.belt_off) act(TakeBeltOff{wanted.belt_off});
  if (now.plugs_out != wanted.plugs_out) act(TakePlugsOut{wanted.plugs_out});
  const bool bench = condition == Condition::bench;
  if (now.starter_off != bench) {
    act(ConnectNegative{false});
    act(TakeStarterOff{bench});
  }
  const bool connected = wanted.battery_connected && !bench;
  if (now.battery_connected != connected) act(ConnectNegative{connected});
  if (const auto hung = hung_in(condition)) act(HangDevice{*hung});
  if (condition == Condition::key_on) act(TurnKey{KeyPosition::on});
}

void HandyPerson::feed_starter(Condition condition) {
  if (condition == Condition::remote_start) {
    act(PressRemote{true});
  } else {
    act(TurnKey{KeyPosition::start});
  }
  session_.run_for_s(crank_s);
}

void HandyPerson::stop_starter(Condition condition) {
  if (condition == Condition::remote_start) act(PressRemote{false});
  act(TurnKey{KeyPosition::off});
  let_time_pass();
}

void HandyPerson::put_together() {
  while (!session_.hung().empty()) act(TakeDeviceOff{session_.hung().front().device});
  if (session_.controls().key != KeyPosition::off) act(TurnKey{KeyPosition::off});
  switch_as(Condition::rest);
  let_time_pass();
}

std::optional<int> HandyPerson::last_finding_of(const Outcome& outcome) const {
  if (!outcome.done || session_.findings().empty()) return std::nullopt;
  return session_.findings().back().number;
}

std::optional<int> HandyPerson::note(Kit from) {
  return last_finding_of(act(NoteReading{from}));
}

std::optional<int> HandyPerson::note_word(const Question& question) {
  const auto& crank = session_.last_crank();
  if (!crank) return std::nullopt;
  const auto holds = [&](std::string_view word) { return observation_named(word)->holds(*crank); };
  static constexpr std::array<std::string_view, 3> lamps{"lamps_bright", "lamps_dim", "lamps_out"};
  const auto words = question.about == "lamps" ? std::span<const std::string_view>(lamps) : sound_words();
  const auto found = std::find_if(words.begin(), words.end(), holds);
  if (found == words.end()) return std::nullopt;
  return last_finding_of(act(NoteObservation{std::string(*found)}));
}

std::optional<int> HandyPerson::listen(Condition condition) {
  return answer({Kind::heard_or_seen, condition, {}, {}, {}, 0, {}});
}

std::optional<int> HandyPerson::read_at_points(const Question& question) {
  if (question.kind == Kind::lamp) {
    act(HangDevice{{Device::test_lamp, *question.red, *question.black}});
  } else if (question.kind == Kind::amps) {
    act(PutClamp{question.clamp});
    act(ZeroClamp{});
    let_time_pass();
  } else if (question.red) {
    act(SetMeterFunction{function_for(question.kind)});
    act(PutProbe{true, question.red});
    act(PutProbe{false, question.black});
  }
  const bool cranking = is_cranking(question.condition);
  if (cranking) {
    feed_starter(question.condition);
  } else {
    let_time_pass();
  }
  const auto finding = note(instrument_for(question.kind));
  if (cranking) stop_starter(question.condition);
  return finding;
}

std::optional<int> HandyPerson::load_test() {
  constexpr double held_s = 15.0;
  act(HangDevice{{Device::load_tester, TestPoint::battery_positive_post, TestPoint::negative_post}});
  act(TurnLoadTester{0.5 * session_.scenario().healthy.battery.rated_CCA_A});
  session_.run_for_s(held_s);
  const auto finding = note(Kit::load_tester);
  act(TurnLoadTester{0.0});
  return finding;
}

std::optional<int> HandyPerson::answer(const Question& question) {
  switch_as(question.condition);
  std::optional<int> finding;
  switch (question.kind) {
    case Kind::looked:
      finding = last_finding_of(act(LookClosely{question.about}));
      break;
    case Kind::felt:
      finding = last_finding_of(question.about == "engine" ? act(BarEngine{})
                                                           : act(DisturbPart{Touch::wiggle, question.about}));
      break;
    case Kind::gravity:
      finding = last_finding_of(act(DipHydrometer{question.cell}));
      break;
    case Kind::cold_amps:
      finding = last_finding_of(act(TestConductance{}));
      break;
    case Kind::load_volts:
      finding = load_test();
      break;
    case Kind::bench:
      finding = last_finding_of(act(TestOnBench{*bench_test_named(question.about)}));
      break;
    case Kind::heard_or_seen:
      feed_starter(question.condition);
      stop_starter(question.condition);
      finding = note_word(question);
      break;
    default:
      finding = read_at_points(question);
  }
  put_together();
  return finding;
}

void HandyPerson::repair(const std::string& repair_id) {
  put_together();
  const bool power = repair_named(repair_id)->needs_negative_off;
  if (power) act(ConnectNegative{false});
  act(DoRepair{repair_id});
  if (power) act(ConnectNegative{true});
  let_time_pass();
}

}  // namespace voltfall::test
