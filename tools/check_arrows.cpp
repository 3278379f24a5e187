#include <algorithm>
#include <array>
#include <optional>
#include <set>

#include "checks.h"
#include "source_text.h"

namespace fettle::house {
namespace {

constexpr std::string_view kArrowsFile = "tools/arrows.txt";

struct Room {
  std::vector<std::string> may_include;
  int line;
};
using Rooms = std::map<std::string, Room, std::less<>>;

bool is_test_source(std::string_view path) { return path.ends_with("_test.cpp"); }
bool in_folder(std::string_view path, std::string_view folder) { return path.starts_with(folder); }

// The outside libraries and the only places that may see their headers.
bool in_wire(std::string_view path) { return in_folder(path, "src/wire/"); }
bool in_document(std::string_view path) { return path == "src/base/document.cpp"; }
bool in_numeric_source(std::string_view path) { return in_folder(path, "src/numeric/") && path.ends_with(".cpp"); }
bool in_server_source(std::string_view path) { return in_folder(path, "src/server/") && path.ends_with(".cpp"); }
bool in_numeric_or_server(std::string_view path) { return in_numeric_source(path) || in_server_source(path); }
bool in_sodium(std::string_view path) { return path == "src/base/digest.cpp" || path == "src/base/secret.cpp"; }
bool in_certificate_or_network(std::string_view path) { return path == "src/server/certificate.cpp" || path == "src/server/http_server.cpp"; }
bool in_qr_picture(std::string_view path) { return path == "src/server/qr_picture.cpp"; }
bool in_cli(std::string_view path) { return in_folder(path, "src/cli/"); }
bool in_store_sqlite(std::string_view path) { return in_folder(path, "src/store_sqlite/"); }
bool in_store_postgres(std::string_view path) { return in_folder(path, "src/store_postgres/"); }
bool in_archive(std::string_view path) { return in_folder(path, "src/archive/"); }
bool in_attachment(std::string_view path) { return in_folder(path, "src/attachment/"); }
bool in_drawing_source(std::string_view path) { return in_folder(path, "src/drawing/") && path.ends_with(".cpp"); }

struct Wall {
  std::string_view header;  ///< how the included name begins
  bool (*inside)(std::string_view path);
  std::string_view said;
};
// The first row that matches decides, so the longer beginnings stand first.
constexpr std::array kWalls = {
    Wall{"nlohmann/", in_wire, "JSON belongs in src/wire only. Hand the value to wire"},
    Wall{"toml++/", in_document, "TOML belongs in src/base/document.cpp only. Use base/document.h"},
    Wall{"toml.h", in_document, "TOML belongs in src/base/document.cpp only. Use base/document.h"},
    Wall{"Eigen/", in_numeric_source, "matrices belong in src/numeric/*.cpp only. Give numeric a function that does it"},
    Wall{"boost/math", in_numeric_source, "Boost.Math belongs in src/numeric/*.cpp only. Give numeric a function that does it"},
    Wall{"boost/asio", in_server_source, "the network belongs in src/server/*.cpp only. Call it from there"},
    Wall{"boost/beast", in_server_source, "the network belongs in src/server/*.cpp only. Call it from there"},
    Wall{"boost/", in_numeric_or_server, "Boost belongs in src/numeric/*.cpp and src/server/*.cpp only. Do without it"},
    Wall{"asio", in_server_source, "the network belongs in src/server/*.cpp only. Call it from there"},
    Wall{"sodium", in_sodium, "libsodium belongs in src/base/digest.cpp and secret.cpp only. Use base/digest.h or base/secret.h"},
    Wall{"openssl/", in_certificate_or_network, "OpenSSL belongs in src/server/certificate.cpp only. Use server/certificate.h"},
    Wall{"qrencode", in_qr_picture, "libqrencode belongs in src/server/qr_picture.cpp only. Use server/qr_picture.h"},
    Wall{"CLI/", in_cli, "the command line belongs in src/cli only. Take plain values instead"},
    Wall{"sqlite3", in_store_sqlite, "SQLite belongs in src/store_sqlite only. Use the interface in src/store"},
    Wall{"libpq", in_store_postgres, "PostgreSQL belongs in src/store_postgres only. Use the interface in src/store"},
    Wall{"postgresql/", in_store_postgres, "PostgreSQL belongs in src/store_postgres only. Use the interface in src/store"},
    Wall{"zlib", in_archive, "zlib belongs in src/archive only. Use archive/archive.h"},
    Wall{"jpeglib", in_attachment, "libjpeg belongs in src/attachment only. Use attachment/attachment.h"},
    Wall{"png.h", in_attachment, "libpng belongs in src/attachment only. Use attachment/attachment.h"},
    Wall{"cairo", in_drawing_source, "cairo belongs in src/drawing/*.cpp only. Give out a display list"},
    Wall{"pango/", in_drawing_source, "pango belongs in src/drawing/*.cpp only. Give out a display list"},
    Wall{"gtest/", is_test_source, "test libraries belong in *_test.cpp only. Move the code to a test"},
    Wall{"gmock/", is_test_source, "test libraries belong in *_test.cpp only. Move the code to a test"},
    Wall{"rapidcheck", is_test_source, "test libraries belong in *_test.cpp only. Move the code to a test"},
};

class ArrowCheck {
 public:
  explicit ArrowCheck(const SourceTree& tree) : tree_(tree) {}

  Findings run() && {
    read_arrows();
    if (rooms_.empty()) return std::move(findings_);
    look_for_loops();
    for (const auto& [path, text] : tree_) {
      if (!in_folder(path, "src/")) continue;
      if (is_cpp(path)) look_at_source(path, text);
      if (path.ends_with("/CMakeLists.txt")) look_at_uses(path, text);
    }
    return std::move(findings_);
  }

 private:
  void refuse(std::string_view path, int line, std::string what) {
    findings_.push_back({std::string(path), line, std::move(what), Weight::refusal});
  }

  void read_arrows() {
    const auto file = tree_.find(kArrowsFile);
    if (file == tree_.end()) {
      refuse(kArrowsFile, 0, "the list of allowed arrows is missing. Write one line a room: room -> rooms it may include.");
      return;
    }
    int line = 0;
    for (const std::string_view text : lines_of(file->second)) {
      ++line;
      read_arrow(words_of(text.substr(0, text.find('#'))), line);
    }
    for (const auto& [name, room] : rooms_) {
      for (const std::string& target : room.may_include) {
        if (rooms_.find(target) == rooms_.end()) {
          refuse(kArrowsFile, room.line, "the arrow " + name + " -> " + target + " ends in a room that has no line. Give it one.");
        }
      }
    }
  }

  void read_arrow(const std::vector<std::string_view>& words, int line) {
    if (words.empty()) return;
    if (words.size() < 2 || words[1] != "->") {
      refuse(kArrowsFile, line, "this is no arrow. Write: room -> rooms it may include.");
      return;
    }
    Room room{{words.begin() + 2, words.end()}, line};
    if (!rooms_.emplace(std::string(words[0]), std::move(room)).second) {
      refuse(kArrowsFile, line, "the room " + std::string(words[0]) + " has two lines. Make one of them.");
    }
  }

  void add_reachable(const std::string& from, std::set<std::string>& seen) const {
    const auto room = rooms_.find(from);
    if (room == rooms_.end()) return;
    for (const std::string& target : room->second.may_include) {
      if (seen.insert(target).second) add_reachable(target, seen);
    }
  }

  [[nodiscard]] bool reaches(std::string_view from, std::string_view to) const {
    std::set<std::string> seen;
    add_reachable(std::string(from), seen);
    return seen.count(std::string(to)) > 0;
  }

  void look_for_loops() {
    for (const auto& [name, room] : rooms_) {
      if (reaches(name, name)) refuse(kArrowsFile, room.line, "the arrows of " + name + " lead back to it. Break the loop.");
    }
  }

  void look_at_source(std::string_view path, std::string_view text) {
    const std::string_view room = room_of(path);
    if (room.empty() || rooms_.find(room) == rooms_.end()) {
      refuse(path, 0, "this folder is no room of tools/arrows.txt. Move the file, or give the room its line.");
      return;
    }
    const std::string code = blank_comments(text);
    int line = 0;
    bool first = true;
    for (const std::string_view each : lines_of(code)) {
      ++line;
      const auto included = include_in(each);
      if (!included) continue;
      if (first) look_at_first(path, line, *included);
      first = false;
      look_at_include(path, line, *included);
    }
  }

  struct Include {
    std::string_view name;
    bool quoted;
  };

  static std::optional<Include> include_in(std::string_view line) {
    line = trimmed(line);
    if (line.empty() || line.front() != '#') return std::nullopt;
    line = trimmed(line.substr(1));
    constexpr std::string_view kInclude = "include";
    if (!line.starts_with(kInclude)) return std::nullopt;
    line = trimmed(line.substr(kInclude.size()));
    if (line.size() < 2 || (line.front() != '"' && line.front() != '<')) return std::nullopt;
    const bool quoted = line.front() == '"';
    return Include{line.substr(1, line.find(quoted ? '"' : '>', 1) - 1), quoted};
  }

  /// A source begins with its own header, so that the compiler shows whether that includes what it uses: such headers are not compiled
  /// by themselves any more (cmake/FettleRoom.cmake).
  void look_at_first(std::string_view path, int line, Include included) {
    if (!path.ends_with(".cpp") || is_test_source(path)) return;
    const std::string header = std::string(path.substr(0, path.size() - 4)) + ".h";
    if (tree_.find(header) == tree_.end() || "src/" + std::string(included.name) == header) return;
    refuse(path, line, "this source has a header of its own. Include it first: \"" + header.substr(4) + "\".");
  }

  void look_at_include(std::string_view path, int line, Include included) {
    const std::string name(included.name);
    const auto wall = std::find_if(kWalls.begin(), kWalls.end(),
                                   [&](const Wall& each) { return included.name.starts_with(each.header); });
    if (wall != kWalls.end()) {
      if (!wall->inside(path)) refuse(path, line, std::string(wall->said) + " (" + name + ").");
      return;
    }
    const auto slash = included.name.find('/');
    const std::string_view first = slash == std::string_view::npos ? std::string_view() : included.name.substr(0, slash);
    if (!included.quoted && tree_.find("src/" + name) == tree_.end()) return;  // the standard library, or another system header
    if (first.empty()) {
      refuse(path, line, "\"" + name + "\" does not say its room. Write \"" + std::string(room_of(path)) + "/" + name + "\".");
    } else if (first != "embedded") {  // made by fettle_embed for the room itself
      look_at_arrow(path, line, first);
    }
  }

  void look_at_arrow(std::string_view path, int line, std::string_view target) {
    const std::string from(room_of(path));
    const std::string to(target);
    if (from == to) return;
    if (rooms_.find(to) == rooms_.end()) {
      refuse(path, line, to + " is no room of tools/arrows.txt. Outside libraries are included with < >.");
      return;
    }
    const bool particular_store = to.starts_with("store_");
    // The program's main file hands the particular store and the server in; its room knows neither.
    if (to == "server" && path == "src/cli/main.cpp") return;
    if (particular_store && (path == "src/cli/main.cpp" || path == "src/server/main.cpp")) return;
    if (particular_store) {
      refuse(path, line, "only the main files of the programs may name a particular store. Use the interface in src/store.");
    } else if (!is_test_source(path) && !reaches(from, to)) {
      refuse(path, line, reaches(to, from) ? "an arrow backward: " + to + " rests on " + from + ". Hand the value over as an argument."
                                           : "an arrow sideways: there is no " + from + " -> " + to +
                                                 ". Move what both need to a room that both may enter.");
    }
  }

  /// What a folder links in CMake must be allowed as well.
  void look_at_uses(std::string_view path, std::string_view text) {
    if (rooms_.find(room_of(path)) == rooms_.end()) return;
    bool in_uses = false;
    int line = 0;
    for (const std::string_view each : lines_of(text)) {
      ++line;
      for (std::string_view word : words_of(each.substr(0, each.find('#')))) {
        const bool last = word.ends_with(')');
        if (last) word.remove_suffix(1);
        if (in_uses && !word.empty() && word != "TESTS" && word != "OUTSIDE" && word != "SOURCES" && word != "HEADERS") {
          look_at_arrow(path, line, word);
        }
        if (word == "TESTS" || word == "OUTSIDE" || word == "SOURCES" || word == "HEADERS") in_uses = false;
        if (word == "USES") in_uses = true;
        if (last) in_uses = false;
      }
    }
  }

  const SourceTree& tree_;
  Rooms rooms_;
  Findings findings_;
};

void count_rapidcheck(const SourceTree& tree, Findings& findings) {
  constexpr int kMost = 10;
  int count = 0;
  for (const auto& [path, text] : tree) {
    if (!path.ends_with(".cpp") || blank_comments(text).find("#include <rapidcheck") == std::string::npos) continue;
    if (++count > kMost) {
      findings.push_back({path, 0, "RapidCheck is in more than ten files; it costs 5 s a file. Add to one of those that have it.",
                          Weight::refusal});
    }
  }
}

}  // namespace

Findings check_arrows(const SourceTree& tree) {
  Findings findings = ArrowCheck(tree).run();
  count_rapidcheck(tree, findings);
  return findings;
}

}  // namespace fettle::house
