#include <gmock/gmock.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>

#include "console/commands.h"
#include "console/record_place.h"
#include "console/table_place.h"
#include "marking/marking.h"
#include "sim/worked_job.h"
#include "tally/tally_report.h"
#include "tour/learner.h"

// What an instructor does with a class, by the program's own commands: key, seal, work, mark, release, tally.

namespace voltfall {
namespace {

namespace fs = std::filesystem;
using ::testing::AllOf;
using ::testing::Contains;
using ::testing::HasSubstr;
using ::testing::Not;

std::string text_of(const fs::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return std::move(text).str();
}

void write(const fs::path& file, const std::string& text) {
  std::ofstream(file, std::ios::binary) << text;
}

std::string without_line(const std::string& text, int line) {
  std::istringstream in(text);
  std::string row, rest;
  for (int number = 1; std::getline(in, row); ++number) rest += number == line ? "" : row + "\n";
  return rest;
}

/// A class of one sealed job that a good learner has worked, in a data folder of its own.
class SealedClass : public ::testing::Test {
 protected:
  static void SetUpTestSuite() {
    folder = fs::path(::testing::TempDir()) / ("voltfall_class_" + std::to_string(getpid()));
    fs::remove_all(folder);
    fs::create_directories(folder / "records");
    if (const char* value = std::getenv("XDG_DATA_HOME")) before = value;
    setenv("XDG_DATA_HOME", (folder / "data").c_str(), 1);
    ::testing::internal::CaptureStdout();
    EXPECT_EQ(key_command(folder / "class.vfkey"), 0);
    EXPECT_EQ(seal_command({job_file(), folder / "class.vfkey", "AB-12", folder / "job.vfjob"}), 0);
    ::testing::internal::GetCapturedStdout();
    test::planner_learner(folder / "job.vfjob", [](Session& session) {
      EXPECT_FALSE(begin_kept_record({record(), 1}, session));
    });
  }
  static void TearDownTestSuite() {
    before.empty() ? unsetenv("XDG_DATA_HOME") : setenv("XDG_DATA_HOME", before.c_str(), 1);
    fs::remove_all(folder);
  }

  static fs::path job_file() { return fs::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "clicks_in_the_morning.toml"; }
  static fs::path record() { return folder / "records" / "good.vfrec"; }
  static fs::path key() { return folder / "class.vfkey"; }

  static std::vector<Marked> marked(const std::vector<fs::path>& records) {
    const auto read = InstructorKey::in_text(text_of(key()));
    return mark_records(records, table_store().source(), by_key(*read));
  }

  static fs::path folder;
  static std::string before;
};
fs::path SealedClass::folder;
std::string SealedClass::before;

TEST_F(SealedClass, AKeyIsItsOwnersAloneAndNeverWrittenOver) {
  EXPECT_EQ(fs::status(key()).permissions() & fs::perms::all, fs::perms::owner_read | fs::perms::owner_write);
  ::testing::internal::CaptureStderr();
  EXPECT_EQ(key_command(key()), 2);
  EXPECT_THAT(::testing::internal::GetCapturedStderr(), HasSubstr("never written over"));
}

TEST_F(SealedClass, TheRecordHoldsNeitherAnswerNorScore) {
  const std::string text = text_of(record());
  EXPECT_THAT(text, Not(HasSubstr("total")));
  EXPECT_THAT(text, Not(HasSubstr("scenario_text")));
  EXPECT_THAT(text.substr(0, text.find('\n')), Not(HasSubstr("corroded")));
}

TEST_F(SealedClass, EveryCommandThatShowsAJobRefusesItWithoutTheKey) {
  const fs::path job = folder / "job.vfjob";
  ::testing::internal::CaptureStderr();
  ::testing::internal::CaptureStdout();
  CrankOptions crank;
  crank.scenario = job;
  EXPECT_EQ(crank_command(crank), 2);
  EXPECT_EQ(sheet_command(job, {}, "-"), 2);
  EXPECT_EQ(vet_command({job}, {}, false), 2);
  EXPECT_EQ(debrief_command({.record = record()}), 1);
  EXPECT_EQ(mark_command({record()}, {}), 1);
  const std::string out = ::testing::internal::GetCapturedStdout(), err = ::testing::internal::GetCapturedStderr();
  EXPECT_THAT(out + err, Not(HasSubstr("corroded")));
  EXPECT_THAT(err, AllOf(HasSubstr("opens only in the Bay"), HasSubstr("stay closed until")));
}

TEST_F(SealedClass, TheInstructorMarksItAndAReleaseOpensTheDebrief) {
  const auto own = marked({record()});
  ASSERT_EQ(own.size(), 1U);
  EXPECT_EQ(own[0].verdict, MarkVerdict::counted);
  EXPECT_EQ(own[0].pupil_code, "AB-12");
  ASSERT_TRUE(own[0].session && own[0].session->score());
  EXPECT_TRUE(own[0].session->score()->passed);
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(release_command({folder / "job.vfjob"}, key(), folder / "class.vfrelease"), 0);
  EXPECT_EQ(debrief_command({.record = record(), .release = folder / "class.vfrelease"}), 0);
  EXPECT_THAT(::testing::internal::GetCapturedStdout(), HasSubstr("Verdict: passed"));
  fs::remove_all(folder / "data" / "voltfall" / "records");
}

TEST_F(SealedClass, EditedCutSplicedAndForeignRecordsAreRefusedWithTheReason) {
  const std::string text = text_of(record());
  std::string edited = text;
  edited.replace(edited.find("\"step\":", edited.find('\n')), 8, "\"step\":9");
  write(folder / "edited.vfrec", edited);
  write(folder / "cut.vfrec", without_line(text, 4));
  write(folder / "spliced.vfrec", text + without_line(text, 1));
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(key_command(folder / "other.vfkey"), 0);
  EXPECT_EQ(seal_command({job_file(), folder / "other.vfkey", "AB-12", folder / "other.vfjob"}), 0);
  ::testing::internal::GetCapturedStdout();
  {
    Session session(*read_job(folder / "other.vfjob", by_program()).scenario);
    ASSERT_FALSE(begin_record(folder / "foreign.vfrec", 1, session));
  }
  const auto all =
      marked({folder / "edited.vfrec", folder / "cut.vfrec", folder / "spliced.vfrec", folder / "foreign.vfrec"});
  const std::vector<std::string> reasons{"edited", "cut", "spliced", "foreign"};
  for (std::size_t i = 0; i < all.size(); ++i) {
    EXPECT_EQ(all[i].verdict, MarkVerdict::refused) << reasons[i];
    ASSERT_FALSE(all[i].reasons.empty());
    EXPECT_THAT(all[i].reasons.front(), HasSubstr(reasons[i]));
  }
}

// Copied away, gone on with, copied back, and gone on with another way.
TEST_F(SealedClass, ARecordThatPartsWaysWithItselfIsRefusedOnBothSides) {
  const std::string text = text_of(record());
  std::string start;
  std::istringstream in(text);
  std::string row;
  for (int line = 1; line <= 5 && std::getline(in, row); ++line) start += row + "\n";
  write(folder / "way_back.vfrec", start);
  Replay played = replay(folder / "way_back.vfrec");
  ASSERT_TRUE(played.session);
  ASSERT_FALSE(resume_record(folder / "way_back.vfrec", *played.session));
  const auto both = marked({record(), folder / "way_back.vfrec"});
  for (const Marked& one : both) {
    EXPECT_EQ(one.verdict, MarkVerdict::refused);
    EXPECT_THAT(one.reasons, Contains(HasSubstr("rewound")));
  }
  write(folder / "shorter.vfrec", start);
  const auto shorter = marked({record(), folder / "shorter.vfrec"});
  EXPECT_EQ(shorter[0].verdict, MarkVerdict::counted);
  EXPECT_THAT(shorter[1].reasons, Contains(HasSubstr("the same record, and longer")));
}

TEST_F(SealedClass, TheTallyTellsOfItOnAPageAndInATable) {
  write(folder / "records" / "bad.vfrec", without_line(text_of(record()), 3));
  ::testing::internal::CaptureStdout();
  TallyOptions options;
  options.folder = folder / "records";
  options.key = key();
  options.html = (folder / "class.html").string();
  options.csv = (folder / "class.csv").string();
  EXPECT_EQ(tally_command(options), 0);
  ::testing::internal::GetCapturedStdout();
  const std::string page = text_of(folder / "class.html"), table = text_of(folder / "class.csv");
  EXPECT_THAT(page,
              AllOf(HasSubstr("AB-12"), HasSubstr("For your eye"), HasSubstr("cut: line 4"), HasSubstr("passed")));
  EXPECT_THAT(page, Not(HasSubstr("<script")));
  for (const char* outside : {"src=", "href=", "url(", "@import"}) EXPECT_THAT(page, Not(HasSubstr(outside)));
  EXPECT_THAT(table, AllOf(HasSubstr("code,job,title"), HasSubstr("\"AB-12\""), HasSubstr("refused")));
  EXPECT_EQ(std::count(table.begin(), table.end(), '\n'), 3);
  fs::remove(folder / "records" / "bad.vfrec");
}

// The page in a browser: all of it laid out within the window, and on paper.
TEST_F(SealedClass, TheTallyIsLaidOutInABrowserAndPrints) {
  ::testing::internal::CaptureStdout();
  TallyOptions options;
  options.folder = folder / "records";
  options.key = key();
  options.html = (folder / "seen.html").string();
  ASSERT_EQ(tally_command(options), 0);
  ::testing::internal::GetCapturedStdout();
  std::string page = text_of(folder / "seen.html");
  const std::string measure =
      "<script>document.title='width '+document.documentElement.scrollWidth+' of '+innerWidth</script></body>";
  page.replace(page.rfind("</body>"), 7, measure);
  write(folder / "measured.html", page);
  const std::string browser =
      "HOME='" + folder.string() + "' timeout 90 chromium --headless --no-sandbox --disable-gpu ";
  for (const int width : {800, 1280}) {
    const fs::path dom = folder / "dom.txt";
    const std::string command = browser + "--window-size=" + std::to_string(width) + ",900 --dump-dom 'file://" +
                                (folder / "measured.html").string() + "' > '" + dom.string() + "' 2>/dev/null";
    ASSERT_EQ(std::system(command.c_str()), 0);
    const std::string seen = text_of(dom);
    const std::size_t at = seen.find("<title>width ");
    ASSERT_NE(at, std::string::npos);
    int scrolled = 0, inner = 0;
    ASSERT_EQ(std::sscanf(seen.c_str() + at, "<title>width %d of %d", &scrolled, &inner), 2);
    EXPECT_LE(scrolled, inner) << width;
    EXPECT_THAT(seen, HasSubstr("First attempts"));
  }
  const fs::path paper = folder / "class.pdf";
  const std::string print =
      browser + "--print-to-pdf='" + paper.string() + "' 'file://" + (folder / "seen.html").string() + "' 2>/dev/null";
  ASSERT_EQ(std::system(print.c_str()), 0);
  EXPECT_THAT(text_of(paper).substr(0, 5), HasSubstr("%PDF"));
}

TallyContents with_record(const std::string& named) {
  TallyContents contents;
  TallyRecord record;
  record.pupil = "A,1";
  record.title = "He said \"no\"";
  record.named = named;
  record.reasons = {"<b>two</b>\nlines"};
  contents.records.push_back(record);
  contents.pupils = {"A,1"};
  return contents;
}

// RFC 4180, section 2: fields with quotes, commas or line ends stand in quotes, quotes are doubled, rows end in CR LF.
TEST(TallyTable, IsQuotedAsTheStandardSaysAndHoldsNoFormula) {
  const std::string table = tally_as_csv(with_record("=cmd()"));
  EXPECT_THAT(table, HasSubstr("\"A,1\""));
  EXPECT_THAT(table, HasSubstr("\"He said \"\"no\"\"\""));
  EXPECT_THAT(table, HasSubstr("\"'=cmd()\""));
  EXPECT_EQ(table.substr(table.size() - 2), "\r\n");
}

TEST(TallyPage, WritesWhatCameFromARecordAsText) {
  const std::string page = tally_as_html(with_record("x"), english());
  EXPECT_THAT(page, HasSubstr("&lt;b&gt;two&lt;/b&gt;"));
  EXPECT_THAT(page, Not(HasSubstr("<b>two</b>")));
}

TEST(VetCommand, TellsPeopleAndMachinesTheSame) {
  const fs::path job = fs::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "clicks_in_the_morning.toml";
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(vet_command({job}, {}, true), 0);
  const auto json = nlohmann::json::parse(::testing::internal::GetCapturedStdout());
  ASSERT_EQ(json.size(), 1U);
  EXPECT_EQ(json[0]["scenario"], "clicks_in_the_morning");
  EXPECT_EQ(json[0]["sound"], true);
  EXPECT_EQ(json[0]["points"].size(), test_point_count);
  EXPECT_GT(json[0]["par_minutes"].get<double>(), 0.0);
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(vet_command({job}, {}, false), 0);
  const std::string told = ::testing::internal::GetCapturedStdout();
  EXPECT_THAT(told, HasSubstr("SOUND: clicks_in_the_morning"));
  EXPECT_THAT(told, HasSubstr("Clean"));
}

TEST(VetCommand, ExitsOneForAnUnsoundAndTwoForAnUnreadableScenario) {
  const fs::path folder = fs::path(::testing::TempDir()) / ("voltfall_vet_" + std::to_string(getpid()));
  fs::create_directories(folder);
  std::string text = text_of(fs::path(VOLTFALL_SOURCE_DIR) / "scenarios" / "clicks_in_the_morning.toml");
  const std::string severity = "severity = 0.050";
  text.replace(text.find(severity), severity.size(), "severity = 0.005");
  write(folder / "mild.toml", text);
  ::testing::internal::CaptureStdout();
  ::testing::internal::CaptureStderr();
  EXPECT_EQ(vet_command({folder / "mild.toml"}, {}, false), 1);
  EXPECT_THAT(::testing::internal::GetCapturedStdout(), HasSubstr("UNSOUND: mild"));
  write(folder / "wrong.toml", "[job]\ntitel = 3\n");
  ::testing::internal::CaptureStdout();
  EXPECT_EQ(vet_command({folder}, {}, true), 2);
  ::testing::internal::GetCapturedStdout();
  EXPECT_THAT(::testing::internal::GetCapturedStderr(), HasSubstr("wrong.toml:2:"));
  fs::remove_all(folder);
}

}  // namespace
}  // namespace voltfall
