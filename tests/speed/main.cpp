#include <benchmark/benchmark.h>

#include <fstream>
#include <string>

namespace {

// As Linux names it; empty where it does not.
std::string processor() {
  std::ifstream file("/proc/cpuinfo");
  for (std::string line; std::getline(file, line);) {
    const std::size_t colon = line.find(": ");
    if (line.rfind("model name", 0) == 0 && colon != std::string::npos) return line.substr(colon + 2);
  }
  return {};
}

}  // namespace

// Times are the processor's own, of this one thread, so that a busy machine does not count.
int main(int count, char** arguments) {
  benchmark::Initialize(&count, arguments);
  if (benchmark::ReportUnrecognizedArguments(count, arguments)) return 1;
  benchmark::AddCustomContext("processor", processor());
  benchmark::AddCustomContext("compiler", "g++ " __VERSION__);
  benchmark::RunSpecifiedBenchmarks();
  benchmark::Shutdown();
  return 0;
}
