#include "desktop/table_at_work.h"

#include <sys/resource.h>
#include <unistd.h>

#include "console/table_place.h"

namespace voltfall {
namespace {

/// On Linux a priority is a thread's own, and its threads inherit it: the picture goes on moving beside the work.
void go_out_of_the_way() {
  constexpr int nice = 10;
  setpriority(PRIO_PROCESS, static_cast<id_t>(gettid()), nice);
}

}  // namespace

TableAtWork::TableAtWork(Scenario scenario) {
  std::packaged_task<std::shared_ptr<const SignatureTable>()> work([this, scenario = std::move(scenario)] {
    go_out_of_the_way();
    return table_store().get(scenario, progress_);
  });
  table_ = work.get_future().share();
  worker_ = std::jthread(std::move(work));
}

bool TableAtWork::ready() const {
  return table_.wait_for(std::chrono::seconds(0)) == std::future_status::ready;
}

std::shared_ptr<const SignatureTable> TableAtWork::table() const {
  auto table = table_.get();
  if (!table) throw TableStopped();
  return table;
}

TableSource TableHolder::source() const {
  return
      [work = work_](const Scenario& scenario) { return *work ? (*work)->table() : table_store().source()(scenario); };
}

}  // namespace voltfall
