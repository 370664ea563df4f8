#include "session/outcomes.h"
#include "session/session.h"

namespace voltfall {

Outcome Session::carry_out(const MoveClutchPedal& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const LiftSWire& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TakeBeltOff& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TakePlugsOut& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const BarEngine& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const DisturbPart& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const FeelPart& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const HangDevice& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TakeDeviceOff& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const PressRemote& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TurnLoadTester& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const BridgeStuds& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const DipHydrometer& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TestConductance& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const AimThermometer& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const PutRecorderChannel& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const ArmRecorder& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TakeStarterOff& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const TestOnBench& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}
Outcome Session::carry_out(const StrikeSuspect& /*action*/) {
  return {false, std::string(outcome::not_in_kit)};
}

}  // namespace voltfall
