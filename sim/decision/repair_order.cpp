#include "decision/repair_order.h"

#include <algorithm>
#include <utility>

#include "decision/sums.h"

namespace voltfall::decision {
namespace {

// A repair that could still cure something.
struct Useful {
  int repair;
  double weight;  // of what it cures and is not cured yet
  double minutes;
  AccessSet closed;  // what it still has to open
  double rate;       // weight over minutes: compared far more often than worked out
};

class Ordering {
 public:
  Ordering(const Problem& problem, std::vector<double> candidate_weights, AccessSet opened)
      : problem_(problem), weights_(std::move(candidate_weights)), opened_(opened) {
    std::vector<bool> curable(weights_.size());
    for (const Repair& repair : problem.repairs) {
      for (const int candidate : repair.cures) curable[at(candidate)] = true;
    }
    for (std::size_t candidate = 0; candidate < weights_.size(); ++candidate) {
      if (curable[candidate]) left_ += weights_[candidate];
    }
    for (int repair = 0; repair < static_cast<int>(problem.repairs.size()); ++repair) {
      const Repair& row = problem.repairs[at(repair)];
      const double weight = weight_of(row);
      if (weight <= 0.0) continue;
      useful_.push_back({repair, weight, row.cost_minutes, row.access & ~opened, weight / row.cost_minutes});
    }
    std::stable_sort(useful_.begin(), useful_.end(), comes_before);
  }

  RepairOrder run(double limit) {
    RepairOrder order;
    while (!useful_.empty() && order.expected_minutes < limit) {
      const auto next = useful_.begin() + first_of_best_run();
      const Repair& row = problem_.repairs[at(next->repair)];
      order.repairs.push_back(next->repair);
      order.expected_minutes += left_ * (next->minutes + access_minutes(problem_, next->closed));
      left_ -= next->weight;
      useful_.erase(next);
      open(row.access);
      cure(row.cures);
    }
    return order;
  }

 private:
  double weight_of(const Repair& repair) const {
    double weight = 0.0;
    for (const int candidate : repair.cures) weight += weights_[at(candidate)];
    return weight;
  }

  static bool comes_before(const Useful& a, const Useful& b) { return a.rate > b.rate; }

  // A cure lowers the weight of a few: each goes back to its place among those that are in order already.
  void put_in_order() {
    for (auto one = useful_.begin(); one != useful_.end(); ++one) {
      if (one == useful_.begin() || !comes_before(*one, *(one - 1))) continue;
      std::rotate(std::upper_bound(useful_.begin(), one, *one, comes_before), one, one + 1);
    }
  }

  void open(AccessSet access) {
    if ((access & ~opened_) == 0) return;
    opened_ |= access;
    for (Useful& one : useful_) one.closed &= ~opened_;
  }

  void cure(const std::vector<int>& candidates) {
    for (const int candidate : candidates) weights_[at(candidate)] = 0.0;
    bool changed = false;
    for (Useful& one : useful_) {
      const double weight = weight_of(problem_.repairs[at(one.repair)]);
      if (weight == one.weight) continue;
      changed = true;
      one.weight = weight;
      one.rate = weight / one.minutes;
    }
    if (!changed) return;
    useful_.erase(std::remove_if(useful_.begin(), useful_.end(), [](const Useful& one) { return one.weight <= 0.0; }),
                  useful_.end());
    put_in_order();
  }

  std::vector<AccessSet> openings() const {
    std::vector<AccessSet> openings;
    for (const Useful& one : useful_) {
      if (std::find(openings.begin(), openings.end(), one.closed) == openings.end()) openings.push_back(one.closed);
    }
    return openings;
  }

  // Where the run begins that has, behind one opening, the best weight per minute. Rates are in falling order.
  std::ptrdiff_t first_of_best_run() const {
    std::ptrdiff_t best = 0;
    double best_rate = -1.0;
    for (const AccessSet opening : openings()) {
      double weight = 0.0, minutes = access_minutes(problem_, opening);
      std::ptrdiff_t first = -1;
      for (std::size_t i = 0; i < useful_.size(); ++i) {
        if ((useful_[i].closed & ~opening) != 0) continue;
        if (first >= 0 && useful_[i].rate * minutes <= weight) break;  // it would only lower the run's rate
        if (first < 0) first = static_cast<std::ptrdiff_t>(i);
        weight += useful_[i].weight;
        minutes += useful_[i].minutes;
      }
      if (weight / minutes <= best_rate) continue;
      best_rate = weight / minutes;
      best = first;
    }
    return best;
  }

  const Problem& problem_;
  std::vector<double> weights_;  // by candidate, not cured yet
  AccessSet opened_;
  std::vector<Useful> useful_;  // in falling order of rate
  double left_ = 0.0;           // weight of what the repairs can cure
};

}  // namespace

RepairOrder repair_order_of(const Problem& problem, std::vector<double> candidate_weights, AccessSet opened,
                            double limit) {
  return Ordering(problem, std::move(candidate_weights), opened).run(limit);
}

RepairOrder repair_order(const Problem& problem, const Situation& situation) {
  RepairOrder order = repair_order_of(problem, candidate_shares(problem, situation.belief), situation.opened);
  order.expected_minutes = expected_repair_minutes(problem, situation, order.repairs);
  return order;
}

double expected_repair_minutes(const Problem& problem, const Situation& situation, std::span<const int> order) {
  std::vector<double> left(at(problem.candidates()), 0.0);
  const std::vector<double> shares = candidate_shares(problem, situation.belief);
  for (const int repair : order) {
    for (const int candidate : problem.repairs[at(repair)].cures) left[at(candidate)] = shares[at(candidate)];
  }
  double curable = 0.0;
  for (const double share : left) curable += share;
  if (curable <= 0.0) return 0.0;

  double minutes = 0.0;
  AccessSet opened = situation.opened;
  for (const int repair : order) {
    double weight = 0.0;
    for (const double share : left) weight += share;
    minutes += weight * minutes_of(problem, opened, repair_choice(repair));
    opened |= problem.repairs[at(repair)].access;
    for (const int candidate : problem.repairs[at(repair)].cures) left[at(candidate)] = 0.0;
  }
  return minutes / curable;
}

}  // namespace voltfall::decision
