#include "sealing/release.h"

#include <fmt/format.h>

#include "sealing/json_fields.h"

namespace voltfall {
namespace {

constexpr int release_format = 1;
constexpr std::string_view kind = "release";

std::string signed_part(const std::set<std::string>& jobs) {
  return fmt::format("voltfall release {}\n{}", release_format, fmt::join(jobs, "\n"));
}

}  // namespace

std::string release_text(const std::set<std::string>& jobs, const InstructorKey& key) {
  nlohmann::ordered_json json;
  json["v"] = release_format;
  json["voltfall"] = kind;
  json["instructor_box"] = base64(key.name().box);
  json["instructor_sign"] = base64(key.name().sign);
  json["jobs"] = jobs;
  json["signature"] = base64(key.signature_of(signed_part(jobs)));
  return json.dump(1) + "\n";
}

std::optional<Release> release_in(std::string_view text) {
  const auto json = nlohmann::json::parse(text, nullptr, false);
  if (text_in(json, "voltfall") != kind || whole_in(json, "v", 0) != release_format) return std::nullopt;
  Release release{{from_base64(text_in(json, "instructor_box")).value_or(""),
                   from_base64(text_in(json, "instructor_sign")).value_or("")},
                  {}};
  const auto jobs = json.find("jobs");
  if (jobs == json.end() || !jobs->is_array()) return std::nullopt;
  for (const auto& job : *jobs) {
    if (job.is_string()) release.jobs.insert(job.get<std::string>());
  }
  const Bytes signature = from_base64(text_in(json, "signature")).value_or("");
  if (!is_signed(release.instructor, signed_part(release.jobs), signature)) return std::nullopt;
  return release;
}

}  // namespace voltfall
