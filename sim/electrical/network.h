#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <vector>

namespace voltfall {

/// A network of conductances and current sources, solved for its node potentials (nodal analysis).
///
/// Every branch is a Norton pair: the current from `from` to `to` is  i = g (v_from - v_to) + j.  Inductors, coils and
/// batteries come in as companion models: the caller works out g and j for the present step.
///
/// Nodes touched only by fixed branches are eliminated once and kept; a solve then costs one small dense factorisation
/// over the nodes that live branches touch. Node 0 is the reference, at 0 V.
///
/// Buffers are sized when the first solve arranges the network; after that nothing is taken from the heap while no node
/// and no live branch is added and the branches stay within `usual_branches`.
class Network {
 public:
  using Node = int;
  using Branch = int;

  static constexpr Node reference = 0;
  static constexpr std::size_t most_nodes = 64;  ///< the reference among them
  static constexpr std::size_t usual_branches = 128;

  Network();

  /// Throws std::length_error beyond `most_nodes`.
  Node add_node();

  /// A branch whose g and j rarely change: changing one has the fixed part eliminated again.
  Branch add_fixed(Node from, Node to, double siemens);

  /// A branch whose g and j change at every solve; all of them touch at most nine nodes (else std::length_error).
  Branch add_live(Node from, Node to);

  /// Two live branches that share a magnetic circuit: each also carries `set_mutual` siemens times the other's volts.
  void couple(Branch one, Branch other);

  /// Removes every branch from `first` on; for what people hang on and take off again.
  void remove_from(Branch first);

  /// A fixed branch takes its new law at the next solve; until then currents and power are those of the last one.
  void set(Branch branch, double siemens, double source_A = 0.0) {
    const std::size_t i = at(branch);
    if (is_live_[i] != 0) {
      laws_[i] = {siemens, source_A};
    } else if (asked_[i].siemens != siemens || asked_[i].source_A != source_A) {
      asked_[i] = {siemens, source_A};
      fixed_part_ready_ = false;
    }
  }
  void set_mutual(double siemens) { mutual_S_ = siemens; }

  /// Solves for the potentials of the nodes that live branches touch. Throws std::runtime_error if some node hangs in
  /// the air with no conductance at all.
  void solve();

  /// Potentials of the remaining nodes; once per step, after the last `solve`.
  void complete();

  double volts(Node node) const { return volts_[at(node)]; }
  /// Of every node by its number, the reference first.
  const std::vector<double>& all_volts() const { return volts_; }
  double volts_across(Branch branch) const { return across(ends_[at(branch)]); }
  /// Of the live branches right after `solve`, of all of them after `complete`.
  double amps(Branch branch) const {
    double current_A = current_in(at(branch));
    if (branch == coupled_one_) current_A += mutual_S_ * volts_across(coupled_other_);
    if (branch == coupled_other_) current_A += mutual_S_ * volts_across(coupled_one_);
    return current_A;
  }
  /// The power a branch takes in, all of them after `complete`, W.
  double watts(Branch branch) const { return volts_across(branch) * amps(branch); }
  /// Of `count` fixed branches from `first` on, after `complete`: adds what each took in within `span_s`, J, to its
  /// place in `heat_J`, and gives back the sum.
  double book_fixed(Branch first, std::size_t count, double span_s, double* heat_J) const;
  std::size_t branch_count() const { return ends_.size(); }

  /// Largest sum of currents left over at any node, and the largest branch current; both after `complete`. Worked out
  /// when asked.
  double residual_A() const;
  double largest_A() const;

 private:
  struct Ends {
    Node from, to;
  };
  struct Law {
    double siemens, source_A;
  };
  /// Where a live branch goes in the dense matrix and its right side; what the reference would get goes to a spare
  /// cell.
  struct LivePlaces {
    std::size_t branch, from_row, to_row, from_from, to_to, between;
  };
  /// A node of the fixed part: its potential is  alone_V + sum of share x neighbour's potential.
  struct Elimination {
    Node node;
    double alone_V;
    std::size_t first_share, end_share;
  };
  struct Share {
    Node neighbour;
    double share;
  };
  using NodeSet = std::uint64_t;  ///< one bit a node

  static std::size_t at(int index) { return static_cast<std::size_t>(index); }
  double across(const Ends& ends) const { return volts_[at(ends.from)] - volts_[at(ends.to)]; }
  double current_in(std::size_t branch) const {
    return laws_[branch].siemens * across(ends_[branch]) + laws_[branch].source_A;
  }
  Branch add(Node from, Node to, double siemens, bool live);
  double& link(Node one, Node other) { return link_S_[at(one) * volts_.size() + at(other)]; }
  int live_row(Node node) const { return live_index_[at(node)]; }
  std::size_t upper_place(int row, int column) const;

  void arrange();
  void arrange_live_nodes();
  void arrange_live_places();
  void arrange_mutual_places();
  void eliminate_fixed_part();
  NodeSet gather_fixed_part();
  Node fewest_neighbours(NodeSet waiting) const;
  void eliminate(Node node);
  void keep_reduced_part();
  void assemble_live_part();

  std::vector<Ends> ends_;
  std::vector<Law> laws_;   ///< as last solved
  std::vector<Law> asked_;  ///< of fixed branches, for the next solve
  std::vector<std::uint8_t> is_live_;
  Branch coupled_one_ = -1, coupled_other_ = -1;
  double mutual_S_ = 0.0;
  std::vector<double> volts_{0.0};

  // Fixed part: nodes in elimination order and what they leave on the live nodes.
  std::vector<double> link_S_;  ///< conductance between any two nodes while the elimination goes on
  std::array<NodeSet, most_nodes> neighbours_{};
  std::array<double, most_nodes> inflow_A_{};
  std::vector<Elimination> eliminated_;
  std::vector<Share> shares_;
  std::vector<double> reduced_matrix_, reduced_inflow_;

  // Live part: upper triangle of a dense matrix, row by row, with a spare cell behind it.
  std::vector<Node> live_nodes_;
  std::vector<int> live_index_;  ///< by node; -1 for a fixed node and for the reference
  std::vector<LivePlaces> live_places_;
  std::array<std::size_t, 8> mutual_places_{};
  std::vector<double> live_matrix_, live_inflow_;
  int live_size_ = 0;
  bool arranged_ = false;
  bool fixed_part_ready_ = false;
};

}  // namespace voltfall
