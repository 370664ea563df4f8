#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "walks/walk_table.h"

namespace voltfall {
namespace {

using Names = std::vector<std::string_view>;

constexpr std::size_t choices_of_a_question = 3, fewest_reasons = 2, most_reasons = 4;
constexpr Range any_figure{-1.0e6, 1.0e6}, any_margin{0.02, 0.5};

Names point_ids() {
  Names ids;
  for (const TestPoint point : all_test_points()) ids.push_back(id_of(point));
  return ids;
}

Names measure_ids() {
  Names ids;
  for (const WalkMeasure& measure : all_walk_measures()) ids.push_back(measure.id);
  return ids;
}

std::optional<TestPoint> read_lead(WalkTable& table, std::string_view key, const WalkMeasure& measure,
                                   std::optional<TestPoint> otherwise) {
  const Names points = point_ids();
  if (measure.has_leads && !otherwise && !table.require(key)) return std::nullopt;
  const auto index = table.choice(key, points);
  if (index && !measure.has_leads) {
    table.mistakes().add(*table.node().get(key), fmt::format("{} stands by {}, which is taken without leads; allowed: "
                                                             "none, or measure = \"volts\"",
                                                             table.path_of(key), measure.id));
  }
  return index ? all_test_points()[*index] : otherwise;
}

/// The other trial: its own setup, and where it is read if that is somewhere else.
void read_compare(WalkTable& table, WalkQuestion& question) {
  constexpr std::array<std::string_view, 2> kinds{"ratio", "difference"};
  const toml::table* node = table.table("compare", false);
  const auto against = table.choice("against", kinds);
  question.compare_trial = question.trial;
  question.compare_measured = question.measured;
  if (!against && node == nullptr) return;
  if (!against || node == nullptr) {
    table.mistakes().add(table.node(), fmt::format("only one of {} and [{}] stands there; allowed: both, or neither",
                                                   table.path_of("against"), table.path_of("compare")));
    return;
  }
  question.against = *against == 0 ? WalkAgainst::ratio : WalkAgainst::difference;
  if (question.measured.measure->in_words()) {
    table.mistakes().add(*table.node().get("against"), fmt::format("{} is told in words and can't be held against "
                                                                   "another; allowed: a measure in figures",
                                                                   question.measured.measure->id));
  }
  WalkTable fields(*node, table.path_of("compare"), table.mistakes());
  question.compare_measured.red = read_lead(fields, "red", *question.measured.measure, question.measured.red);
  question.compare_measured.black = read_lead(fields, "black", *question.measured.measure, question.measured.black);
  const toml::table* setup = fields.table("setup", false);
  question.compare_trial.setup = read_setup(setup, *question.trial.vehicle, table.mistakes());
  fields.finish();
}

void read_words_of_choice(WalkTable& fields, const toml::node& node, const WalkMeasure& measure, WalkChoice& choice) {
  const auto read = [&](const toml::node& entry) {
    const std::string word = entry.value<std::string>().value_or("");
    const auto found = std::find(measure.words.begin(), measure.words.end(), word);
    if (found != measure.words.end()) {
      choice.is.push_back(*found);
    } else {
      fields.mistakes().add(entry, not_a_name(word, fmt::format("a word of {}", measure.id), measure.words));
    }
  };
  if (const toml::array* list = node.as_array()) {
    for (const toml::node& entry : *list) read(entry);
  } else {
    read(node);
  }
}

void read_band(WalkTable& fields, const WalkMeasure& measure, WalkChoice& choice) {
  const toml::node* is = fields.at("is");
  const auto from = fields.number("from", any_figure), to = fields.number("to", any_figure);
  if (measure.in_words()) {
    if (is != nullptr) read_words_of_choice(fields, *is, measure, choice);
    if (is == nullptr || from || to) {
      fields.mistakes().add(fields.node(), fmt::format("a choice says for which word of {} it is right; allowed: "
                                                       "is = one or a list of {}",
                                                       measure.id, listed(measure.words)));
    }
    return;
  }
  choice.from = from.value_or(choice.from);
  choice.to = to.value_or(choice.to);
  if (is != nullptr || (!from && !to)) {
    fields.mistakes().add(fields.node(), fmt::format("a choice says for which {} it is right; allowed: from, to, or "
                                                     "both",
                                                     measure.id));
  } else if (choice.from >= choice.to) {
    fields.mistakes().add(fields.node(), fmt::format("the band from {:g} to {:g} is empty; allowed: a `to` above "
                                                     "`from`",
                                                     choice.from, choice.to));
  }
}

bool overlap(const WalkChoice& one, const WalkChoice& other, const WalkMeasure& measure) {
  if (!measure.in_words()) return one.from < other.to && other.from < one.to;
  return std::any_of(one.is.begin(), one.is.end(), [&](std::string_view word) {
    return std::find(other.is.begin(), other.is.end(), word) != other.is.end();
  });
}

std::vector<WalkReason> read_reasons(WalkTable& table) {
  std::vector<WalkReason> reasons;
  const toml::node* node = table.at("reason");
  if (node == nullptr) return reasons;
  int right = 0;
  for_each_table(*node, table.path_of("reason"), table.mistakes(), [&](const toml::table& entry) {
    WalkTable fields(entry, table.path_of("reason"), table.mistakes());
    WalkReason reason{fields.needed_text("words", longest_walk_text), fields.flag("right").value_or(false)};
    fields.finish();
    right += reason.right ? 1 : 0;
    reasons.push_back(std::move(reason));
  });
  if (reasons.size() < fewest_reasons || reasons.size() > most_reasons) {
    table.mistakes().add(*node, fmt::format("{} stands there {} times; allowed: {} to {} times",
                                            table.path_of("reason"), reasons.size(), fewest_reasons, most_reasons));
  }
  if (right != 1) {
    table.mistakes().add(*node,
                         fmt::format("{} of the reasons are right; allowed: exactly one with right = true", right));
  }
  return reasons;
}

}  // namespace

void read_measured(WalkTable& table, WalkQuestion& question) {
  const Names measures = measure_ids();
  const WalkMeasure& measure = all_walk_measures()[table.needed_choice("measure", measures)];
  question.measured.measure = &measure;
  question.measured.red = read_lead(table, "red", measure, std::nullopt);
  question.measured.black = read_lead(table, "black", measure, std::nullopt);
  read_compare(table, question);
}

std::vector<WalkChoice> read_choices(WalkTable& table, const WalkQuestion& question) {
  std::vector<WalkChoice> choices;
  const WalkMeasure& measure = *question.measured.measure;
  if (!table.require("choice")) return choices;
  const toml::node& node = *table.at("choice");
  for_each_table(node, table.path_of("choice"), table.mistakes(), [&](const toml::table& entry) {
    WalkTable fields(entry, table.path_of("choice"), table.mistakes());
    WalkChoice choice;
    choice.words = fields.needed_text("words", longest_walk_choice);
    read_band(fields, measure, choice);
    fields.finish();
    for (std::size_t i = 0; i < choices.size(); ++i) {
      if (!overlap(choices[i], choice, measure)) continue;
      table.mistakes().add(entry, fmt::format("this choice and number {} are right for the same {}; allowed: bands "
                                              "that do not overlap",
                                              i + 1, measure.id));
    }
    choices.push_back(std::move(choice));
  });
  if (choices.size() != choices_of_a_question) {
    table.mistakes().add(node, fmt::format("{} stands there {} times; allowed: {} times", table.path_of("choice"),
                                           choices.size(), choices_of_a_question));
  }
  return choices;
}

WalkQuestion read_question(const toml::table& node, std::string_view name, bool reasons_needed, Mistakes& mistakes) {
  WalkTable table(node, name, mistakes);
  WalkQuestion question;
  question.at = table.place();
  question.words = table.needed_text("question", longest_walk_text);
  question.trial = read_trial(table, nullptr);
  read_measured(table, question);
  question.margin = table.number("margin", any_margin).value_or(question.margin);
  question.choices = read_choices(table, question);
  if (reasons_needed) table.require("reason");
  question.reasons = read_reasons(table);
  if (name == "predict") table.at("repeat");  // read by its owner
  table.finish();
  return question;
}

}  // namespace voltfall
