#include <CLI/CLI.hpp>
#include <cstdio>
#include <exception>

#include "console/commands.h"
#include "desktop/desktop.h"

namespace {

constexpr const char* key_help = "the instructor's key, for a sealed job";

void add_crank(CLI::App& app, voltfall::CrankOptions& options) {
  CLI::App* crank = app.add_subcommand("crank", "one crank without a screen, as figures");
  crank->add_option("scenario", options.scenario, "a scenario whose vehicle and faults are used");
  crank->add_option("--key", options.key, key_help);
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

  std::filesystem::path scenario, record, key;
  bool text = false;
  CLI::App* bay = app.add_subcommand("bay", "work a scenario's fault");
  bay->add_option("scenario", scenario, "a scenario, or a sealed job")->required();
  bay->add_option("--record", record, "where the record is written; one that is there is gone on with");
  bay->add_flag("--text", text, "work it in the terminal, plain lines in and out");

  CLI::App* bench = app.add_subcommand("bench", "the open bench: turn anything, watch the starter engage or fail");
  bench->add_option("scenario", scenario, "a scenario whose vehicle, in health, is put on the bench");
  bench->add_option("--key", key, key_help);

  CLI::App* desk = app.add_subcommand("desk", "a scenario beside its findings, live as you save it");
  desk->add_option("scenario", scenario, "a scenario file")->required();

  std::vector<std::filesystem::path> records;
  CLI::App* mark = app.add_subcommand("mark", "replay records and score them again");
  mark->add_option("records", records, "record files")->required();
  mark->add_option("--key", key, key_help);

  voltfall::DebriefOptions closed;
  CLI::App* debrief = app.add_subcommand("debrief", "the debrief of a closed job from its record");
  debrief->add_option("record", closed.record, "a record file")->required();
  debrief->add_option("--html", closed.html, "write it as a page that prints; - for standard output");
  debrief->add_option("--release", closed.release, "the instructor's release of a sealed job; kept from then on");
  debrief->add_option("--key", closed.key, key_help);

  std::string sheet_out = "service_sheet.html";
  CLI::App* sheet = app.add_subcommand("sheet", "the service sheet of a scenario's vehicle, for printing");
  sheet->add_option("scenario", scenario, "a scenario file")->required();
  sheet->add_option("--key", key, key_help);
  sheet->add_option("--html", sheet_out, "where it is written; - for standard output")->capture_default_str();

  std::vector<std::filesystem::path> vetted;
  bool vet_json = false;
  CLI::App* vet = app.add_subcommand("vet", "is a scenario sound and solvable, and what does it ask");
  vet->add_option("scenarios", vetted, "scenario files, or folders of them")->required();
  vet->add_option("--key", key, key_help);
  vet->add_flag("--json", vet_json, "for machines");

  std::string format_out = "-";
  CLI::App* format = app.add_subcommand("format", "what a scenario file may hold: every key, unit, range and name");
  format->add_option("--out", format_out, "where it is written, as Markdown; - for standard output");

  std::filesystem::path new_key;
  CLI::App* make_key = app.add_subcommand("key", "make an instructor's key, which opens what is sealed with it");
  make_key->add_option("file", new_key, "where it is written, for example class.vfkey")->required();

  voltfall::SealOptions sealing;
  CLI::App* seal = app.add_subcommand("seal", "hide a scenario's answer from the pupil who works it");
  seal->add_option("scenario", sealing.scenario, "a scenario file")->required();
  seal->add_option("--key", sealing.key, "the instructor's key")->required();
  seal->add_option("--code", sealing.code, "what stands for the pupil")->required();
  seal->add_option("--out", sealing.out, "the sealed job; by default beside the scenario");

  voltfall::DealOptions dealing;
  CLI::App* deal = app.add_subcommand("deal", "a different variant for every pupil, sealed, and a key sheet for you");
  deal->add_option("scenario", dealing.scenario, "a scenario file, or a folder of them dealt in turn")->required();
  auto* pupils = deal->add_option_group("pupils")->require_option(1);
  pupils->add_option("--count", dealing.count, "how many pupils")->check(CLI::Range(1, 500));
  pupils->add_option("--codes", dealing.codes, "the codes.txt of an earlier deal: the same pupils again");
  deal->add_option("--seed", dealing.seed, "same seed, same deal")->required();
  deal->add_option("--into", dealing.into, "a new folder")->required();
  deal->add_option("--key", dealing.key, "the instructor's key")->required();

  voltfall::TallyOptions tallying;
  CLI::App* tally = app.add_subcommand("tally", "the class, from a folder of records");
  tally->add_option("folder", tallying.folder, "a folder of records; those below it count too")->required();
  tally->add_option("--html", tallying.html, "the page that prints; - for standard output");
  tally->add_option("--csv", tallying.csv, "a table, one row for each record; - for standard output");
  tally->add_option("--key", tallying.key, key_help);

  std::vector<std::filesystem::path> released;
  std::filesystem::path release_out = "class.vfrelease";
  CLI::App* release = app.add_subcommand("release", "let pupils see score and debrief of sealed jobs");
  release->add_option("jobs", released, "sealed jobs, or folders of them")->required();
  release->add_option("--key", key, "the instructor's key")->required();
  release->add_option("--out", release_out, "the release, for the pupils")->capture_default_str();

  CLI11_PARSE(app, argc, argv);

  if (app.got_subcommand("crank")) return voltfall::crank_command(crank);
  if (bay->parsed() && text) return voltfall::bay_text_command(scenario, record);
  if (bay->parsed()) return voltfall::bay_on_screen(scenario, record);
  if (bench->parsed()) return voltfall::bench_on_screen(scenario, key);
  if (desk->parsed()) return voltfall::desk_on_screen(scenario);
  if (mark->parsed()) return voltfall::mark_command(records, key);
  if (debrief->parsed()) return voltfall::debrief_command(closed);
  if (sheet->parsed()) return voltfall::sheet_command(scenario, key, sheet_out);
  if (vet->parsed()) return voltfall::vet_command(vetted, key, vet_json);
  if (format->parsed()) return voltfall::format_command(format_out);
  if (make_key->parsed()) return voltfall::key_command(new_key);
  if (seal->parsed()) return voltfall::seal_command(sealing);
  if (deal->parsed()) return voltfall::deal_command(dealing);
  if (tally->parsed()) return voltfall::tally_command(tallying);
  if (release->parsed()) return voltfall::release_command(released, key, release_out);
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
