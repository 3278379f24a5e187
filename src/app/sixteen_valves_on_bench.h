#pragma once

#include <algorithm>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "catalogue/catalogue.h"
#include "job/folder.h"

namespace fettle::sixteen_valves {

/// A four-cylinder engine with sixteen valves, made for timing: about 940 readings of 35 kinds, and the clearances of the pairs among them.
/// Engine, book and every figure are invented. Guides are bell-mouthed, stems worn above, bores at the top; one bore (bore-3) lies far past
/// its limit, one guide (guide-7) too.
inline constexpr const char* kHead = R"toml(# A four-cylinder engine with sixteen valves, made for timing. Everything in it is invented.
[job]
id = "dunlin-4"
name = "Dunlin 4 (invented)"
decimal_mark = "point"
shown_unit = "mm"
)toml";

/// One kind of part, as many as there are. Of a kind with a diameter `nominal_mm` and `worn_um` at the most worn place; of another the
/// readings by station, each with its unit.
struct SixteenValveRow {
  const char* kind;
  const char* id;
  int parts;
  const char* gauge;
  double nominal_mm;
  double worn_um;
  std::vector<const char*> readings;  ///< by station, "" where nobody reads
  std::vector<const char*> limits;    ///< definition, role, side, bound, four texts a limit
};

inline std::vector<SixteenValveRow> rows() {
  return {
      {"cylinder-bore", "bore", 4, "bore-gauge-86", 86.0, 40.0, {}, {"size-3", "new", "at-least", "86.000 mm", "size-1", "new", "at-most", "86.018 mm", "size-1", "service", "at-most", "86.080 mm", "oor-1", "service", "at-most", "0.040 mm", "tap-2", "service", "at-most", "0.060 mm"}},
      {"piston", "piston", 4, "mic-75-100", 85.96, 20.0, {}, {"size-1", "service", "at-least", "85.900 mm"}},
      {"piston-pin", "gudgeon", 4, "mic-0-25", 22.0, 6.0, {}, {"size-1", "new", "at-least", "21.994 mm", "size-3", "new", "at-most", "22.000 mm", "size-1", "service", "at-least", "21.970 mm"}},
      {"piston-pin-bore", "boss", 4, "telescoping", 22.0, 12.0, {}, {"size-1", "service", "at-most", "22.040 mm"}},
      {"rod-small-end", "small-end", 4, "telescoping", 22.01, 20.0, {}, {"size-1", "service", "at-most", "22.060 mm"}},
      {"rod-big-end", "big-end", 4, "bore-gauge-51", 51.0, 4.0, {}, {"oor-2", "service", "at-most", "0.030 mm"}},
      {"connecting-rod", "rod", 4, "dial", 0.0, 0.0, {"0.02 mm", "0.03 mm", "", "", "100 mm"}, {"rod-bend", "service", "at-most", "0.05 mm"}},
      {"rod-bolt", "bolt", 8, "mic-0-25", 0.0, 0.0, {"9.02 mm", "8.98 mm", "", ""}, {"bolt-neck", "service", "at-most", "0.15 mm"}},
      {"main-journal", "main", 5, "mic-50-75", 60.0, 20.0, {}, {"size-1", "new", "at-least", "59.982 mm", "size-3", "new", "at-most", "60.000 mm", "size-1", "service", "at-least", "59.940 mm", "oor-1", "service", "at-most", "0.025 mm", "tap-2", "service", "at-most", "0.025 mm"}},
      {"crankpin", "pin", 4, "mic-25-50", 48.0, 24.0, {}, {"size-1", "new", "at-least", "47.982 mm", "size-3", "new", "at-most", "48.000 mm", "size-1", "service", "at-least", "47.940 mm", "oor-1", "service", "at-most", "0.025 mm"}},
      {"bearing-bore", "bearing", 5, "bore-gauge-60", 60.04, 15.0, {}, {"size-1", "service", "at-most", "60.120 mm"}},
      {"crankshaft", "crank", 1, "dial", 0.0, 0.0, {"0.00 mm", "0.02 mm", "0.03 mm", "0.02 mm", "0.00 mm"}, {"run-travel", "service", "at-most", "0.06 mm"}},
      {"crank-end-float", "float", 1, "dial", 0.0, 0.0, {"0.00 mm", "0.12 mm"}, {"end-float", "service", "at-most", "0.30 mm"}},
      {"block-deck", "deck", 1, "feeler", 0.0, 0.0, {"0.03 mm", "0.02 mm", "0.01 mm", "0.02 mm", "0.01 mm", "0.03 mm", "0.02 mm"}, {"flat-1", "service", "at-most", "0.10 mm"}},
      {"head-face", "head", 1, "feeler", 0.0, 0.0, {"0.02 mm", "0.04 mm", "0.02 mm", "0.02 mm", "0.01 mm", "0.03 mm", "0.05 mm"}, {"flat-1", "service", "at-most", "0.10 mm"}},
      {"manifold-face", "manifold", 2, "feeler", 0.0, 0.0, {"0.04 mm", "0.03 mm", "0.02 mm", "0.02 mm"}, {"flat-1", "service", "at-most", "0.15 mm"}},
      {"valve-guide", "guide", 16, "small-hole", 7.0, 35.0, {}, {"size-3", "new", "at-least", "7.000 mm", "size-1", "new", "at-most", "7.015 mm", "size-1", "service", "at-most", "7.080 mm"}},
      {"valve-stem", "stem", 16, "mic-0-25", 6.97, 22.0, {}, {"size-1", "new", "at-least", "6.955 mm", "size-3", "new", "at-most", "6.970 mm", "size-1", "service", "at-least", "6.920 mm"}},
      {"valve", "valve", 16, "caliper", 0.0, 0.0, {"", "1.2 mm", "1.1 mm"}, {"valve-margin", "service", "at-least", "0.8 mm"}},
      {"valve-seat", "seat", 16, "caliper", 0.0, 0.0, {"1.4 mm", "1.5 mm", "1.4 mm", "1.5 mm", "", ""}, {"seat-width-most", "service", "at-most", "2.2 mm"}},
      {"valve-spring", "spring", 16, "caliper", 0.0, 0.0, {"46.2 mm", "38.0 mm", "", "28.5 mm", "", ""}, {"spring-free", "service", "at-least", "45.0 mm"}},
      {"spring-height", "height", 16, "caliper", 0.0, 0.0, {"38.1 mm", "0.5 mm"}, {"spring-height", "service", "at-most", "39.0 mm"}},
      {"valve-lash", "lash", 16, "feeler-gauge", 0.0, 0.0, {"0.20 mm", "", ""}, {"lash", "service", "at-most", "0.30 mm"}},
      {"follower", "follower", 16, "mic-25-50", 28.0, 15.0, {}, {"size-1", "new", "at-least", "27.985 mm", "size-3", "new", "at-most", "28.000 mm", "size-1", "service", "at-least", "27.940 mm"}},
      {"follower-bore", "well", 16, "telescoping", 28.02, 20.0, {}, {"size-1", "service", "at-most", "28.090 mm"}},
      {"cam-lobe", "lobe", 16, "mic-25-50", 0.0, 0.0, {"42.35 mm", "", "", "", ""}, {"lobe-1", "service", "at-least", "8 mm"}},
      {"cam-journal", "cam-journal", 10, "mic-25-50", 28.0, 15.0, {}, {"size-1", "service", "at-least", "27.940 mm"}},
      {"cam-bearing-bore", "cam-bearing", 10, "telescoping", 28.03, 20.0, {}, {"size-1", "service", "at-most", "28.100 mm"}},
      {"camshaft", "cam", 2, "dial", 0.0, 0.0, {"0.00 mm", "0.01 mm", "0.02 mm", "0.01 mm", "0.00 mm"}, {"run-travel", "service", "at-most", "0.05 mm"}},
      {"cam-end-play", "cam-float", 2, "dial", 0.0, 0.0, {"0.00 mm", "0.11 mm"}, {"end-float", "service", "at-most", "0.25 mm"}},
      {"ring-end-gap", "ring", 12, "feeler-gauge", 0.0, 0.0, {"0.45 mm", ""}, {"ring-gap", "service", "at-most", "0.90 mm"}},
      {"ring-side-gap", "groove", 12, "feeler-gauge", 0.0, 0.0, {"0.05 mm", "0.06 mm", "0.05 mm", "0.06 mm"}, {"reading-most", "service", "at-most", "0.12 mm"}},
      {"compression", "cold-test", 1, "pressure", 0.0, 0.0, {"11.2 bar", "11.0 bar", "11.4 bar", "10.9 bar"}, {"compression-least", "service", "at-least", "9 bar"}},
      {"leak-down", "leak", 4, "pressure", 0.0, 0.0, {"5.5 bar", "4.9 bar"}, {"leak-loss", "service", "at-most", "25"}},
      {"oil-pump-gears", "pump", 1, "feeler-gauge", 0.0, 0.0, {"0.10 mm", "0.11 mm", "0.06 mm", "0.06 mm", "0.20 mm"}, {"pump-radial", "service", "at-most", "0.20 mm"}},
  };
}

/// Pairs of parts by their numbers: kind, id, count, then role and id of each of its members; limits as above.
struct SixteenValvePair {
  const char* kind;
  const char* id;
  int pairs;
  const char* roles[2];
  const char* members[2];
  std::vector<const char*> limits;
};

inline std::vector<SixteenValvePair> pairs() {
  return {
      {"bore-and-piston", "skirt", 4, {"bore", "piston"}, {"bore", "piston"}, {"clr-1", "service", "at-most", "0.20 mm"}},
      {"pin-in-piston", "boss-fit", 4, {"bore", "shaft"}, {"boss", "gudgeon"}, {"fit-most", "service", "at-most", "0.06 mm"}},
      {"bearing-and-journal", "main-fit", 5, {"bearing", "journal"}, {"bearing", "main"}, {"clr-2-bearing", "service", "at-most", "0.15 mm"}},
      {"stem-in-guide", "stem-fit", 16, {"bore", "shaft"}, {"guide", "stem"}, {"fit-most", "service", "at-most", "0.15 mm"}},
      {"follower-in-bore", "follower-fit", 16, {"bore", "shaft"}, {"well", "follower"}, {"fit-most", "service", "at-most", "0.15 mm"}},
      {"cam-in-bearing", "cam-fit", 10, {"bore", "shaft"}, {"cam-bearing", "cam-journal"}, {"fit-most", "service", "at-most", "0.15 mm"}},
  };
}

/// A figure in [-1, 1) that depends on its number alone.
inline double scattered(std::uint64_t number) {
  std::uint64_t x = number * 0x9e37'79b9'7f4a'7c15U + 0x2545'f491'4f6c'dd1dU;
  x ^= x >> 29U;
  x *= 0xbf58'476d'1ce4'e5b9U;
  x ^= x >> 32U;
  return static_cast<double>(x >> 11U) / 4503599627370496.0 - 1.0;
}

inline double worn_share(const KindWear& wear, double height) {
  switch (wear.pattern) {
    case WearPattern::from_first: return std::exp(-height / 0.4);
    case WearPattern::both_ends: return 0.4 + 2.4 * (height - 0.5) * (height - 0.5);
    case WearPattern::none:
    case WearPattern::even: return 1.0;
  }
  return 1.0;
}

inline std::string decimals(double value, int count) {
  std::string text(32, ' ');
  text.resize(static_cast<std::size_t>(std::to_chars(text.data(), text.data() + text.size(), value, std::chars_format::fixed, count).ptr - text.data()));
  return text;
}

/// The reading of one place of a diameter: wear by its kind's own pattern, a quarter of it oval, a part's own amount, and a little noise.
inline std::string diameter(const SixteenValveRow& row, const Kind& kind, int part, std::size_t station, std::size_t direction, std::uint64_t number, bool two_worn_out) {
  const double sign = kind.feature == Feature::inside ? 1.0 : -1.0;
  const Station& at = kind.layout.stations[station];
  const double height = static_cast<double>(station) / std::max(1.0, static_cast<double>(kind.layout.stations.size() - 1));
  const bool past = two_worn_out && ((std::string_view(row.id) == "bore" && part == 3) || (std::string_view(row.id) == "guide" && part == 7));
  const double own = (past ? 3.0 : 1.0) * (1.0 + 0.15 * scattered(static_cast<std::uint64_t>(part) * 131U + static_cast<std::uint64_t>(row.nominal_mm * 100.0)));
  const double oval = direction == 0 ? 1.0 : 0.75;
  const double made_um = sign * 8.0;
  const double worn = at.role == StationRole::reference ? 0.0 : row.worn_um * own * oval * worn_share(kind.wear, height);
  const double um = made_um + sign * worn + 2.0 * scattered(number);
  const std::string_view gauge = row.gauge;
  if (!gauge.starts_with("bore-gauge-")) return decimals(row.nominal_mm + um / 1000.0, 2) + ",mm";
  double set_mm = 0.0;
  (void)std::from_chars(gauge.data() + std::string_view("bore-gauge-").size(), gauge.data() + gauge.size(), set_mm);
  const long divisions = std::lround(um + 1000.0 * (row.nominal_mm - set_mm));
  return std::to_string(std::labs(divisions)) + (divisions > 0 ? " acw" : divisions < 0 ? " cw" : "") + ",div";
}

inline std::string limits_of(const char* kind, const char* id, const std::vector<const char*>& texts, const std::string& standard) {
  std::string out;
  for (std::size_t k = 0; k + 3 < texts.size(); k += 4) {
    out += "\n[[limit]]\nid = \"" + std::string(id) + "-" + texts[k] + "-" + texts[k + 1] + "\"\nkind = \"" + kind + "\"\ndefinition = \"" + texts[k] +
           "\"\nrole = \"" + texts[k + 1] + "\"\nside = \"" + texts[k + 2] + "\"\nbound = \"" + texts[k + 3] + "\"\n" + standard +
           "book = \"Dunlin 4 workshop notes (invented)\"\npage = \"1\"\n";
  }
  return out;
}

inline std::string gauges() {
  std::string out;
  const auto direct = [&](const char* id, const char* preset) {
    out += "\n[[gauge]]\nid = \"" + std::string(id) + "\"\npreset = \"" + preset + "\"\n\n[[setting]]\nid = \"" + id + "\"\ngauge = \"" + id + "\"\n";
  };
  direct("mic-0-25", "outside-micrometer-0-25-mm");
  direct("mic-25-50", "outside-micrometer-25-50-mm");
  direct("mic-50-75", "outside-micrometer-50-75-mm");
  direct("mic-75-100", "outside-micrometer-75-100-mm");
  direct("telescoping", "telescoping-gauge-mm");
  direct("small-hole", "small-hole-gauge-mm");
  direct("dial", "dial-indicator-0-01-mm");
  direct("feeler", "straightedge-and-feeler");
  direct("feeler-gauge", "feeler-gauge");
  direct("caliper", "caliper");
  direct("pressure", "pressure-gauge");
  const auto comparison = [&](const char* id, const char* master, const char* size) {
    out += "\n[[gauge]]\nid = \"" + std::string(id) + "\"\npreset = \"dial-bore-gauge-0-001-mm\"\ndivision = \"0.001 mm\"\nturn = \"0.2 mm\"\npressed_in = \"clockwise\"\n\n[[setting]]\nid = \"" +
           id + "\"\ngauge = \"" + id + "\"\nmaster = \"" + master + "\"\nwanted = \"" + size + "\"\nset = \"" + size + "\"\nopening_zero = \"0\"\nclosing_zero = \"0\"\n";
  };
  comparison("bore-gauge-86", "mic-75-100", "86.000 mm");
  comparison("bore-gauge-60", "mic-50-75", "60.000 mm");
  comparison("bore-gauge-51", "mic-50-75", "51.000 mm");
  return out;
}

/// The folder that a person could have written; without the two that are worn out, a sound engine.
inline FolderTexts folder(bool two_worn_out = true) {
  FolderTexts out{"dunlin-4", std::string(kHead) + gauges(), "part,station,direction,reading,unit,setting\n"};
  std::uint64_t number = 0;
  for (const SixteenValveRow& row : rows()) {
    const Kind& kind = *catalogue().kind(row.kind);
    const bool worn = row.readings.empty();
    for (int part = 1; part <= row.parts; ++part) {
      const std::string id = std::string(row.id) + "-" + std::to_string(part);
      out.job_toml += "\n[[part]]\nid = \"" + id + "\"\nkind = \"" + row.kind + "\"\nstep = \"standard\"\ncondition = \"worn\"\n";
      for (std::size_t s = 0; s < kind.layout.stations.size(); ++s) {
        for (std::size_t d = 0; d < kind.layout.directions.size(); ++d) {
          const std::string place = id + "," + kind.layout.stations[s].id + "," + kind.layout.directions[d].id + ",";
          if (worn && kind.layout.directions[d].counted) {
            out.readings_csv += place + diameter(row, kind, part, s, d, ++number, two_worn_out) + "," + row.gauge + "\n";
          } else if (!worn && d == 0 && s < row.readings.size() && *row.readings[s] != '\0') {
            std::string text = row.readings[s];
            text[text.find(' ')] = ',';
            out.readings_csv += place + text + "," + row.gauge + "\n";
          }
        }
      }
    }
    const std::string standard = row.nominal_mm > 0.0 ? "standard = \"" + decimals(row.nominal_mm, 3) + " mm\"\n" : "";
    out.job_toml += limits_of(row.kind, row.id, row.limits, standard);
  }
  for (const SixteenValvePair& pair : pairs()) {
    for (int k = 1; k <= pair.pairs; ++k) {
      const std::string n = "-" + std::to_string(k);
      out.job_toml += "\n[[part]]\nid = \"" + (pair.id + n) + "\"\nkind = \"" + pair.kind + "\"\nstep = \"standard\"\ncondition = \"worn\"\nmembers = { " + pair.roles[0] +
                      " = \"" + pair.members[0] + n + "\", " + pair.roles[1] + " = \"" + pair.members[1] + n + "\" }\n";
    }
    out.job_toml += limits_of(pair.kind, pair.id, pair.limits, "");
  }
  return out;
}

}  // namespace fettle::sixteen_valves
