#include "desktop/bench/sweep_work.h"

namespace voltfall {

SweepWork::SweepWork(const Order& order) : order_(order), worker_([this] { work(); }) {}

void SweepWork::work() {
  if (order_.up) {
    result_.map = map_engagement(order_.subject, order_.across, order_.columns, *order_.up, order_.rows, progress_);
  } else {
    result_.swept = sweep(order_.subject, order_.across, order_.columns, progress_);
    result_.thresholds = thresholds_in(result_.swept, order_.subject, order_.across, progress_);
  }
  done_ = true;
}

}  // namespace voltfall
