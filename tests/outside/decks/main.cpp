// Writes the decks that the tests compare the model with, so that a person can run them by hand:
//   voltfall_decks FOLDER
//   ngspice -b -r healthy.raw FOLDER/healthy.cir

#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <string>

#include "outside/ngspice_cases.h"

namespace {

namespace fs = std::filesystem;

int write_decks(const fs::path& folder) {
  std::error_code failed;
  fs::create_directories(folder, failed);
  if (failed || !fs::is_directory(folder)) {
    std::fprintf(stderr, "voltfall_decks: can't make the folder %s: %s\n", folder.c_str(),
                 failed ? failed.message().c_str() : "something else is there");
    return 1;
  }
  for (const voltfall::DeckCase& one : voltfall::deck_cases()) {
    const fs::path file = folder / (std::string(one.id) + ".cir");
    std::ofstream out(file);
    out << one.deck();
    out.close();
    if (!out) {
      std::fprintf(stderr, "voltfall_decks: can't write %s\n", file.c_str());
      return 1;
    }
    std::printf("%s: %s\n", file.c_str(), std::string(one.title).c_str());
  }
  return 0;
}

}  // namespace

int main(int count, char** arguments) {
  if (count != 2 || arguments[1][0] == '-' || arguments[1][0] == '\0') {
    std::fprintf(
        stderr,
        "usage: voltfall_decks FOLDER\n"
        "Writes the vehicle's circuit as decks for ngspice, one file a case; FOLDER is made if it is not there.\n"
        "Run one with: ngspice -b -r WAVES.raw FOLDER/healthy.cir\n");
    return 2;
  }
  try {
    return write_decks(arguments[1]);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "voltfall_decks: %s\n", error.what());
    return 1;
  }
}
