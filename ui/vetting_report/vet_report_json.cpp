#include "vetting_report/vet_report_json.h"

#include <array>
#include <nlohmann/json.hpp>

namespace voltfall {
namespace {

using Json = nlohmann::ordered_json;

/// In the order of Finding::Kind.
constexpr std::array<std::string_view, 14> kind_ids{"volts", "ohms",    "amps",      "heard_or_seen", "looked",
                                                    "felt",  "gravity", "cold_amps", "load_volts",    "temperature",
                                                    "speed", "lamp",    "bench",     "trace"};

Json question_json(const Question& question, int answer) {
  Json json;
  json["kind"] = kind_ids.at(static_cast<std::size_t>(question.kind));
  json["condition"] = id_of(question.condition);
  if (question.red) json["red"] = id_of(*question.red);
  if (question.black) json["black"] = id_of(*question.black);
  if (question.clamp) json["clamp"] = id_of(*question.clamp);
  if (question.cell > 0) json["cell"] = question.cell;
  if (!question.about.empty()) json["about"] = question.about;
  json["answer"] = answer_in_words(question, answer);
  return json;
}

Json reading_json(const VetReading& reading) {
  Json json = question_json(reading.question, reading.answer);
  json["healthy"] = reading.healthy;
  json["faulty"] = reading.faulty;
  if (reading.limit.lowest > 0.0) json["limit_lowest"] = reading.limit.lowest;
  if (reading.limit.highest > 0.0) json["limit_highest"] = reading.limit.highest;
  json["accuracy"] = reading.accuracy;
  json["margin_accuracies"] = reading.margin;
  json["shows_fault"] = reading.shows_fault;
  if (reading.left) json["candidates_left"] = *reading.left;
  return json;
}

Json step_json(const VetStep& step) {
  Json json;
  if (step.question) {
    json["test"] = question_json(*step.question, step.answer);
    json["truth_share"] = step.truth_share;
  } else {
    json["repairs"] = step.repairs;
  }
  json["minutes"] = step.minutes;
  return json;
}

Json report_json(const VetReport& report) {
  Json json;
  json["scenario"] = report.id;
  json["title"] = report.title;
  json["sound"] = report.sound();
  json["remarks"] = Json::array();
  for (const VetRemark& remark : report.remarks) {
    json["remarks"].push_back({{"id", remark.id}, {"unsound", remark.unsound}, {"text", remark.text}});
  }
  json["heard"] = {{"key_alone", report.key_alone.faulty}, {"with_lamps", report.with_lamps.faulty}};
  json["heard_healthy"] = {{"key_alone", report.key_alone.healthy}, {"with_lamps", report.with_lamps.healthy}};
  json["readings"] = Json::array();
  for (const VetReading& reading : report.readings) json["readings"].push_back(reading_json(reading));
  json["signs"] = Json::array();
  for (const VetSign& sign : report.signs) json["signs"].push_back(question_json(sign.question, sign.answer));
  json["not_told_apart"] = report.not_told_apart;
  json["par_minutes"] = report.par_minutes;
  json["par"] = Json::array();
  for (const VetStep& step : report.par) json["par"].push_back(step_json(step));
  json["points"] = Json::array();
  for (const VetPoint& point : report.points) {
    json["points"].push_back({{"point", id_of(point.point)},
                              {"rest_healthy_V", point.rest_healthy_V},
                              {"rest_faulty_V", point.rest_faulty_V},
                              {"cranking_healthy_V", point.cranking_healthy_V},
                              {"cranking_faulty_V", point.cranking_faulty_V}});
  }
  return json;
}

}  // namespace

std::string vet_reports_as_json(std::span<const VetReport> reports) {
  Json json = Json::array();
  for (const VetReport& report : reports) json.push_back(report_json(report));
  return json.dump(2);
}

}  // namespace voltfall
