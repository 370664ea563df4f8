#pragma once

#include <memory>

#include "mechanical/drive_train.h"
#include "mechanical/pole_shoe.h"

namespace voltfall {

/// Where pinion and ring teeth stand to each other, on the unrolled pitch cylinder.
struct MeshState {
  double pinion_travel_m;  ///< along the shaft, 0 at rest
  double pinion_axial_m_per_s;
  double pinion_m_per_s;  ///< along the pitch line, driving positive
  double ring_m_per_s;
  double tooth_position_m;  ///< pinion tooth from a ring tooth, within half a pitch; 0 is tooth against tooth
};

struct MeshForces {
  double axial_N;           ///< on the carriage, towards the ring: magnet less spring and damping
  double axial_friction_N;  ///< dry, against the carriage's motion
  double pinion_N;          ///< from the clutch, along the pitch line
  double ring_N;            ///< gas and viscous drag on the ring, driving positive
  double ring_friction_N;   ///< dry, against the ring's motion
  double crank_rad = 0.0;   ///< tells which of the ring's teeth face the pinion
};

struct MeshMove {
  MeshState after;
  double ring_moved_m;
  double contact_N;  ///< mean over the step, of the pinion on the ring along the pitch line
  bool touching;
  double tooth_heat_J;  ///< impact and sliding, from the contact impulses
  double axial_heat_J;  ///< dry friction on the carriage and its stops
  double ring_friction_J;
};

/// The meeting of the teeth as real contact between bodies. The only place that knows Box2D.
///
/// The pitch cylinder is unrolled into a plane: x along the shaft, y along the pitch line. A carriage (shoe, lever and
/// drive, as felt at the pinion) slides along x; the pinion slides along y on the carriage; the ring slides along y on
/// the ground with the engine's inertia as mass. Teeth are chamfered polygons. The pattern repeats every pitch, so the
/// pinion is put back by one pitch whenever it has run half of one ahead.
/// 1 unit = 1 mm, forces in mN, so that Box2D's metre-sized tolerances are micrometres here.
class PinionMesh {
 public:
  PinionMesh(const DriveParameters& drive, const ShoeParameters& shoe, double engine_inertia_kg_m2);
  ~PinionMesh();
  PinionMesh(PinionMesh&&) noexcept;
  PinionMesh& operator=(PinionMesh&&) noexcept;

  /// Takes over from the laws that move shoe and drive train while no tooth can touch another face to face.
  void enter(const MeshState& state);
  MeshMove step(const MeshForces& forces, double dt_s);

 private:
  struct World;
  std::unique_ptr<World> world_;
};

/// Everything that moves along the shaft, as felt at the pinion: shoe, lever and drive. Never less than the pinion's
/// own rim, which turns with it.
double axial_mass_kg(const DriveParameters& drive, const ShoeParameters& shoe);

/// Half of the width of a tooth's flat end; a pinion lands on it when the teeth's middles are nearer than two of these.
inline constexpr double tooth_land_half_m = 0.6e-3;
/// Axial length of the chamfer that leads a tooth in.
inline constexpr double tooth_chamfer_m = 1.5e-3;

}  // namespace voltfall
