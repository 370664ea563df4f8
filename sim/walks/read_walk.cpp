#include "walks/read_walk.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "scenario/read_scenario.h"
#include "scenario/toml_slips.h"
#include "walks/walk_table.h"

namespace voltfall {
namespace {

constexpr std::size_t largest_bytes = std::size_t{1} << 20;
constexpr std::size_t most_sights = 8;

WalkPage read_predict(const toml::table& node, Mistakes& mistakes) {
  WalkPage page{.kind = WalkPageKind::predict};
  page.question = read_question(node, "predict", true, mistakes);
  const toml::node* repeat = node.get("repeat");
  if (repeat == nullptr) {
    mistakes.add(node, "predict.repeat is missing; every predict needs it, for whoever was wrong");
  } else if (const toml::table* inner = repeat->as_table()) {
    page.repeat = read_question(*inner, "predict.repeat", false, mistakes);
    if (page.repeat->reasons.empty()) page.repeat->reasons = page.question->reasons;
  } else {
    mistakes.add(*repeat, fmt::format("predict.repeat is {}; allowed: a section [predict.repeat]", kind_of(*repeat)));
  }
  return page;
}

WalkSight read_sight(const toml::table& node, const VehicleType& vehicle, Mistakes& mistakes) {
  constexpr std::array views{WalkView::engage, WalkView::volts, WalkView::threshold};
  const std::array<std::string_view, views.size()> names{id_of(views[0]), id_of(views[1]), id_of(views[2])};
  WalkTable table(node, "see", mistakes);
  WalkSight sight;
  sight.at = table.place();
  sight.words = table.needed_text("words", longest_walk_sight);
  sight.view = views[table.needed_choice("view", names)];
  sight.trial = read_trial(table, &vehicle);
  sight.sweep = read_sweep(table);
  table.finish();
  if (sight.sweep.has_value() != (sight.view == WalkView::threshold)) {
    mistakes.add(node, fmt::format("the view is {} and there is {} sweep; allowed: a sweep in the threshold view, and "
                                   "only there",
                                   id_of(sight.view), sight.sweep ? "a" : "no"));
  }
  return sight;
}

WalkPage read_see(WalkTable& file, const VehicleType& vehicle) {
  WalkPage page{.kind = WalkPageKind::see};
  if (!file.require("see")) return page;
  const toml::node& node = *file.at("see");
  for_each_table(node, "see", file.mistakes(),
                 [&](const toml::table& entry) { page.sights.push_back(read_sight(entry, vehicle, file.mistakes())); });
  if (page.sights.empty() || page.sights.size() > most_sights) {
    file.mistakes().add(
        node, fmt::format("see stands there {} times; allowed: 1 to {} times", page.sights.size(), most_sights));
  }
  return page;
}

WalkPage read_explain(const toml::table& node, Mistakes& mistakes) {
  WalkPage page{.kind = WalkPageKind::explain};
  WalkTable table(node, "explain", mistakes);
  page.ask = table.needed_text("ask", longest_walk_text);
  page.ours = table.needed_text("ours", longest_walk_line);
  table.finish();
  return page;
}

WalkPage read_unlike(const toml::table& node, const VehicleType& predicted_on, Mistakes& mistakes) {
  WalkPage page{.kind = WalkPageKind::unlike};
  page.question = read_question(node, "unlike", false, mistakes);
  if (page.question->trial.vehicle != &predicted_on) return page;
  std::vector<std::string_view> others;
  for (const VehicleType& type : all_vehicle_types()) {
    if (&type != &predicted_on) others.push_back(type.id);
  }
  mistakes.add(node, fmt::format("unlike.vehicle is {}, as in [predict]; allowed: another: {}", predicted_on.id,
                                 listed(others)));
  return page;
}

void read_pages(WalkTable& file, BenchWalk& walk) {
  Mistakes& mistakes = file.mistakes();
  const VehicleType* vehicle = &all_vehicle_types().front();
  if (const toml::table* predict = file.table("predict", true)) {
    walk.pages.push_back(read_predict(*predict, mistakes));
    vehicle = walk.pages.back().question->trial.vehicle;
  }
  walk.pages.push_back(read_see(file, *vehicle));
  if (const toml::table* explain = file.table("explain", true)) walk.pages.push_back(read_explain(*explain, mistakes));
  if (const toml::table* unlike = file.table("unlike", true)) {
    walk.pages.push_back(read_unlike(*unlike, *vehicle, mistakes));
  }
}

BenchWalk read_whole(const toml::table& root, Mistakes& mistakes) {
  constexpr Range numbers{1.0, 999.0}, minutes{1.0, 30.0, "min"};
  constexpr std::array groups{WalkGroup::circuit, WalkGroup::starter};
  const std::array<std::string_view, 2> group_ids{id_of(groups[0]), id_of(groups[1])};
  WalkTable file(root, "", mistakes);
  BenchWalk walk;
  const double number = file.needed_number("number", numbers);
  walk.number = static_cast<int>(number);
  if (walk.number != number) {
    mistakes.add(*root.get("number"), fmt::format("number is {:g}; allowed: a whole number from 1 to 999", number));
  }
  walk.group = groups[file.needed_choice("group", group_ids)];
  walk.title = file.needed_text("title", longest_walk_title);
  walk.minutes = file.number("minutes", minutes).value_or(walk.minutes);
  walk.intro = file.needed_text("intro", longest_walk_text);
  read_pages(file, walk);
  file.finish();
  return walk;
}

std::vector<std::filesystem::path> walk_files_in(const std::filesystem::path& folder, std::error_code& failed) {
  std::vector<std::filesystem::path> files;
  std::filesystem::directory_iterator entry(folder, failed), none;
  for (; !failed && entry != none; entry.increment(failed)) {
    if (entry->path().extension() == ".toml") files.push_back(entry->path());
  }
  std::sort(files.begin(), files.end());
  return files;
}

void refuse_same_numbers(const ReadWalks& read, std::vector<Problem>& problems) {
  for (std::size_t i = 1; i < read.walks.size(); ++i) {
    const BenchWalk &one = read.walks[i - 1], &next = read.walks[i];
    if (one.number != next.number) continue;
    problems.push_back(
        {next.file, 0, 0,
         fmt::format("number {} is also that of {}; allowed: a number of its own", next.number, one.id)});
  }
}

}  // namespace

ReadWalk read_walk(const std::filesystem::path& path) {
  ReadText read = read_small_file(path, largest_bytes, "a walk (.toml)");
  if (read.problem) return {std::nullopt, {std::move(*read.problem)}};
  return read_walk_text(read.text, path.string());
}

ReadWalk read_walk_text(std::string_view text, std::string_view name) {
  Mistakes mistakes(name);
  if (text.size() > largest_bytes) mistakes.add_for_file("is larger than 1 MiB; allowed: at most 1 MiB");
  refuse_crowded_lines(text, mistakes);
  if (!mistakes.none()) return {std::nullopt, mistakes.in_file_order()};
  try {
    const toml::table root = toml::parse(text);
    BenchWalk walk = read_whole(root, mistakes);
    if (!mistakes.none()) return {std::nullopt, mistakes.in_file_order()};
    walk.id = std::filesystem::path(name).stem().string();
    walk.file = name;
    return {std::move(walk), {}};
  } catch (const toml::parse_error& error) {
    mistakes.add(error.source().begin,
                 fmt::format("{}; allowed: TOML{}", error.description(), slip_in(text, error.source().begin)));
    return {std::nullopt, mistakes.in_file_order()};
  }
}

ReadWalks read_walks(const std::filesystem::path& folder) {
  ReadWalks read;
  std::error_code failed;
  for (const std::filesystem::path& path : walk_files_in(folder, failed)) {
    ReadWalk one = read_walk(path);
    if (one.walk) read.walks.push_back(std::move(*one.walk));
    read.problems.insert(read.problems.end(), one.problems.begin(), one.problems.end());
  }
  if (failed) read.problems.push_back({folder.string(), 0, 0, "can't be read; allowed: a folder of walks (.toml)"});
  std::stable_sort(read.walks.begin(), read.walks.end(),
                   [](const BenchWalk& one, const BenchWalk& next) { return one.number < next.number; });
  refuse_same_numbers(read, read.problems);
  return read;
}

}  // namespace voltfall
