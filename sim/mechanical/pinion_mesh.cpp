#include "mechanical/pinion_mesh.h"

#include <box2d/box2d.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace voltfall {
namespace {

constexpr double units_per_m = 1000.0;
constexpr double tooth_length_m = 12.0e-3;
constexpr int pinion_teeth_drawn = 3, ring_teeth_drawn = 5;

float units(double metres) {
  return static_cast<float>(metres * units_per_m);
}
double metres(float units) {
  return static_cast<double>(units) / units_per_m;
}
float milli(double newtons) {
  return static_cast<float>(newtons * 1000.0);
}

// One tooth as a polygon: `face` is its leading end's x, `back` the direction (+1, -1) in which its body lies.
b2PolygonShape tooth(double middle_y_m, double face_x_m, double back, double half_width_m) {
  const double chamfer_x_m = face_x_m + back * tooth_chamfer_m;
  const double end_x_m = face_x_m + back * tooth_length_m;
  const double land_m = tooth_land_half_m;
  const std::array<b2Vec2, 6> corners{{{units(face_x_m), units(middle_y_m - land_m)},
                                       {units(face_x_m), units(middle_y_m + land_m)},
                                       {units(chamfer_x_m), units(middle_y_m + half_width_m)},
                                       {units(end_x_m), units(middle_y_m + half_width_m)},
                                       {units(end_x_m), units(middle_y_m - half_width_m)},
                                       {units(chamfer_x_m), units(middle_y_m - half_width_m)}}};
  b2PolygonShape shape;
  shape.Set(corners.data(), static_cast<int32>(corners.size()));
  return shape;
}

void set_mass(b2Body& body, double kg) {
  b2MassData mass;
  mass.mass = static_cast<float>(kg);
  mass.center.SetZero();
  mass.I = 0.0F;
  body.SetMassData(&mass);
}

}  // namespace

struct PinionMesh::World : b2ContactListener {
  World(const DriveParameters& drive_parameters, const ShoeParameters& shoe, double engine_inertia_kg_m2);

  void PostSolve(b2Contact* contact, const b2ContactImpulse* impulse) override;
  b2Body* add_body();
  void add_teeth(b2Body& body, int count, double face_x_m, double back) const;
  void leave_out_missing(double crank_rad);
  void join_axial_speeds();
  b2PrismaticJoint* slide(b2Body& base, b2Body& body, b2Vec2 along);

  DriveParameters drive;
  double meet_m;  // pinion travel at which the faces meet; x = 0 is there
  double carriage_kg, pinion_kg, ring_kg;
  b2World world{b2Vec2(0.0F, 0.0F)};
  b2Body* carriage = nullptr;
  b2Body* pinion = nullptr;
  b2Body* ring = nullptr;
  b2PrismaticJoint* carriage_slide = nullptr;
  b2PrismaticJoint* ring_slide = nullptr;
  double ring_y_m = 0.0;                 // before the last step
  b2Vec2 impulse_on_pinion{0.0F, 0.0F};  // of this step, in units x kg / s
};

PinionMesh::World::World(const DriveParameters& drive_parameters, const ShoeParameters& shoe,
                         double engine_inertia_kg_m2)
    : drive(drive_parameters), meet_m(drive.teeth_meet_at * shoe.travel_m * drive.lever_ratio) {
  const double pinion_m = pinion_radius_m(drive);
  const double ring_m = ring_radius_m(drive);
  pinion_kg = drive.pinion_inertia_kg_m2 / (pinion_m * pinion_m);
  ring_kg = engine_inertia_kg_m2 / (ring_m * ring_m);
  // The pinion's own mass along the shaft is part of the drive's; its body carries the rest of it.
  carriage_kg = axial_mass_kg(drive, shoe) - pinion_kg;

  world.SetAllowSleeping(false);
  world.SetContinuousPhysics(false);  // would look after bullets and fixed bodies only, and here is none of either
  world.SetContactListener(this);
  b2BodyDef fixed;
  b2Body* ground = world.CreateBody(&fixed);
  carriage = add_body();
  pinion = add_body();
  ring = add_body();
  add_teeth(*pinion, pinion_teeth_drawn, 0.0, -1.0);
  add_teeth(*ring, ring_teeth_drawn, 0.0, 1.0);
  set_mass(*carriage, carriage_kg);
  set_mass(*pinion, pinion_kg);
  set_mass(*ring, ring_kg);

  carriage_slide = slide(*ground, *carriage, b2Vec2(1.0F, 0.0F));
  carriage_slide->SetLimits(units(-meet_m), units(shoe.travel_m * drive.lever_ratio - meet_m));
  carriage_slide->EnableLimit(true);
  slide(*carriage, *pinion, b2Vec2(0.0F, 1.0F))->EnableMotor(false);
  ring_slide = slide(*ground, *ring, b2Vec2(0.0F, 1.0F));
  // The faces touch as built. Box2D takes memory when its first contacts come: let that be now, not within a step.
  world.Step(0.0F, 1, 1);
}

b2Body* PinionMesh::World::add_body() {
  b2BodyDef definition;
  definition.type = b2_dynamicBody;
  definition.fixedRotation = true;
  definition.allowSleep = false;
  return world.CreateBody(&definition);
}

void PinionMesh::World::add_teeth(b2Body& body, int count, double face_x_m, double back) const {
  const double half_width_m = 0.25 * drive.circular_pitch_m - 0.25 * drive.backlash_m;
  const int middle = count / 2;
  for (int i = 0; i < count; ++i) {
    const b2PolygonShape shape = tooth((i - middle) * drive.circular_pitch_m, face_x_m, back, half_width_m);
    b2FixtureDef fixture;
    fixture.shape = &shape;
    fixture.friction = static_cast<float>(drive.tooth_friction);
    fixture.restitution = 0.15F;  // steel on steel through a lever and a spring: mostly dead
    body.CreateFixture(&fixture);
  }
}

// A missing tooth is felt by nobody. Teeth that have passed the pinion stand further along the pitch line.
void PinionMesh::World::leave_out_missing(double crank_rad) {
  if (drive.missing_teeth < 1.0) return;
  const double at_pinion = std::round(teeth_from_gap(drive, crank_rad) - 0.5) + 0.5;
  int along = ring_teeth_drawn / 2;
  for (b2Fixture* tooth = ring->GetFixtureList(); tooth != nullptr; tooth = tooth->GetNext()) {
    tooth->SetSensor(ring_tooth_missing(drive, at_pinion - along));  // the list runs from the last tooth to the first
    --along;
  }
}

// After a hard impact the joint's few iterations may leave carriage and pinion with different speeds along the shaft:
// give them the one that keeps their momentum.
void PinionMesh::World::join_axial_speeds() {
  const b2Vec2 moving = pinion->GetLinearVelocity();
  const auto carriage_share = static_cast<float>(carriage_kg / (carriage_kg + pinion_kg));
  const float along = moving.x + carriage_share * (carriage->GetLinearVelocity().x - moving.x);
  carriage->SetLinearVelocity(b2Vec2(along, 0.0F));
  pinion->SetLinearVelocity(b2Vec2(along, moving.y));
}

// A slide with dry friction: a motor that wants standstill and can pull only so hard is Coulomb's law.
b2PrismaticJoint* PinionMesh::World::slide(b2Body& base, b2Body& body, b2Vec2 along) {
  b2PrismaticJointDef definition;
  definition.Initialize(&base, &body, b2Vec2(0.0F, 0.0F), along);
  definition.enableMotor = true;
  definition.motorSpeed = 0.0F;
  definition.maxMotorForce = 0.0F;
  return static_cast<b2PrismaticJoint*>(world.CreateJoint(&definition));
}

void PinionMesh::World::PostSolve(b2Contact* contact, const b2ContactImpulse* impulse) {
  b2WorldManifold manifold;
  contact->GetWorldManifold(&manifold);
  const b2Vec2 along(manifold.normal.y, -manifold.normal.x);
  b2Vec2 on_second(0.0F, 0.0F);
  for (int32 i = 0; i < impulse->count; ++i) {
    on_second += impulse->normalImpulses[i] * manifold.normal + impulse->tangentImpulses[i] * along;
  }
  const bool pinion_is_second = contact->GetFixtureB()->GetBody() == pinion;
  impulse_on_pinion += pinion_is_second ? on_second : -on_second;
}

double axial_mass_kg(const DriveParameters& drive, const ShoeParameters& shoe) {
  constexpr double lightest_carriage_kg = 0.05;
  const double pinion_m = pinion_radius_m(drive);
  const double rim_kg = drive.pinion_inertia_kg_m2 / (pinion_m * pinion_m);
  return std::max(shoe.mass_kg / (drive.lever_ratio * drive.lever_ratio) + drive.pinion_mass_kg,
                  rim_kg + lightest_carriage_kg);
}

PinionMesh::PinionMesh(const DriveParameters& drive, const ShoeParameters& shoe, double engine_inertia_kg_m2)
    : world_(std::make_unique<World>(drive, shoe, engine_inertia_kg_m2)) {}
PinionMesh::~PinionMesh() = default;
PinionMesh::PinionMesh(PinionMesh&&) noexcept = default;
PinionMesh& PinionMesh::operator=(PinionMesh&&) noexcept = default;

void PinionMesh::enter(const MeshState& state) {
  World& w = *world_;
  const float x = units(state.pinion_travel_m - w.meet_m);
  const float axial = units(state.pinion_axial_m_per_s);
  w.carriage->SetTransform(b2Vec2(x, 0.0F), 0.0F);
  w.pinion->SetTransform(b2Vec2(x, units(state.tooth_position_m)), 0.0F);
  w.ring->SetTransform(b2Vec2(0.0F, 0.0F), 0.0F);
  w.carriage->SetLinearVelocity(b2Vec2(axial, 0.0F));
  w.pinion->SetLinearVelocity(b2Vec2(axial, units(state.pinion_m_per_s)));
  w.ring->SetLinearVelocity(b2Vec2(0.0F, units(state.ring_m_per_s)));
  w.ring_y_m = 0.0;
}

MeshMove PinionMesh::step(const MeshForces& forces, double dt_s) {
  World& w = *world_;
  const double axial_before = metres(w.carriage->GetLinearVelocity().x);
  const double pinion_before = metres(w.pinion->GetLinearVelocity().y);
  const double ring_before = metres(w.ring->GetLinearVelocity().y);
  w.carriage_slide->SetMaxMotorForce(milli(forces.axial_friction_N));
  w.ring_slide->SetMaxMotorForce(milli(forces.ring_friction_N));
  w.carriage->ApplyForceToCenter(b2Vec2(milli(forces.axial_N), 0.0F), true);
  w.pinion->ApplyForceToCenter(b2Vec2(0.0F, milli(forces.pinion_N)), true);
  w.ring->ApplyForceToCenter(b2Vec2(0.0F, milli(forces.ring_N)), true);
  w.leave_out_missing(forces.crank_rad);
  w.impulse_on_pinion.SetZero();
  w.world.Step(static_cast<float>(dt_s), 8, 3);
  w.join_axial_speeds();

  MeshMove move{};
  move.ring_moved_m = metres(w.ring->GetPosition().y) - w.ring_y_m;
  const double pitch_m = w.drive.circular_pitch_m;
  double apart_m = metres(w.pinion->GetPosition().y - w.ring->GetPosition().y);
  if (std::abs(apart_m) > 0.5 * pitch_m) {
    apart_m -= std::copysign(pitch_m, apart_m);
    const b2Vec2 place(w.pinion->GetPosition().x, w.ring->GetPosition().y + units(apart_m));
    w.pinion->SetTransform(place, 0.0F);
  }
  w.world.ShiftOrigin(b2Vec2(0.0F, w.ring->GetPosition().y));
  w.ring_y_m = metres(w.ring->GetPosition().y);

  move.after = {metres(w.carriage->GetPosition().x) + w.meet_m, metres(w.carriage->GetLinearVelocity().x),
                metres(w.pinion->GetLinearVelocity().y), metres(w.ring->GetLinearVelocity().y), apart_m};
  move.touching = w.impulse_on_pinion.LengthSquared() > 0.0F;
  // Work of an impulse is impulse x mean of the speeds before and after (exact for any mix of impulses).
  const double impulse_x = metres(w.impulse_on_pinion.x), impulse_y = metres(w.impulse_on_pinion.y);
  const double mean_axial = 0.5 * (axial_before + move.after.pinion_axial_m_per_s);
  const double mean_pinion = 0.5 * (pinion_before + move.after.pinion_m_per_s);
  const double mean_ring = 0.5 * (ring_before + move.after.ring_m_per_s);
  move.contact_N = -impulse_y / dt_s;
  move.tooth_heat_J = -(impulse_x * mean_axial + impulse_y * (mean_pinion - mean_ring));
  const double axial_kg = w.carriage_kg + w.pinion_kg;
  const double axial_gain_J =
      0.5 * axial_kg *
      (move.after.pinion_axial_m_per_s * move.after.pinion_axial_m_per_s - axial_before * axial_before);
  move.axial_heat_J = (forces.axial_N * dt_s + impulse_x) * mean_axial - axial_gain_J;
  const double ring_gain_J =
      0.5 * w.ring_kg * (move.after.ring_m_per_s * move.after.ring_m_per_s - ring_before * ring_before);
  move.ring_friction_J = (forces.ring_N * dt_s - impulse_y) * mean_ring - ring_gain_J;
  return move;
}

}  // namespace voltfall
