#pragma once

#include <cstddef>
#include <vector>

namespace voltfall {

/// A network of conductances and current sources, solved for its node potentials (nodal analysis).
///
/// Every branch is a Norton pair: the current from `from` to `to` is  i = g (v_from - v_to) + j.  Inductors, coils and
/// batteries come in as companion models: the caller works out g and j for the present step.
///
/// Nodes touched only by fixed branches are eliminated once and kept; a solve then costs one small dense factorisation
/// over the nodes that live branches touch. Node 0 is the reference, at 0 V.
class Network {
 public:
  using Node = int;
  using Branch = int;

  static constexpr Node reference = 0;

  Node add_node();

  /// A branch whose g and j rarely change: changing one has the fixed part eliminated again.
  Branch add_fixed(Node from, Node to, double siemens);

  /// A branch whose g and j change at every solve.
  Branch add_live(Node from, Node to);

  /// Two live branches that share a magnetic circuit: each also carries `set_mutual` siemens times the other's volts.
  void couple(Branch one, Branch other);

  /// Removes every branch from `first` on; for what people hang on and take off again.
  void remove_from(Branch first);

  void set(Branch branch, double siemens, double source_A = 0.0);
  void set_mutual(double siemens) { mutual_S_ = siemens; }

  /// Solves for the potentials of the nodes that live branches touch. Throws std::runtime_error if some node hangs in
  /// the air with no conductance at all.
  void solve();

  /// Potentials of the remaining nodes and the current in every branch; once per step, after the last `solve`.
  void complete();

  double volts(Node node) const { return volts_[static_cast<std::size_t>(node)]; }
  double volts_across(Branch branch) const;
  /// Of the live branches right after `solve`, of all of them after `complete`.
  double amps(Branch branch) const;
  /// The power a branch takes in, all of them after `complete`, W.
  double watts(Branch branch) const { return watts_[static_cast<std::size_t>(branch)]; }
  std::size_t branch_count() const { return branches_.size(); }

  /// Largest sum of currents left over at any node, and the largest branch current; both after `complete`.
  double residual_A() const { return residual_A_; }
  double largest_A() const { return largest_A_; }

 private:
  struct Arm {
    Node from, to;
    double siemens, source_A;
    bool live;
  };

  void arrange();
  void eliminate_fixed_part();
  void assemble_live_part();
  void stamp_mutual(const Arm& carrier, const Arm& driver);
  std::size_t place(int row, int column) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(live_size_) + static_cast<std::size_t>(column);
  }
  int live_row(Node node) const { return live_index_[static_cast<std::size_t>(node)]; }
  double current_in(const Arm& arm) const;
  void carry(std::size_t branch, double current_A);

  std::vector<Arm> branches_;
  Branch coupled_one_ = -1, coupled_other_ = -1;
  double mutual_S_ = 0.0;
  std::vector<double> volts_{0.0};
  std::vector<double> watts_, left_over_A_;

  // Fixed part: nodes in elimination order, their pivots and multipliers, and what they leave on the live nodes.
  struct Multiplier {
    Node node;
    double share;  ///< of the eliminated node's potential that this neighbour contributes
  };
  struct Elimination {
    Node node;
    double pivot_S;
    double inflow_A;
    std::vector<Multiplier> neighbours;
  };
  std::vector<Elimination> eliminated_;
  std::vector<Node> live_nodes_;
  std::vector<int> live_index_;  ///< by node; -1 for a fixed node and for the reference
  int live_size_ = 0;
  std::vector<Branch> live_branches_;
  std::vector<double> reduced_matrix_, reduced_inflow_;
  std::vector<double> live_matrix_, live_inflow_;
  bool arranged_ = false;
  bool fixed_part_ready_ = false;
  double residual_A_ = 0.0, largest_A_ = 0.0;
};

}  // namespace voltfall
