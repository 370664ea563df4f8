#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>

#include "console/commands.h"
#include "desktop/desktop.h"

namespace {

void add_crank(CLI::App& app, voltfall::CrankOptions& options) {
  CLI::App* crank = app.add_subcommand("crank", "one crank without a screen, as figures");
  crank->add_option("scenario", options.scenario, "a scenario whose vehicle and faults are used");
  crank->add_option("--set", options.settings, "PATH=VALUE; --list prints the paths")->allow_extra_args(false);
  crank->add_option("--load", options.load, "engine, free, locked or torque=N·m");
  crank->add_option("--supply", options.supply_V,
                    "volts of a stiff supply in place of the battery; on the test stand straight across the starter");
  crank->add_option("--for", options.for_s, "seconds with the key at start; by default until settled, at most 15");
  crank->add_option("--rest-seed", options.rest_seed, "draws where compression left the engine, and the teeth with it");
  crank->add_option("--crank-angle", options.crank_angle_deg, "where the engine rests, degrees of the 720° cycle");
  crank->add_option("--tooth-phase", options.tooth_phase, "0 tooth against tooth, 0.5 tooth against space");
  crank->add_flag("--headlamps", options.headlamps, "with the headlamps on");
  crank->add_option("--csv", options.csv, "write the signals, a line every millisecond");
  crank->add_option("--json", options.json, "write the result as JSON; - for standard output");
  crank->add_flag("--list", options.list, "print every settable path with unit, range and default");
}

int run(int argc, char** argv) {
  CLI::App app{"Voltfall: a training simulator of an engine's series cranking circuit"};
  app.require_subcommand(0, 1);

  voltfall::CrankOptions crank;
  add_crank(app, crank);

  std::filesystem::path scenario, record;
  bool text = false;
  CLI::App* bay = app.add_subcommand("bay", "work a scenario's fault");
  bay->add_option("scenario", scenario, "a scenario file")->required();
  bay->add_option("--record", record, "where the record is written");
  bay->add_flag("--text", text, "work it in the terminal, plain lines in and out");

  std::vector<std::filesystem::path> records;
  CLI::App* mark = app.add_subcommand("mark", "replay records and score them again");
  mark->add_option("records", records, "record files")->required();

  std::filesystem::path closed;
  std::string debrief_html;
  CLI::App* debrief = app.add_subcommand("debrief", "the debrief of a closed job from its record");
  debrief->add_option("record", closed, "a record file")->required();
  debrief->add_option("--html", debrief_html, "write it as a page that prints; - for standard output");

  std::string sheet_out = "service_sheet.html";
  CLI::App* sheet = app.add_subcommand("sheet", "the service sheet of a scenario's vehicle, for printing");
  sheet->add_option("scenario", scenario, "a scenario file")->required();
  sheet->add_option("--html", sheet_out, "where it is written; - for standard output")->capture_default_str();

  CLI11_PARSE(app, argc, argv);

  if (app.got_subcommand("crank")) return voltfall::crank_command(crank);
  if (bay->parsed() && text) return voltfall::bay_text_command(scenario, record);
  if (bay->parsed()) return voltfall::bay_on_screen(scenario, record);
  if (mark->parsed()) return voltfall::mark_command(records);
  if (debrief->parsed()) return voltfall::debrief_command(closed, debrief_html);
  if (sheet->parsed()) return voltfall::sheet_command(scenario, sheet_out);
  return voltfall::start_page();
}

}  // namespace

int main(int argc, char** argv) {
  try {
    return run(argc, argv);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "voltfall: stopped: %s\n", error.what());
    return 2;
  }
}
