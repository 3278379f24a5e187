#pragma once

#include <string>
#include <vector>

#include "app/record_on_bench.h"

// For tests: an invented four-cylinder engine whose limits stand in millimetres and whose micrometer in inches, its bores partly read.
namespace fettle {

struct LinnetRow {
  std::string part;
  std::string station;
  std::string direction;
  std::string reading;  ///< "78 acw"
  std::string who = "JB";
  std::string when = {};
  std::string flag = {};
};

struct LinnetTold {
  std::vector<LinnetRow> rows = {};
  std::string closing = {};        ///< "2 acw"; nothing: the round is open
  bool temperatures = true;
  std::string pressed_in = "clockwise";
  bool limits = true;
  bool afresh = false;                       ///< a second setting after the first, the same and open
  std::vector<LinnetRow> rows_afresh = {};   ///< read under it
};

inline const std::string kLinnet = "linnet-4";

inline FolderTexts linnet(const LinnetTold& told) {
  FolderTexts out{"linnet-4", "", ""};
  out.job_toml = "[job]\nid = \"linnet-4\"\nname = \"Linnet 4\"\ndecimal_mark = \"point\"\nshown_unit = \"mm\"\nremark = \"Invented.\"\n";
  out.job_toml += "[[layout]]\nkind = \"cylinder-bore\"\nstation = [\n  { id = \"top\", role = \"first\", depth = \"10 mm\" },\n  { id = \"mid\", role = \"middle\", depth = \"60 mm\" },\n"
                  "  { id = \"bottom\", role = \"last\", depth = \"105 mm\" },\n  { id = \"foot\", role = \"reference\", depth = \"125 mm\" },\n]\n";
  for (const char* each : {"1", "2", "3", "4"}) {
    out.job_toml += std::string("[[part]]\nid = \"bore-") + each + "\"\nkind = \"cylinder-bore\"\nposition = \"" + each + "\"\nstep = \"standard\"\ncondition = \"worn\"\n";
  }
  out.job_toml += "[[gauge]]\nid = \"mic\"\npreset = \"outside-micrometer-3-4-in\"\ndivision = \"0.0001 in\"\nreads = \"3.0001 in\"\non_standard = \"3.0000 in\"\n"
                  "[[gauge]]\nid = \"bg\"\npreset = \"dial-bore-gauge-0-001-mm\"\ndivision = \"0.001 mm\"\nturn = \"0.2 mm\"\n";
  if (!told.pressed_in.empty()) out.job_toml += "pressed_in = \"" + told.pressed_in + "\"\n";
  if (!told.pressed_in.empty()) {
    out.job_toml += "[[setting]]\nid = \"bg-1\"\ngauge = \"bg\"\nmaster = \"mic\"\nwanted = \"78.000 mm\"\nset = \"3.0709 in\"\nopening_zero = [\"0\", \"1 acw\", \"0\"]\n";
    if (!told.closing.empty()) out.job_toml += "closing_zero = \"" + told.closing + "\"\n";
    const std::string temperatures = told.temperatures ? "master_temperature = \"20 °C\"\npart_temperature = \"20 °C\"\n" : "";
    out.job_toml += temperatures;
    if (told.afresh) out.job_toml += "[[setting]]\nid = \"bg-2\"\ngauge = \"bg\"\nmaster = \"mic\"\nwanted = \"78.000 mm\"\nset = \"3.0709 in\"\nopening_zero = [\"0\", \"0\", \"0\"]\n" + temperatures;
  }
  const std::string origin = "book = \"Linnet notes (invented)\"\npage = \"14\"\n";
  const auto limit = [&](const char* id, const char* definition, const char* role, const char* side, const char* bound) {
    out.job_toml += std::string("[[limit]]\nid = \"") + id + "\"\nkind = \"cylinder-bore\"\ndefinition = \"" + definition + "\"\nrole = \"" + role + "\"\nside = \"" + side + "\"\nbound = \"" + bound + "\"\n" + origin;
  };
  if (told.limits) {
    limit("new-low", "size-3", "new", "at-least", "78.000 mm");
    limit("new-high", "size-1", "new", "at-most", "78.020 mm");
    limit("service", "size-1", "service", "at-most", "78.100 mm");
    limit("oor", "oor-1", "service", "at-most", "0.040 mm");
    limit("taper", "tap-2", "service", "at-most", "0.080 mm");
  }
  out.readings_csv = "part,station,direction,reading,unit,setting,round,order,flag,who,when\n";
  const auto read = [&](const std::vector<LinnetRow>& rows, const std::string& setting) {
    int order = 0;
    for (const LinnetRow& each : rows) {
      out.readings_csv += each.part + "," + each.station + "," + each.direction + "," + each.reading + ",div," + setting + ",1," + std::to_string(++order) + "," + each.flag + "," + each.who + "," + each.when + "\n";
    }
  };
  read(told.rows, "bg-1");
  read(told.rows_afresh, "bg-2");
  return out;
}

/// Divisions anticlockwise of one bore, down the thrust side, then up along the pin.
inline std::vector<LinnetRow> linnet_bore(int number) {
  static const int kRead[4][8] = {{78, 34, 20, 14, 13, 17, 30, 66}, {71, 31, 18, 12, 12, 16, 28, 60}, {144, 61, 24, 13, 14, 20, 49, 88}, {84, 37, 21, 15, 14, 18, 32, 70}};
  static const char* kStations[8] = {"top", "mid", "bottom", "foot", "foot", "bottom", "mid", "top"};
  std::vector<LinnetRow> out;
  for (int i = 0; i < 8; ++i) {
    out.push_back({"bore-" + std::to_string(number), kStations[i], i < 4 ? "thrust" : "pin", std::to_string(kRead[number - 1][i]) + " acw"});
  }
  return out;
}

inline std::vector<LinnetRow> linnet_bores(int most) {
  std::vector<LinnetRow> out;
  for (int number = 1; number <= most; ++number) {
    for (LinnetRow& each : linnet_bore(number)) out.push_back(std::move(each));
  }
  return out;
}

/// The record with the engine in it.
struct LinnetOnBench : RecordOnBench {
  explicit LinnetOnBench(const LinnetTold& told) {
    const auto taken = take(linnet(told));
    FETTLE_ASSERT(taken.ok(), taken.ok() ? "" : taken.problems().front().code + " " + std::to_string(taken.problems().front().place.line.value_or(0)));
  }
  [[nodiscard]] RecordedJob job() { return recorded(kLinnet); }
};

}  // namespace fettle
