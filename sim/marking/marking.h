#pragma once

#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "diagnosis/signature_table.h"
#include "sealing/sealed_job.h"
#include "session/session.h"

namespace voltfall {

/// A record counts as it is, or a person has to look at it first, or it is none of this program's making.
enum class MarkVerdict { counted, for_a_person, refused };

/// A record as marked.
struct Marked {
  std::filesystem::path file;
  MarkVerdict verdict = MarkVerdict::refused;
  std::vector<std::string> reasons;        ///< why it is refused or for a person to judge; whole sentences
  std::string record_id;                   ///< 32 hexadecimal digits; empty when the file holds no record
  std::string pupil_code;                  ///< as issued with the job; empty: practice
  std::string job;                         ///< id of the scenario
  int attempt = 0;                         ///< 1: the first
  int readings = 0;                        ///< findings compared with their replay
  bool closed = false;                     ///< the vehicle was handed back
  std::shared_ptr<const Session> session;  ///< as it stood at the end, scored when it was closed; null when refused,
                                           ///< and when it can't be played to its end
};

/// Replays and scores every record, on as many threads as the machine has cores, then holds them against each other:
/// one record handed in twice, two that part ways, two first attempts at one job. In the order given; never throws for
/// a bad file.
/// @param tables  may be asked from several threads
/// @param opener  of sealed jobs; has to open their score
std::vector<Marked> mark_records(const std::vector<std::filesystem::path>& records, const TableSource& tables,
                                 const SealOpener& opener);

}  // namespace voltfall
