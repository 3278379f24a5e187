#pragma once

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "app/record_on_bench.h"
#include "server/presence.h"
#include "server/route_pattern.h"
#include "server/routes.h"

// For the tests of server: the routes over a record in memory, asked without a network.
namespace fettle {

class NobodyListens final : public Live {
 public:
  void tell(const std::string&, const std::optional<std::string>&, const std::string&, const std::string&) override {}
};

struct PageOnBench : RecordOnBench {
  OpenJobs jobs{store};
  NobodyListens live;
  Presence presence;
  Served served{store, jobs, clock, live, "shop.fettle", &presence};
  std::vector<HttpRoute> routes = all_routes(served);

  /// The answer of whichever route takes the path.
  [[nodiscard]] HttpResponse ask(const std::string& method, const std::string& path, std::map<std::string, std::string> query = {}, Language language = Language::english,
                                 std::string body = {}) {
    for (const HttpRoute& each : routes) {
      const auto words = match_path(each.pattern, path);
      if (each.method == method && words) return each.handler({method, path, *words, std::move(query), std::move(body), language, true, {}});
    }
    return {404, "", {}, "no route for " + path};
  }
  [[nodiscard]] std::string get(const std::string& path, std::map<std::string, std::string> query = {}, Language language = Language::english) {
    return ask("GET", path, std::move(query), language).body;
  }
};

inline std::string replaced(std::string text, const std::string& old, const std::string& by) {
  const std::size_t at = text.find(old);
  FETTLE_ASSERT(at != std::string::npos, old);
  return text.replace(at, old.size(), by);
}

/// The example with its round still open: bore 3 not read from its lower places on, no closing zero.
inline FolderTexts half_read() {
  FolderTexts out = read_folder(kExample).value();
  out.job_toml = replaced(out.job_toml, "closing_zero = \"1 acw\"\n", "");
  out.readings_csv.resize(out.readings_csv.find("bore-3,mid,pin"));
  return out;
}

/// An engine of which nothing but its parts is known; names of sixty letters.
inline FolderTexts bare_and_long() {
  FolderTexts out = read_folder(kExample).value();
  const std::string name = "Stationaermotor der alten Ziegelei am Muehlbach, Reihe zwo, A";
  out.job_toml = "[job]\nid = \"long\"\nname = \"" + name + "\"\nshown_unit = \"in\"\nremark = \"Invented.\"\n\n[[part]]\nid = \"bore-1\"\nkind = \"cylinder-bore\"\nposition = \"" +
                 std::string(60, 'A') + "\"\nstep = \"unknown\"\ncondition = \"worn\"\n\n[[part]]\nid = \"main-1\"\nkind = \"main-journal\"\nposition = \"1\"\nstep = \"standard\"\n"
                 "condition = \"worn\"\n";
  out.readings_csv = "part,station,direction,reading,unit,setting\n";
  return out;
}

/// What a reply was when it was recorded; with RECORD=1 it is recorded now. The same files are the page's test data.
inline std::string recorded_reply(const std::string& name, const std::string& now) {
  const std::string path = std::string(FETTLE_SOURCE_DIR) + "/tests/http/replies/" + name + ".json";
  if (const char* record = std::getenv("RECORD"); record != nullptr && std::string(record) == "1") std::ofstream(path, std::ios::binary) << now;
  std::ifstream file(path, std::ios::binary);
  std::ostringstream out;
  out << file.rdbuf();
  return out.str();
}

}  // namespace fettle
