#include "console/told_table.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>
#include <future>

#include "console/table_place.h"
#include "wording/filled.h"

namespace voltfall {
namespace {

using namespace std::chrono_literals;

std::string progress_text(const TableProgress& progress) {
  if (progress.of == 0) return filled(english(), "debrief.looking_up");
  return filled(english(), "debrief.working_out", fmt::arg("done", progress.done.load()),
                fmt::arg("of", progress.of.load()));
}

std::shared_ptr<const SignatureTable> told_table(const Scenario& scenario) {
  TableProgress progress;
  auto table = std::async(std::launch::async, [&] { return table_store().get(scenario, progress); });
  if (table.wait_for(1s) == std::future_status::ready) return table.get();
  // A terminal has one line of it, written over; a file gets a line now and then.
  const bool terminal = isatty(STDERR_FILENO) != 0;
  do {
    fmt::print(stderr, "{}{}{}", terminal ? "\r\x1b[K" : "", progress_text(progress), terminal ? "" : "\n");
    std::fflush(stderr);
  } while (table.wait_for(terminal ? 200ms : 5000ms) != std::future_status::ready);
  if (terminal) fmt::print(stderr, "\r\x1b[K");
  return table.get();
}

}  // namespace

TableSource told_tables() {
  return told_table;
}

}  // namespace voltfall
