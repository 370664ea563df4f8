#pragma once

#include "scenario/scenario.h"
#include "scenario/toml_section.h"

namespace voltfall {

// One function per section of a scenario file. Each fills its share of `scenario` and notes every mistake it meets;
// null stands for a section that the file has not got.
void read_job(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
void read_vehicle(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
void read_rest(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
/// This vehicle beside others of its kind, and where its engine stopped. After `read_vehicle` and `read_rest`.
void read_scatter(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
/// @param node the array of tables [[fault]]. After `read_vehicle`: a fault is checked on this vehicle.
void read_faults(const toml::node* node, Scenario& scenario, Mistakes& mistakes);
/// @param node the array of tables [[pair]]: two faults that come together on this vehicle. After `read_vehicle`.
void read_pairs(const toml::node* node, Scenario& scenario, Mistakes& mistakes);
/// Faults that variants may have. After `read_vehicle`.
void read_deal(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
/// @param table [decoy]: looks with nothing behind them, `looks = ["component:look"]`.
void read_decoys(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
void read_kit(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
/// Limits that the file leaves out get the usual figure of the limit table.
void read_limits(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
void read_prices(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
/// Shares of complaints by fault class, in place of the trade's.
void read_priors(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
/// Points of each part of the score and what a pass asks.
void read_scoring(const toml::table* table, Scenario& scenario, Mistakes& mistakes);
void read_debrief(const toml::table* table, Scenario& scenario, Mistakes& mistakes);

}  // namespace voltfall
