#include "electrical/network.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <stdexcept>

namespace voltfall {

Network::Node Network::add_node() {
  volts_.push_back(0.0);
  arranged_ = false;
  return static_cast<Node>(volts_.size()) - 1;
}

Network::Branch Network::add_fixed(Node from, Node to, double siemens) {
  branches_.push_back({from, to, siemens, 0.0, false});
  fixed_part_ready_ = false;
  return static_cast<Branch>(branches_.size()) - 1;
}

Network::Branch Network::add_live(Node from, Node to) {
  branches_.push_back({from, to, 0.0, 0.0, true});
  arranged_ = false;
  return static_cast<Branch>(branches_.size()) - 1;
}

void Network::couple(Branch one, Branch other) {
  coupled_one_ = one;
  coupled_other_ = other;
}

void Network::remove_from(Branch first) {
  branches_.resize(static_cast<std::size_t>(first));
  fixed_part_ready_ = false;
}

void Network::set(Branch branch, double siemens, double source_A) {
  Arm& arm = branches_[static_cast<std::size_t>(branch)];
  if (!arm.live && (arm.siemens != siemens || arm.source_A != source_A)) fixed_part_ready_ = false;
  arm.siemens = siemens;
  arm.source_A = source_A;
}

double Network::current_in(const Arm& arm) const {
  return arm.siemens * (volts(arm.from) - volts(arm.to)) + arm.source_A;
}

double Network::volts_across(Branch branch) const {
  const Arm& arm = branches_[static_cast<std::size_t>(branch)];
  return volts(arm.from) - volts(arm.to);
}

double Network::amps(Branch branch) const {
  double current_A = current_in(branches_[static_cast<std::size_t>(branch)]);
  if (branch == coupled_one_) current_A += mutual_S_ * volts_across(coupled_other_);
  if (branch == coupled_other_) current_A += mutual_S_ * volts_across(coupled_one_);
  return current_A;
}

// Live nodes are those a live branch touches; they stay for the dense solve.
void Network::arrange() {
  live_index_.assign(volts_.size(), -1);
  live_nodes_.clear();
  live_branches_.clear();
  for (Branch branch = 0; branch < static_cast<Branch>(branches_.size()); ++branch) {
    const Arm& arm = branches_[static_cast<std::size_t>(branch)];
    if (!arm.live) continue;
    live_branches_.push_back(branch);
    for (const Node node : {arm.from, arm.to}) {
      int& index = live_index_[static_cast<std::size_t>(node)];
      if (node == reference || index >= 0) continue;
      index = static_cast<int>(live_nodes_.size());
      live_nodes_.push_back(node);
    }
  }
  live_size_ = static_cast<int>(live_nodes_.size());
  arranged_ = true;
  fixed_part_ready_ = false;
}

// Gaussian elimination of the fixed nodes, fewest neighbours first, on a dense copy: it runs only when a switch moves.
void Network::eliminate_fixed_part() {
  const std::size_t count = volts_.size();
  std::vector<double> link(count * count, 0.0);  // conductance between two nodes
  std::vector<double> inflow(count, 0.0);
  const auto at = [&](Node a, Node b) -> double& {
    return link[static_cast<std::size_t>(a) * count + static_cast<std::size_t>(b)];
  };
  for (const Arm& arm : branches_) {
    if (arm.live) continue;
    at(arm.from, arm.to) += arm.siemens;
    at(arm.to, arm.from) += arm.siemens;
    inflow[static_cast<std::size_t>(arm.from)] -= arm.source_A;
    inflow[static_cast<std::size_t>(arm.to)] += arm.source_A;
  }

  std::vector<Node> waiting;
  for (Node node = 1; node < static_cast<Node>(count); ++node) {
    if (live_index_[static_cast<std::size_t>(node)] < 0) waiting.push_back(node);
  }
  const auto neighbours_of = [&](Node node) {
    int neighbours = 0;
    for (Node other = 0; other < static_cast<Node>(count); ++other) neighbours += at(node, other) != 0.0 ? 1 : 0;
    return neighbours;
  };
  eliminated_.clear();
  while (!waiting.empty()) {
    const auto next = std::min_element(waiting.begin(), waiting.end(),
                                       [&](Node a, Node b) { return neighbours_of(a) < neighbours_of(b); });
    const Node node = *next;
    waiting.erase(next);
    Elimination gone{node, 0.0, inflow[static_cast<std::size_t>(node)], {}};
    for (Node other = 0; other < static_cast<Node>(count); ++other) gone.pivot_S += at(node, other);
    if (!(gone.pivot_S > 0.0)) throw std::runtime_error("a node of the network has no conductance to any other");
    for (Node other = 0; other < static_cast<Node>(count); ++other) {
      if (at(node, other) != 0.0) gone.neighbours.push_back({other, at(node, other) / gone.pivot_S});
    }
    // Star to mesh: the conductances left between the neighbours, all positive, so nothing cancels.
    for (const Multiplier& one : gone.neighbours) {
      for (const Multiplier& other : gone.neighbours) {
        if (one.node != other.node) at(one.node, other.node) += one.share * other.share * gone.pivot_S;
      }
      inflow[static_cast<std::size_t>(one.node)] += one.share * gone.inflow_A;
      at(one.node, node) = 0.0;
      at(node, one.node) = 0.0;
    }
    eliminated_.push_back(std::move(gone));
  }

  reduced_matrix_.assign(place(live_size_, 0), 0.0);
  reduced_inflow_.assign(static_cast<std::size_t>(live_size_), 0.0);
  for (int row = 0; row < live_size_; ++row) {
    const Node node = live_nodes_[static_cast<std::size_t>(row)];
    reduced_inflow_[static_cast<std::size_t>(row)] = inflow[static_cast<std::size_t>(node)];
    double sum_S = at(node, reference);
    for (int column = 0; column < live_size_; ++column) {
      const double siemens = at(node, live_nodes_[static_cast<std::size_t>(column)]);
      reduced_matrix_[place(row, column)] = -siemens;
      sum_S += siemens;
    }
    reduced_matrix_[place(row, row)] += sum_S;
  }
  fixed_part_ready_ = true;
}

// The carrier's current from the driver's volts: mutual x (v_from - v_to of the driver). Upper triangle only.
void Network::stamp_mutual(const Arm& carrier, const Arm& driver) {
  const auto put = [&](Node row_node, Node column_node, double siemens) {
    const int row = live_row(row_node);
    const int column = live_row(column_node);
    if (row >= 0 && column >= row) live_matrix_[place(row, column)] += siemens;
  };
  put(carrier.from, driver.from, mutual_S_);
  put(carrier.from, driver.to, -mutual_S_);
  put(carrier.to, driver.from, -mutual_S_);
  put(carrier.to, driver.to, mutual_S_);
}

void Network::assemble_live_part() {
  live_matrix_ = reduced_matrix_;
  live_inflow_ = reduced_inflow_;
  for (const Branch branch : live_branches_) {
    const Arm& arm = branches_[static_cast<std::size_t>(branch)];
    const int from = live_row(arm.from);
    const int to = live_row(arm.to);
    if (from >= 0) {
      live_matrix_[place(from, from)] += arm.siemens;
      live_inflow_[static_cast<std::size_t>(from)] -= arm.source_A;
    }
    if (to >= 0) {
      live_matrix_[place(to, to)] += arm.siemens;
      live_inflow_[static_cast<std::size_t>(to)] += arm.source_A;
    }
    if (from >= 0 && to >= 0) {
      live_matrix_[place(std::min(from, to), std::max(from, to))] -= arm.siemens;
    }
  }
  if (coupled_one_ >= 0) {
    const Arm& one = branches_[static_cast<std::size_t>(coupled_one_)];
    const Arm& other = branches_[static_cast<std::size_t>(coupled_other_)];
    stamp_mutual(one, other);
    stamp_mutual(other, one);
  }
}

// L D L' of a small symmetric positive definite matrix, upper triangle in place, then the two triangular solves.
void Network::solve() {
  if (!arranged_) arrange();
  if (!fixed_part_ready_) eliminate_fixed_part();
  assemble_live_part();
  const int n = live_size_;
  double* a = live_matrix_.data();
  double* x = live_inflow_.data();
  for (int k = 0; k < n; ++k) {
    const double* pivot_row = a + k * n;
    const double pivot = pivot_row[k];
    if (!(pivot > 0.0)) throw std::runtime_error("a node of the network has no conductance to any other");
    for (int row = k + 1; row < n; ++row) {
      if (pivot_row[row] == 0.0) continue;
      const double multiplier = pivot_row[row] / pivot;
      double* target = a + row * n;
      for (int column = row; column < n; ++column) target[column] -= multiplier * pivot_row[column];
      x[row] -= multiplier * x[k];
    }
  }
  for (int k = n - 1; k >= 0; --k) {
    double sum = x[k];
    for (int column = k + 1; column < n; ++column) sum -= a[k * n + column] * x[column];
    x[k] = sum / a[k * n + k];
    volts_[static_cast<std::size_t>(live_nodes_[static_cast<std::size_t>(k)])] = x[k];
  }
}

void Network::complete() {
  for (auto gone = eliminated_.rbegin(); gone != eliminated_.rend(); ++gone) {
    double potential_V = gone->inflow_A / gone->pivot_S;
    for (const Multiplier& neighbour : gone->neighbours) potential_V += neighbour.share * volts(neighbour.node);
    volts_[static_cast<std::size_t>(gone->node)] = potential_V;
  }
  watts_.resize(branches_.size());
  left_over_A_.assign(volts_.size(), 0.0);
  largest_A_ = 0.0;
  for (std::size_t i = 0; i < branches_.size(); ++i) {
    const bool coupled = static_cast<Branch>(i) == coupled_one_ || static_cast<Branch>(i) == coupled_other_;
    carry(i, coupled ? amps(static_cast<Branch>(i)) : current_in(branches_[i]));
  }
  residual_A_ = 0.0;
  for (const double current_A : left_over_A_) residual_A_ = std::max(residual_A_, std::abs(current_A));
}

// Books a branch's current at both of its nodes.
void Network::carry(std::size_t branch, double current_A) {
  const Arm& arm = branches_[branch];
  watts_[branch] = (volts(arm.from) - volts(arm.to)) * current_A;
  left_over_A_[static_cast<std::size_t>(arm.from)] -= current_A;
  left_over_A_[static_cast<std::size_t>(arm.to)] += current_A;
  largest_A_ = std::max(largest_A_, std::abs(current_A));
}

}  // namespace voltfall
