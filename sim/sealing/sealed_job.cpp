#include "sealing/sealed_job.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <stdexcept>

#include "sealing/json_fields.h"
#include "sealing/program_key.h"
#include "sealing/sodium.h"

namespace voltfall {
namespace {

using Json = nlohmann::json;

constexpr int job_format = 1;
constexpr std::string_view kind = "sealed job";
constexpr std::size_t page_bytes = 8192, salt_bytes = 32, longest_code = 40;
// A scenario of a mebibyte, sealed twice and written in base64, with room.
constexpr std::size_t largest_bytes = std::size_t{4} << 20;

Bytes padded(Bytes bytes) {
  std::size_t length = 0;
  const std::size_t before = bytes.size();
  bytes.resize(before + page_bytes);
  if (sodium_pad(&length, octets(bytes), before, page_bytes, bytes.size()) != 0) throw std::logic_error("no padding");
  bytes.resize(length);
  return bytes;
}

std::optional<Bytes> unpadded(Bytes bytes) {
  std::size_t length = 0;
  if (sodium_unpad(&length, octets(bytes), bytes.size(), page_bytes) != 0) return std::nullopt;
  bytes.resize(length);
  return bytes;
}

/// The sealed job's fields, checked for their form alone.
struct SealedJob {
  std::string code;
  InstructorName instructor;
  Bytes for_program, for_instructor, signature;

  /// What the instructor signs. Base64 has no line ends, so that nothing can move from one field to the next.
  std::string signed_part() const {
    return fmt::format("voltfall sealed job {}\n{}\n{}\n{}\n{}\n{}", job_format, code, base64(instructor.box),
                       base64(instructor.sign), base64(for_program), base64(for_instructor));
  }
};

std::optional<SealedJob> fields_of(std::string_view text) {
  const Json json = Json::parse(text, nullptr, false);
  if (text_in(json, "voltfall") != kind || whole_in(json, "v", 0) != job_format) return std::nullopt;
  SealedJob job;
  job.code = text_in(json, "code");
  bool whole = is_pupil_code(job.code);
  const auto take = [&](const char* key, Bytes& into) {
    std::optional<Bytes> bytes = from_base64(text_in(json, key));
    whole = whole && bytes && !bytes->empty();
    if (bytes) into = std::move(*bytes);
  };
  take("instructor_box", job.instructor.box);
  take("instructor_sign", job.instructor.sign);
  take("for_program", job.for_program);
  take("for_instructor", job.for_instructor);
  take("signature", job.signature);
  if (!whole) return std::nullopt;
  return job;
}

ReadScenario refused(std::string_view name, std::string what) {
  return {std::nullopt, {{std::string(name), 0, 0, std::move(what)}}};
}

ReadScenario damaged(std::string_view name) {
  return refused(name, "the sealed job is damaged or was changed; allowed: the file as the instructor dealt it");
}

/// The scenario in what was under the seal.
ReadScenario scenario_in(const std::optional<Bytes>& sealed, std::string_view file_text, std::string_view name,
                         const SealedJob& job) {
  const std::optional<Bytes> content = sealed ? unpadded(*sealed) : std::nullopt;
  if (!content) return damaged(name);
  const Json json = Json::parse(*content, nullptr, false);
  ReadScenario read =
      read_scenario_text(from_base64(text_in(json, "scenario")).value_or(""), text_in(json, "id") + ".toml");
  if (!read.scenario) return damaged(name);  // its problems would tell what is in it
  read.scenario->seal = Seal{std::string(file_text), job.code, hex(digest(*sealed)), true};
  return read;
}

}  // namespace

bool is_pupil_code(std::string_view code) {
  const auto fits = [](unsigned char letter) { return std::isalnum(letter) != 0 || letter == '-'; };
  return !code.empty() && code.size() <= longest_code && std::all_of(code.begin(), code.end(), fits);
}

std::string sealed_job_text(std::string_view scenario_id, std::string_view scenario_text, std::string_view code,
                            const InstructorKey& key) {
  if (!is_pupil_code(code)) {
    throw std::invalid_argument(
        fmt::format("'{}' is no code; allowed: 1 to {} letters, digits and hyphens", code, longest_code));
  }
  nlohmann::ordered_json content;
  content["id"] = scenario_id;
  content["salt"] = base64(random_bytes(salt_bytes));
  content["scenario"] = base64(scenario_text);  // whatever bytes it has
  const Bytes pages = padded(content.dump());
  SealedJob job{std::string(code), key.name(), sealed_to(program_box(), pages), sealed_to(key.name().box, pages), {}};
  nlohmann::ordered_json json;
  json["v"] = job_format;
  json["voltfall"] = kind;
  json["code"] = job.code;
  json["instructor_box"] = base64(job.instructor.box);
  json["instructor_sign"] = base64(job.instructor.sign);
  json["for_program"] = base64(job.for_program);
  json["for_instructor"] = base64(job.for_instructor);
  json["signature"] = base64(key.signature_of(job.signed_part()));
  return json.dump(1) + "\n";
}

bool is_sealed_job(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  return first != std::string_view::npos && text[first] == '{';
}

SealOpener by_program() {
  return by_releases({});
}

SealOpener by_releases(std::vector<Release> releases) {
  return [releases = std::move(releases)](std::string_view text, std::string_view name) {
    const std::optional<SealedJob> job = fields_of(text);
    if (!job || !is_signed(job->instructor, job->signed_part(), job->signature)) return damaged(name);
    ReadScenario read = scenario_in(opened_by_program(job->for_program), text, name, *job);
    if (!read.scenario) return read;
    Seal& seal = *read.scenario->seal;
    seal.score_closed = std::none_of(releases.begin(), releases.end(), [&](const Release& release) {
      return release.instructor == job->instructor && release.jobs.contains(seal.job);
    });
    return read;
  };
}

SealOpener by_no_key() {
  return [](std::string_view /*text*/, std::string_view name) {
    return refused(name, "is a sealed job, which opens only in the Bay; allowed: --key with the instructor's key");
  };
}

SealOpener by_key(InstructorKey key) {
  return [key = std::move(key)](std::string_view text, std::string_view name) {
    const std::optional<SealedJob> job = fields_of(text);
    if (!job) return damaged(name);
    if (job->instructor != key.name()) {
      return refused(name, "foreign: the job was not sealed with this key; allowed: jobs dealt with it");
    }
    if (!is_signed(key.name(), job->signed_part(), job->signature)) return damaged(name);
    ReadScenario read = scenario_in(key.opened(job->for_instructor), text, name, *job);
    if (read.scenario) read.scenario->seal->score_closed = false;
    return read;
  };
}

ReadScenario read_job(const std::filesystem::path& file, const SealOpener& opener) {
  ReadText read = read_small_file(file, largest_bytes, "a scenario (.toml) or a sealed job (.vfjob)");
  if (read.problem) return {std::nullopt, {std::move(*read.problem)}};
  if (!is_sealed_job(read.text)) return read_scenario_text(read.text, file.string());
  if (opener) return opener(read.text, file.string());
  return refused(file.string(),
                 "is a sealed job, which opens only in the Bay; allowed: --key with the instructor's key");
}

}  // namespace voltfall
