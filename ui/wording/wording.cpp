#include "wording/wording.h"

#include <fmt/format.h>

#include <array>

#include "job/findings.h"

namespace voltfall {

std::string_view Wording::text(std::string_view path) const {
  const auto found = texts_.find(path);
  return found != texts_.end() ? std::string_view(found->second) : path;
}

bool Wording::has(std::string_view path) const {
  return texts_.contains(path) || lists_.contains(path);
}

std::vector<std::string_view> Wording::list(std::string_view path) const {
  const auto found = lists_.find(path);
  if (found == lists_.end()) return {};
  return {found->second.begin(), found->second.end()};
}

std::string_view Wording::under(std::string_view section, std::string_view id, std::string_view part) const {
  const auto found = texts_.find(fmt::format("{}.{}{}", section, id, part));
  return found != texts_.end() ? std::string_view(found->second) : id;
}

std::string_view Wording::point(TestPoint point) const {
  return under("point", id_of(point), ".name");
}
std::string_view Wording::point_short(TestPoint point) const {
  return under("point", id_of(point), ".short");
}
std::string_view Wording::cable(HeavyCable cable) const {
  return under("cable", id_of(cable), "");
}
std::string_view Wording::component(std::string_view id) const {
  return under("component", id, "");
}
std::string_view Wording::found(std::string_view fault_id) const {
  return under("fault", fault_id, ".found");
}
std::string_view Wording::repair(std::string_view id) const {
  return under("repair", id, ".order");
}
std::string_view Wording::repaired(std::string_view id) const {
  return under("repair", id, ".done");
}
std::string_view Wording::limit(std::string_view key) const {
  return under("limit", key, "");
}
std::string_view Wording::observation(std::string_view id) const {
  return under("observation", id, "");
}
std::string_view Wording::look(std::string_view id) const {
  return under("look", id, "");
}
std::string_view Wording::outcome(std::string_view id) const {
  return under("outcome", id, "");
}
std::string_view Wording::kit(Kit kit) const {
  return under("kit", id_of(kit), ".name");
}
std::string_view Wording::kit_about(Kit kit) const {
  return under("kit", id_of(kit), ".about");
}
std::string_view Wording::device(Device device) const {
  return under("device", id_of(device), "");
}
std::string_view Wording::touch(std::string_view id) const {
  return under("touch", id, "");
}
std::string_view Wording::bench(std::string_view id) const {
  return under("bench", id, "");
}
std::string_view Wording::hand(std::string_view id) const {
  return under("hand", id, "");
}
std::string_view Wording::capacity(std::string_view id) const {
  return under("capacity", id, "");
}
std::string_view Wording::gate(std::string_view id) const {
  return under("gate", id, "");
}
std::string_view Wording::score_part(std::string_view id) const {
  return under("score_part", id, "");
}
std::string_view Wording::state(ElectricalState state) const {
  return under("state", id_of(state), "");
}
std::string_view Wording::crank_state(CrankState state) const {
  return under("crank_state", id_of(state), "");
}
std::string_view Wording::event(RigEventKind kind) const {
  return under("event", id_of(kind), "");
}
std::string_view Wording::gloss(std::string_view term) const {
  return under("gloss", term, "");
}

std::string_view Wording::lamp_look(LampLook look) const {
  constexpr std::array<std::string_view, 4> ids{"off", "bright", "dim", "out"};
  return under("lamp_look", ids.at(static_cast<std::size_t>(look)), "");
}

std::string_view Wording::fault(std::string_view id) const {
  const std::string_view of_catalogue = under("fault", id, ".name");
  return of_catalogue != id ? of_catalogue : under("decoy", id, ".name");
}

std::vector<std::string_view> Wording::cautions() const {
  return list("caution.list");
}

const Wording& english() {
  static const Wording words = [] {
    std::vector<Problem> problems;
    Wording read = Wording::read(std::filesystem::path(VOLTFALL_SOURCE_DIR) / "assets/wording/english.toml", problems);
    for (const Problem& problem : problems) fmt::print(stderr, "{}\n", problem.text());
    return read;
  }();
  return words;
}

}  // namespace voltfall
