#include "electrical/network.h"

#include <algorithm>
#include <bit>
#include <cmath>
#include <stdexcept>
#include <type_traits>

namespace voltfall {
namespace {

// Rows of the dense solve: the vehicle's live nodes. Fewer leave rows that stand for themselves.
constexpr std::size_t most_live = 9;

// Nodes of a set from the lowest on.
template <typename Visit>
void for_each_node(std::uint64_t nodes, const Visit& visit) {
  for (; nodes != 0; nodes &= nodes - 1) visit(static_cast<Network::Node>(std::countr_zero(nodes)));
}

std::uint64_t only(Network::Node node) {
  return std::uint64_t{1} << static_cast<unsigned>(node);
}

void check_pivot(double pivot_S) {
  if (!(pivot_S > 0.0)) throw std::runtime_error("a node of the network has no conductance to any other");
}

// Loop bodies written out one after another, each with its number as a constant.
template <std::size_t first, std::size_t end, typename Body>
[[gnu::always_inline]] inline void written_out(const Body& body) {
  if constexpr (first < end) {
    body(std::integral_constant<std::size_t, first>());
    written_out<first + 1, end>(body);
  }
}

// L D L' of a symmetric positive definite matrix, upper triangle in place, then the two triangular solves. One division
// a row: what follows waits for it. With the size known the loops are written out, so that what the next division needs
// is in a register.
template <std::size_t n>
std::array<double, n> solved(double* a, const double* right_side) {
  std::array<double, n> x, per_pivot;
  std::copy(right_side, right_side + n, x.begin());
  written_out<0, n>([&](auto k) __attribute__((always_inline)) {
    check_pivot(a[k * n + k]);
    per_pivot[k] = 1.0 / a[k * n + k];
    written_out<k + 1, n>([&](auto row) __attribute__((always_inline)) {
      if (a[k * n + row] == 0.0) return;
      const double multiplier = a[k * n + row] * per_pivot[k];
      written_out<row, n>([&](auto column) __attribute__((always_inline)) {
        a[row * n + column] -= multiplier * a[k * n + column];
      });
      x[row] -= multiplier * x[k];
    });
  });
  written_out<0, n>([&](auto from_last) __attribute__((always_inline)) {
    constexpr std::size_t k = n - 1 - from_last;
    double sum = x[k];
    written_out<0, n - 1 - k>([&](auto back) __attribute__((always_inline)) {
      constexpr std::size_t column = n - 1 - back;
      sum -= a[k * n + column] * x[column];
    });
    x[k] = sum * per_pivot[k];
  });
  return x;
}

}  // namespace

Network::Network() {
  volts_.reserve(most_nodes);
  ends_.reserve(usual_branches);
  laws_.reserve(usual_branches);
  asked_.reserve(usual_branches);
  is_live_.reserve(usual_branches);
}

Network::Node Network::add_node() {
  if (volts_.size() == most_nodes) throw std::length_error("a network holds at most 64 nodes");
  volts_.push_back(0.0);
  arranged_ = false;
  return static_cast<Node>(volts_.size()) - 1;
}

Network::Branch Network::add(Node from, Node to, double siemens, bool live) {
  ends_.push_back({from, to});
  laws_.push_back({siemens, 0.0});
  asked_.push_back({siemens, 0.0});
  is_live_.push_back(live ? 1 : 0);
  return static_cast<Branch>(ends_.size()) - 1;
}

Network::Branch Network::add_fixed(Node from, Node to, double siemens) {
  fixed_part_ready_ = false;
  return add(from, to, siemens, false);
}

Network::Branch Network::add_live(Node from, Node to) {
  arranged_ = false;
  return add(from, to, 0.0, true);
}

void Network::couple(Branch one, Branch other) {
  coupled_one_ = one;
  coupled_other_ = other;
  arranged_ = false;
}

void Network::remove_from(Branch first) {
  for (std::size_t i = at(first); i < ends_.size(); ++i) {
    if (is_live_[i] != 0) arranged_ = false;
  }
  ends_.resize(at(first));
  laws_.resize(at(first));
  asked_.resize(at(first));
  is_live_.resize(at(first));
  fixed_part_ready_ = false;
}

void Network::arrange() {
  arrange_live_nodes();
  arrange_live_places();
  arrange_mutual_places();
  const std::size_t count = volts_.size();
  link_S_.resize(count * count);
  eliminated_.reserve(count);
  shares_.reserve(count * count);
  arranged_ = true;
  fixed_part_ready_ = false;
}

// Live nodes are those a live branch touches; they stay for the dense solve.
void Network::arrange_live_nodes() {
  live_index_.assign(volts_.size(), -1);
  live_nodes_.clear();
  for (std::size_t i = 0; i < ends_.size(); ++i) {
    if (is_live_[i] == 0) continue;
    for (const Node node : {ends_[i].from, ends_[i].to}) {
      int& index = live_index_[at(node)];
      if (node == reference || index >= 0) continue;
      index = static_cast<int>(live_nodes_.size());
      live_nodes_.push_back(node);
    }
  }
  const std::size_t count = live_nodes_.size();
  if (count > most_live) throw std::length_error("live branches touch at most nine nodes");
  live_size_ = static_cast<int>(count);
  reduced_matrix_.assign(most_live * most_live + 1, 0.0);
  live_matrix_.assign(most_live * most_live + 1, 0.0);
  reduced_inflow_.assign(most_live + 1, 0.0);
  live_inflow_.assign(most_live + 1, 0.0);
  for (std::size_t row = count; row < most_live; ++row) reduced_matrix_[row * most_live + row] = 1.0;
}

// The spare cell when a row or column is the reference's, or when the place lies below the diagonal.
std::size_t Network::upper_place(int row, int column) const {
  return row < 0 || column < row ? most_live * most_live : at(row) * most_live + at(column);
}

void Network::arrange_live_places() {
  const auto row_or_spare = [&](int row) { return row < 0 ? most_live : at(row); };
  live_places_.clear();
  for (std::size_t i = 0; i < ends_.size(); ++i) {
    if (is_live_[i] == 0 || ends_[i].from == ends_[i].to) continue;
    const int from = live_row(ends_[i].from);
    const int to = live_row(ends_[i].to);
    live_places_.push_back({i, row_or_spare(from), row_or_spare(to), upper_place(from, from), upper_place(to, to),
                            upper_place(std::min(from, to), std::max(from, to))});
  }
}

// The carrier's current from the driver's volts, mutual x (v_from - v_to of the driver), and the other way round.
void Network::arrange_mutual_places() {
  if (coupled_one_ < 0) return;
  const Ends& one = ends_[at(coupled_one_)];
  const Ends& other = ends_[at(coupled_other_)];
  const auto place = [&](Node row, Node column) { return upper_place(live_row(row), live_row(column)); };
  mutual_places_ = {place(one.from, other.from), place(one.from, other.to),   place(one.to, other.from),
                    place(one.to, other.to),     place(other.from, one.from), place(other.from, one.to),
                    place(other.to, one.from),   place(other.to, one.to)};
}

// Gaussian elimination of the fixed nodes, fewest neighbours first: it runs only when a switch moves or a part warms.
void Network::eliminate_fixed_part() {
  NodeSet waiting = gather_fixed_part();
  eliminated_.clear();
  shares_.clear();
  while (waiting != 0) {
    const Node next = fewest_neighbours(waiting);
    eliminate(next);
    waiting &= ~only(next);
  }
  keep_reduced_part();
  fixed_part_ready_ = true;
}

// Links and inflows of the fixed branches as asked; gives back the nodes that have to go.
Network::NodeSet Network::gather_fixed_part() {
  std::fill(link_S_.begin(), link_S_.end(), 0.0);
  neighbours_.fill(0);
  inflow_A_.fill(0.0);
  for (std::size_t i = 0; i < ends_.size(); ++i) {
    if (is_live_[i] != 0) continue;
    laws_[i] = asked_[i];
    const auto [from, to] = ends_[i];
    if (from == to) continue;
    link(from, to) += laws_[i].siemens;
    link(to, from) += laws_[i].siemens;
    inflow_A_[at(from)] -= laws_[i].source_A;
    inflow_A_[at(to)] += laws_[i].source_A;
    if (laws_[i].siemens == 0.0) continue;
    neighbours_[at(from)] |= only(to);
    neighbours_[at(to)] |= only(from);
  }
  NodeSet waiting = 0;
  for (Node node = 1; node < static_cast<Node>(volts_.size()); ++node) {
    if (live_row(node) < 0) waiting |= only(node);
  }
  return waiting;
}

// The lowest of those with the fewest.
Network::Node Network::fewest_neighbours(NodeSet waiting) const {
  Node best = reference;
  int fewest = static_cast<int>(most_nodes) + 1;
  for_each_node(waiting, [&](Node node) {
    const int count = std::popcount(neighbours_[at(node)]);
    if (count >= fewest) return;
    fewest = count;
    best = node;
  });
  return best;
}

// Star to mesh: the conductances left between the neighbours, all positive, so nothing cancels.
void Network::eliminate(Node node) {
  const NodeSet around = neighbours_[at(node)];
  double pivot_S = 0.0;
  for_each_node(around, [&](Node other) { pivot_S += link(node, other); });
  if (!(pivot_S > 0.0)) throw std::runtime_error("a node of the network has no conductance to any other");
  const double inflow_A = inflow_A_[at(node)];
  const std::size_t first = shares_.size();
  for_each_node(around, [&](Node other) { shares_.push_back({other, link(node, other) / pivot_S}); });
  for (std::size_t i = first; i < shares_.size(); ++i) {
    const Share& one = shares_[i];
    double* row = &link(one.neighbour, 0);
    for (std::size_t j = first; j < shares_.size(); ++j) {
      if (i != j) row[shares_[j].neighbour] += one.share * shares_[j].share * pivot_S;
    }
    inflow_A_[at(one.neighbour)] += one.share * inflow_A;
    NodeSet& neighbours = neighbours_[at(one.neighbour)];
    neighbours = (neighbours | around) & ~only(node) & ~only(one.neighbour);
  }
  eliminated_.push_back({node, inflow_A / pivot_S, first, shares_.size()});
}

void Network::keep_reduced_part() {
  const std::size_t n = at(live_size_);
  for (std::size_t row = 0; row < n; ++row) {
    const Node node = live_nodes_[row];
    reduced_inflow_[row] = inflow_A_[at(node)];
    double sum_S = link(node, reference);
    for (std::size_t column = 0; column < n; ++column) {
      const double siemens = link(node, live_nodes_[column]);
      reduced_matrix_[row * most_live + column] = -siemens;
      sum_S += siemens;
    }
    reduced_matrix_[row * most_live + row] += sum_S;
  }
}

void Network::assemble_live_part() {
  std::copy(reduced_matrix_.begin(), reduced_matrix_.end(), live_matrix_.begin());
  std::copy(reduced_inflow_.begin(), reduced_inflow_.end(), live_inflow_.begin());
  double* matrix = live_matrix_.data();
  double* inflow = live_inflow_.data();
  for (const LivePlaces& places : live_places_) {
    const Law law = laws_[places.branch];
    matrix[places.from_from] += law.siemens;
    inflow[places.from_row] -= law.source_A;
    matrix[places.to_to] += law.siemens;
    inflow[places.to_row] += law.source_A;
    matrix[places.between] -= law.siemens;
  }
  if (coupled_one_ < 0) return;
  for (std::size_t i = 0; i < mutual_places_.size(); i += 4) {
    matrix[mutual_places_[i]] += mutual_S_;
    matrix[mutual_places_[i + 1]] -= mutual_S_;
    matrix[mutual_places_[i + 2]] -= mutual_S_;
    matrix[mutual_places_[i + 3]] += mutual_S_;
  }
}

void Network::solve() {
  if (!arranged_) arrange();
  if (!fixed_part_ready_) eliminate_fixed_part();
  assemble_live_part();
  const auto live_V = solved<most_live>(live_matrix_.data(), live_inflow_.data());
  for (std::size_t row = 0; row < live_nodes_.size(); ++row) volts_[at(live_nodes_[row])] = live_V[row];
}

void Network::complete() {
  double* volts = volts_.data();
  const Share* shares = shares_.data();
  for (auto gone = eliminated_.rbegin(); gone != eliminated_.rend(); ++gone) {
    double potential_V = gone->alone_V;
    for (std::size_t i = gone->first_share; i < gone->end_share; ++i) {
      potential_V += shares[i].share * volts[shares[i].neighbour];
    }
    volts[gone->node] = potential_V;
  }
}

double Network::book_fixed(Branch first, std::size_t count, double span_s, double* heat_J) const {
  const Ends* ends = ends_.data() + first;
  const Law* laws = laws_.data() + first;
  double sum_J = 0.0;
  for (std::size_t i = 0; i < count; ++i) {
    const double across_V = across(ends[i]);
    const double part_J = across_V * (laws[i].siemens * across_V + laws[i].source_A) * span_s;
    heat_J[i] += part_J;
    sum_J += part_J;
  }
  return sum_J;
}

double Network::residual_A() const {
  std::array<double, most_nodes> left_over_A{};
  const auto carry = [&](const Ends& ends, double current_A) {
    left_over_A[at(ends.from)] -= current_A;
    left_over_A[at(ends.to)] += current_A;
  };
  for (std::size_t i = 0; i < ends_.size(); ++i) carry(ends_[i], current_in(i));
  if (coupled_one_ >= 0) {
    carry(ends_[at(coupled_one_)], mutual_S_ * volts_across(coupled_other_));
    carry(ends_[at(coupled_other_)], mutual_S_ * volts_across(coupled_one_));
  }
  double residual_A = 0.0;
  for (std::size_t node = 0; node < volts_.size(); ++node) {
    residual_A = std::max(residual_A, std::abs(left_over_A[node]));
  }
  return residual_A;
}

double Network::largest_A() const {
  double largest_A = 0.0;
  for (std::size_t i = 0; i < ends_.size(); ++i) {
    const bool coupled = static_cast<Branch>(i) == coupled_one_ || static_cast<Branch>(i) == coupled_other_;
    largest_A = std::max(largest_A, std::abs(coupled ? amps(static_cast<Branch>(i)) : current_in(i)));
  }
  return largest_A;
}

}  // namespace voltfall
