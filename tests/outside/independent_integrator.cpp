#include "outside/independent_integrator.h"

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunlinsol/sunlinsol_dense.h>
#include <sunmatrix/sunmatrix_dense.h>

#include <algorithm>
#include <stdexcept>
#include <string>

namespace voltfall {
namespace {

using Model = EngagedMotorModel;

void require(int flag, const char* what) {
  if (flag < 0) throw std::runtime_error(std::string("CVODE: ") + what + " gave " + std::to_string(flag));
}

// Below this an unknown's error does not count, at a tolerance of 1e-8: what is small for its kind.
double absolute_tolerance(int unknown) {
  if (unknown <= Model::relay_coil_A) return 1.0e-8;      // amperes
  if (unknown <= Model::relay_Wb) return 1.0e-13;         // poles hold a few thousandths of a weber
  if (unknown <= Model::charge) return 1.0e-10;           // volts and shares of charge
  if (unknown <= Model::pinion_rad_per_s) return 1.0e-7;  // some hundred rad/s
  if (unknown == Model::clutch_twist_rad) return 1.0e-11;
  if (unknown == Model::tooth_offset_m) return 1.0e-13;  // pressed by some ten micrometres
  if (unknown <= Model::crank_rad) return 1.0e-9;
  return unknown < Model::first_wall_pV_J ? 1.0e-4 : 1.0e-8;  // pascals; joules
}

}  // namespace

struct IndependentIntegrator::Solver {
  Solver(const RigParameters& parameters, const RigState& from, const LoadParameters& load,
         std::optional<double> pile_ohm, double relative)
      : model(parameters, load, pile_ohm), turns_engine(load.kind == Load::engine) {
    const Model::State start = model.state_from(from);
    require(SUNContext_Create(nullptr, &context), "context");
    now = N_VNew_Serial(Model::unknown_count, context);
    N_Vector tolerances = N_VNew_Serial(Model::unknown_count, context);
    for (int i = 0; i < Model::unknown_count; ++i)
      N_VGetArrayPointer(tolerances)[i] = relative / 1.0e-8 * absolute_tolerance(i);
    std::copy(start.begin(), start.end(), N_VGetArrayPointer(now));
    memory = CVodeCreate(CV_BDF, context);
    require(CVodeInit(memory, rates, 0.0, now), "start");
    require(CVodeSVtolerances(memory, relative, tolerances), "tolerances");
    N_VDestroy(tolerances);
    require(CVodeSetUserData(memory, this), "model");
    require(CVodeSetMaxNumSteps(memory, 2000000), "longest run");
    matrix = SUNDenseMatrix(Model::unknown_count, Model::unknown_count, context);
    linear = SUNLinSol_Dense(now, matrix, context);
    require(CVodeSetLinearSolver(memory, linear, matrix), "linear solver");
    if (turns_engine) require(CVodeRootInit(memory, 1, valve), "root finding");
    begin_anew();
  }
  ~Solver() {
    CVodeFree(&memory);
    SUNLinSolFree(linear);
    SUNMatDestroy(matrix);
    N_VDestroy(now);
    SUNContext_Free(&context);
  }
  Solver(const Solver&) = delete;
  Solver& operator=(const Solver&) = delete;

  static Model::State state_in(N_Vector vector) {
    Model::State state{};
    std::copy_n(N_VGetArrayPointer(vector), state.size(), state.begin());
    return state;
  }
  // A trial step may reach past what the equations cover: CVODE then takes a shorter one, or says that it can't.
  static int rates(realtype, N_Vector at, N_Vector per_s, void* self) {
    Model::State rate{};
    try {
      static_cast<Solver*>(self)->model.rates(state_in(at), rate);
    } catch (const std::domain_error&) {
      return 1;
    }
    std::copy(rate.begin(), rate.end(), N_VGetArrayPointer(per_s));
    return 0;
  }
  static int valve(realtype, N_Vector at, realtype* ahead, void* self) {
    ahead[0] = static_cast<Solver*>(self)->next_valve_rad - N_VGetArrayPointer(at)[Model::crank_rad];
    return 0;
  }

  void begin_anew() {
    if (turns_engine) next_valve_rad = model.next_valve_rad(N_VGetArrayPointer(now)[Model::crank_rad]);
    require(CVodeReInit(memory, time_s, now), "new start");
  }
  void run_to(double end_s) {
    require(CVodeSetStopTime(memory, end_s), "stop time");
    while (time_s < end_s) {
      const int flag = CVode(memory, end_s, now, &time_s, CV_NORMAL);
      require(flag, "step");
      if (flag != CV_ROOT_RETURN) continue;
      Model::State state = state_in(now);
      model.pass_valves(state);
      std::copy(state.begin(), state.end(), N_VGetArrayPointer(now));
      ++valves_passed;
      begin_anew();
      require(CVodeSetStopTime(memory, end_s), "stop time");
    }
  }

  EngagedMotorModel model;
  bool turns_engine;
  SUNContext context = nullptr;
  N_Vector now = nullptr;
  SUNMatrix matrix = nullptr;
  SUNLinearSolver linear = nullptr;
  void* memory = nullptr;
  double time_s = 0.0, asked_s = 0.0, next_valve_rad = 0.0;
  int valves_passed = 0;
};

IndependentIntegrator::IndependentIntegrator(const RigParameters& parameters, const RigState& from,
                                             const LoadParameters& load, std::optional<double> pile_ohm,
                                             double relative_tolerance)
    : solver_(std::make_unique<Solver>(parameters, from, load, pile_ohm, relative_tolerance)) {}
IndependentIntegrator::~IndependentIntegrator() = default;

EngagedMotorModel::Outputs IndependentIntegrator::after(double span_s) {
  solver_->asked_s += span_s;
  solver_->run_to(solver_->asked_s);
  return solver_->model.outputs(Solver::state_in(solver_->now));
}

void IndependentIntegrator::warm_to(const RigState& state) {
  solver_->model.warm_to(state);
  solver_->begin_anew();
}

int IndependentIntegrator::valves_passed() const {
  return solver_->valves_passed;
}

long IndependentIntegrator::own_steps() const {
  long steps = 0;
  CVodeGetNumSteps(solver_->memory, &steps);
  return steps;
}

}  // namespace voltfall
