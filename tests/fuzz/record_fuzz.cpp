// A record from a stranger. As it comes, its chain is broken at once; so its lines are put into a whole chain as well,
// as only somebody with the program's own key could, and played. Time between actions is cut short: what is looked for
// is what actions do, not how long a starter can be held.

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <sstream>
#include <string>
#include <string_view>

#include "sealing/bytes.h"
#include "session/record.h"

namespace {

using Json = nlohmann::ordered_json;

constexpr std::int64_t most_steps_between = 400;
constexpr int most_lines = 60;

constexpr const char* job = R"([job]
title = "t"
setting = "s"
complaint = "c"
[vehicle]
name = "v"
[[fault]]
id = "positive_clamp_corroded"
[kit]
instruments = ["multimeter", "clamp_meter", "load_tester", "fused_jumper", "test_lamp", "booster_pack", "recorder",
  "thermometer", "remote_switch", "heavy_lead", "hydrometer", "conductance_tester", "tachometer"]
[debrief]
text = "d"
)";

std::string header(voltfall::LineChain& chain) {
  Json line;
  line["v"] = voltfall::record_format;
  line["record"] = "voltfall job";
  line["scenario"] = "fuzz";
  line["attempt"] = 1;
  line["step_s"] = voltfall::Session::step_s;
  line["job"] = voltfall::hex(voltfall::digest(job));
  line["scenario_text"] = job;
  return chain.next_line(std::move(line)) + "\n";
}

/// The objects among the lines, their steps close together, in a chain.
std::string chained(std::string_view text) {
  voltfall::LineChain chain = voltfall::LineChain::begun();
  std::string record = header(chain);
  std::istringstream lines{std::string(text)};
  std::string line;
  std::int64_t step = 0;
  for (int count = 0; count < most_lines && std::getline(lines, line); ++count) {
    Json json = Json::parse(line, nullptr, false);
    if (!json.is_object() || json.value("act", Json()) == "close_job") continue;
    const auto given = json.find("step");
    const bool has_step = given != json.end() && given->is_number_integer();
    step += (has_step ? std::abs(given->get<std::int64_t>() % most_steps_between) : 0);
    json["v"] = voltfall::record_format;
    json["step"] = step;
    record += chain.next_line(std::move(json)) + "\n";
  }
  return record;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* bytes, std::size_t count) {
  const std::string_view text(reinterpret_cast<const char*>(bytes), count);
  voltfall::record_head(text.substr(0, text.find('\n')));
  voltfall::replay_text(text, "fuzz.vfrec");
  voltfall::replay_text(chained(text), "fuzz.vfrec");
  return 0;
}
