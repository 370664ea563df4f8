#include <algorithm>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "walks/walk_progress.h"
#include "walks/walk_text.h"

namespace voltfall {
namespace {

using Json = nlohmann::ordered_json;

constexpr int version = 1;
constexpr std::size_t largest_bytes = std::size_t{1} << 20;
constexpr std::size_t most_choices = 16;  // more than any question has

Json json_of(const WalkReply& reply) {
  Json json{{"choice", reply.choice}, {"right", reply.right}};
  if (reply.reason) json["reason"] = *reply.reason;
  return json;
}

Json json_of(const WalkNotes& notes) {
  Json json = Json::object();
  if (notes.predicted) json["predicted"] = json_of(*notes.predicted);
  if (notes.unlike) json["unlike"] = json_of(*notes.unlike);
  if (!notes.line.empty()) json["line"] = notes.line;
  json["finished"] = notes.finished;
  return json;
}

// The getters of nlohmann's that are used here throw when another kind of value stands there.

std::size_t index_in(const Json& json, std::size_t below) {
  if (!json.is_number_integer() || json < 0 || json >= below) throw std::invalid_argument("a number is out of range");
  return json.get<std::size_t>();
}

WalkReply reply_in(const Json& json) {
  WalkReply reply{index_in(json.at("choice"), most_choices), std::nullopt, json.at("right").get<bool>()};
  if (json.contains("reason")) reply.reason = index_in(json.at("reason"), most_choices);
  return reply;
}

WalkNotes notes_in(const Json& json) {
  WalkNotes notes;
  if (json.contains("predicted")) notes.predicted = reply_in(json.at("predicted"));
  if (json.contains("unlike")) notes.unlike = reply_in(json.at("unlike"));
  if (json.contains("line")) notes.line = cut_to(json.at("line").get<std::string>(), longest_walk_line);
  notes.finished = json.at("finished").get<bool>();
  return notes;
}

bool is_there(std::span<const BenchWalk> walks, const std::string& id) {
  return std::any_of(walks.begin(), walks.end(), [&](const BenchWalk& walk) { return walk.id == id; });
}

/// Each once, and only of walks that there are.
std::vector<std::string> ids_in(const Json& json, std::span<const BenchWalk> walks) {
  if (!json.is_array()) throw std::invalid_argument("a list is missing");
  std::vector<std::string> ids;
  for (const Json& entry : json) {
    auto id = entry.get<std::string>();
    if (is_there(walks, id) && std::find(ids.begin(), ids.end(), id) == ids.end()) ids.push_back(std::move(id));
  }
  return ids;
}

}  // namespace

std::string WalkProgress::to_json() const {
  Json json{{"version", version}, {"missed", missed_}, {"walks", Json::object()}};
  for (const auto& [id, notes] : notes_) json["walks"][id] = json_of(notes);
  if (open_) {
    Json& open = json["open"] = {{"walk", open_->walk}, {"page", id_of(open_->page)}, {"returning", open_->returning}};
    if (open_->returned) open["returned"] = json_of(*open_->returned);
  }
  // A line typed by a learner may hold bytes that are no text: those are replaced rather than refused.
  return json.dump(2, ' ', false, Json::error_handler_t::replace);
}

class WalkProgressReader {
 public:
  WalkProgressReader(const Json& json, std::span<const BenchWalk> walks) : json_(json), walks_(walks) {}

  WalkProgress read() {
    if (json_.at("version") != version || !json_.at("version").is_number_integer())
      throw std::invalid_argument("it is of another version");
    if (!json_.at("walks").is_object()) throw std::invalid_argument("the walks are missing");
    for (const auto& [id, notes] : json_.at("walks").items()) {
      WalkNotes read = notes_in(notes);
      if (is_there(walks_, id)) progress_.notes_[id] = std::move(read);
    }
    progress_.missed_ = ids_in(json_.at("missed"), walks_);
    if (json_.contains("open")) read_open(json_.at("open"));
    return std::move(progress_);
  }

 private:
  void read_open(const Json& json) {
    WalkProgress::Open open;
    open.walk = json.at("walk").get<std::string>();
    open.page = page_in(json.at("page").get<std::string>());
    open.returning = ids_in(json.at("returning"), walks_);
    if (json.contains("returned")) open.returned = reply_in(json.at("returned"));
    // The first question in the list may have gone with its file; its reply must not pass for the next one's.
    const Json& listed = json.at("returning");
    if (open.returning.empty() || listed.front() != open.returning.front()) open.returned.reset();
    if (!is_there(walks_, open.walk)) return;
    progress_.notes_.try_emplace(open.walk);
    progress_.open_ = std::move(open);
  }

  static WalkPageKind page_in(const std::string& id) {
    for (const WalkPageKind kind :
         {WalkPageKind::predict, WalkPageKind::see, WalkPageKind::explain, WalkPageKind::unlike}) {
      if (id_of(kind) == id) return kind;
    }
    throw std::invalid_argument("there is no such page");
  }

  const Json& json_;
  std::span<const BenchWalk> walks_;
  WalkProgress progress_;
};

ReadWalkProgress walk_progress_in(std::string_view json, std::span<const BenchWalk> walks) {
  if (json.size() > largest_bytes) return {{}, "What was kept of the walks is too large to read: a fresh start."};
  try {
    const Json parsed = Json::parse(json);
    return {WalkProgressReader(parsed, walks).read(), {}};
  } catch (const std::exception&) {
    // What exactly is broken helps nobody who only wants to go on.
    return {{}, "What was kept of the walks can't be read: a fresh start."};
  }
}

}  // namespace voltfall
