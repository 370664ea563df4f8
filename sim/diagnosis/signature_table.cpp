#include "diagnosis/signature_table.h"

#include <fmt/format.h>

#include <bit>
#include <cstring>
#include <fstream>
#include <thread>

#include "rig/settable.h"
#include "work/on_all_cores.h"

namespace voltfall {
namespace {

/// FNV-1a, 64 bit: for telling tables apart, not against anybody (constants from memory of the public definition).
class Hash {
 public:
  void add(const void* bytes, std::size_t count) {
    const auto* at = static_cast<const unsigned char*>(bytes);
    for (std::size_t i = 0; i < count; ++i) value_ = (value_ ^ at[i]) * 0x100000001b3ULL;
  }
  void add(double number) {
    const auto bits = std::bit_cast<std::uint64_t>(number);
    add(&bits, sizeof bits);
  }
  void add(std::string_view text) { add(text.data(), text.size()), add("\n", 1); }
  std::uint64_t value() const { return value_; }

 private:
  std::uint64_t value_ = 0xcbf29ce484222325ULL;
};

void add_vehicle(Hash& hash, const RigParameters& parameters) {
  for (const Settable& settable : all_settables()) hash.add(settable.value_in(parameters));
}

/// Everything but the model itself, which stays the same as long as the program runs.
Hash vehicle_hash(const Scenario& scenario) {
  Hash hash;
  add_vehicle(hash, scenario.typical);
  hash.add(scenario.typical_rest.crank_angle_deg);
  hash.add(scenario.typical_rest.tooth_phase);
  for (const Hypothesis& hypothesis : hypotheses_for(scenario).all) {
    add_vehicle(hash, parameters_under(hypothesis, scenario.typical));
  }
  for (const Condition condition : all_conditions()) hash.add(id_of(condition));
  return hash;
}

static_assert(std::is_trivially_copyable_v<Signature>);

struct Header {
  std::array<char, 8> mark{'v', 'o', 'l', 't', 's', 'i', 'g', '2'};
  std::uint64_t table = 0;    ///< table_hash
  std::uint64_t content = 0;  ///< of the signatures as written
  std::uint64_t count = 0;    ///< signatures
};

std::uint64_t content_hash(const std::vector<Signature>& signatures) {
  Hash hash;
  hash.add(signatures.data(), signatures.size() * sizeof(Signature));
  return hash.value();
}

}  // namespace

std::optional<SignatureTable> build_table(const Scenario& scenario, TableProgress& progress) {
  SignatureTable table{hypotheses_for(scenario), {}, {}};
  table.signatures.resize(table.hypotheses.all.size());
  progress.of = static_cast<int>(table.signatures.size());
  const Signature healthy = signature_of(scenario.typical, scenario);
  on_all_cores(table.signatures.size(), [&](std::size_t index) {
    if (progress.stop) return;
    const RigParameters vehicle = parameters_under(table.hypotheses.all[index], scenario.typical);
    table.signatures[index] = signature_of(vehicle, scenario, &healthy);
    ++progress.done;
  });
  if (progress.stop) return std::nullopt;
  return table;
}

SignatureTable with_truth(SignatureTable table, const Scenario& scenario) {
  table.truth = signature_of(scenario.typical_faulty(), scenario, &table.signatures.front());
  return table;
}

std::uint64_t table_hash(const Scenario& scenario) {
  Hash hash = vehicle_hash(scenario);
  const Signature model = signature_of(scenario.typical, scenario);
  hash.add(&model, sizeof model);
  hash.add(std::string_view(VOLTFALL_MODEL_CODE));
  return hash.value();
}

bool save_table(const SignatureTable& table, std::uint64_t hash, const std::filesystem::path& file) {
  const std::vector<Signature>& signatures = table.signatures;
  Header header;
  header.table = hash;
  header.content = content_hash(signatures);
  header.count = signatures.size();
  std::error_code failed;
  std::filesystem::create_directories(file.parent_path(), failed);
  const std::filesystem::path beside =
      file.string() + fmt::format(".{}.new", std::hash<std::thread::id>{}(std::this_thread::get_id()));
  {
    std::ofstream out(beside, std::ios::binary | std::ios::trunc);
    out.write(reinterpret_cast<const char*>(&header), sizeof header);
    out.write(reinterpret_cast<const char*>(signatures.data()),
              static_cast<std::streamsize>(signatures.size() * sizeof(Signature)));
    out.flush();
    if (!out) return false;
  }
  std::filesystem::rename(beside, file, failed);
  return !failed;
}

std::optional<SignatureTable> load_table(const Scenario& scenario, std::uint64_t hash,
                                         const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  Header header;
  if (!in.read(reinterpret_cast<char*>(&header), sizeof header)) return std::nullopt;
  SignatureTable table{hypotheses_for(scenario), {}, {}};
  const bool ours = header.mark == Header{}.mark && header.count == table.hypotheses.all.size() && header.table == hash;
  if (!ours) return std::nullopt;
  std::vector<Signature> signatures(header.count);
  const auto bytes = static_cast<std::streamsize>(signatures.size() * sizeof(Signature));
  if (!in.read(reinterpret_cast<char*>(signatures.data()), bytes)) return std::nullopt;
  if (content_hash(signatures) != header.content) return std::nullopt;
  table.signatures = std::move(signatures);
  return table;
}

std::shared_ptr<const SignatureTable> table_on_the_spot(const Scenario& scenario) {
  TableProgress progress;
  return std::make_shared<const SignatureTable>(with_truth(*build_table(scenario, progress), scenario));
}

std::shared_ptr<const SignatureTable> TableStore::at_hand(const Tables& tables, std::uint64_t key) {
  const std::lock_guard lock(mutex_);
  const auto found = tables.find(key);
  return found != tables.end() ? found->second : nullptr;
}

std::shared_ptr<const SignatureTable> TableStore::keep(Tables& tables, std::uint64_t key, SignatureTable table) {
  constexpr std::size_t most_at_hand = 32;
  const std::lock_guard lock(mutex_);
  if (tables.size() >= most_at_hand) tables.clear();
  return tables[key] = std::make_shared<const SignatureTable>(std::move(table));
}

std::shared_ptr<const SignatureTable> TableStore::without_truth(const Scenario& scenario, TableProgress& progress) {
  const std::uint64_t key = vehicle_hash(scenario).value();
  if (auto found = at_hand(of_vehicles_, key)) return found;
  const std::lock_guard building(building_);
  if (auto found = at_hand(of_vehicles_, key)) return found;  // another has made it meanwhile
  const std::uint64_t hash = table_hash(scenario);
  const std::filesystem::path file = folder_ / fmt::format("{:016x}.vftable", hash);
  std::optional<SignatureTable> table = load_table(scenario, hash, file);
  if (!table) {
    table = build_table(scenario, progress);
    if (!table) return nullptr;
    save_table(*table, hash, file);
  }
  return keep(of_vehicles_, key, std::move(*table));
}

std::shared_ptr<const SignatureTable> TableStore::get(const Scenario& scenario, TableProgress& progress) {
  Hash hash = vehicle_hash(scenario);
  add_vehicle(hash, scenario.typical_faulty());
  if (auto found = at_hand(of_scenarios_, hash.value())) return found;
  const auto table = without_truth(scenario, progress);
  if (!table) return nullptr;
  return keep(of_scenarios_, hash.value(), with_truth(*table, scenario));
}

TableSource TableStore::source() {
  return [this](const Scenario& scenario) {
    TableProgress never_stopped;
    return get(scenario, never_stopped);
  };
}

}  // namespace voltfall
