#include <algorithm>
#include <array>

#include "checks.h"
#include "source_text.h"

namespace fettle::house {
namespace {

bool nowhere(std::string_view) { return false; }
bool in_programs(std::string_view path) {
  return path.starts_with("src/cli/") || path.starts_with("src/server/") || path.ends_with("_test.cpp");
}
bool in_clock_home(std::string_view path) {
  return path.starts_with("src/cli/") || path.starts_with("src/app/system_clock.");
}
bool in_app(std::string_view path) { return path.starts_with("src/app/"); }

/// How a name must stand to count: as a call, after std::, or anywhere.
enum class Stands { anywhere, called, after_std, before_now };

struct Rule {
  std::string_view name;  ///< a leading * stands for any beginning
  Stands stands;
  bool (*allowed)(std::string_view path);
  std::string_view said;
};

constexpr std::string_view kChance = "chance that other machines draw differently. Use numeric/xoshiro.h and numeric/draws.h";
constexpr std::string_view kShuffle = "an order that other libraries shuffle differently. Draw it with numeric/xoshiro.h";
constexpr std::string_view kClock = "a clock read outside its home (src/cli/, src/app/system_clock.*). Take the time as an argument";
constexpr std::string_view kLocale = "a conversion that the locale changes. Use std::from_chars and std::to_chars";
constexpr std::string_view kThread = "a thread outside src/app. Hand the work to app, and tell of progress through base/progress.h";
constexpr std::string_view kPrint = "a library that prints or ends the program. Return a value or a Problem";
constexpr std::string_view kCoroutine = "a coroutine, which g++ 12 destroys twice. Use a callback";

constexpr std::array kRules = {
    Rule{"mt19937", Stands::anywhere, nowhere, kChance},
    Rule{"mt19937_64", Stands::anywhere, nowhere, kChance},
    Rule{"minstd_rand", Stands::anywhere, nowhere, kChance},
    Rule{"minstd_rand0", Stands::anywhere, nowhere, kChance},
    Rule{"ranlux24", Stands::anywhere, nowhere, kChance},
    Rule{"ranlux24_base", Stands::anywhere, nowhere, kChance},
    Rule{"ranlux48", Stands::anywhere, nowhere, kChance},
    Rule{"ranlux48_base", Stands::anywhere, nowhere, kChance},
    Rule{"knuth_b", Stands::anywhere, nowhere, kChance},
    Rule{"default_random_engine", Stands::anywhere, nowhere, kChance},
    Rule{"random_device", Stands::anywhere, nowhere, kChance},
    Rule{"seed_seq", Stands::anywhere, nowhere, kChance},
    Rule{"generate_canonical", Stands::anywhere, nowhere, kChance},
    Rule{"*_engine", Stands::after_std, nowhere, kChance},
    Rule{"*_distribution", Stands::after_std, nowhere, kChance},
    Rule{"rand", Stands::called, nowhere, kChance},
    Rule{"srand", Stands::called, nowhere, kChance},
    Rule{"rand_r", Stands::called, nowhere, kChance},
    Rule{"drand48", Stands::called, nowhere, kChance},
    Rule{"shuffle", Stands::after_std, nowhere, kShuffle},
    Rule{"sample", Stands::after_std, nowhere, kShuffle},
    Rule{"random_shuffle", Stands::anywhere, nowhere, kShuffle},
    Rule{"*clock", Stands::before_now, in_clock_home, kClock},
    Rule{"gettimeofday", Stands::called, in_clock_home, kClock},
    Rule{"clock_gettime", Stands::called, in_clock_home, kClock},
    Rule{"timespec_get", Stands::called, in_clock_home, kClock},
    Rule{"localtime", Stands::called, in_clock_home, kClock},
    Rule{"gmtime", Stands::called, in_clock_home, kClock},
    Rule{"clock", Stands::called, in_clock_home, kClock},
    Rule{"stof", Stands::called, nowhere, kLocale},
    Rule{"stod", Stands::called, nowhere, kLocale},
    Rule{"stold", Stands::called, nowhere, kLocale},
    Rule{"strtof", Stands::called, nowhere, kLocale},
    Rule{"strtod", Stands::called, nowhere, kLocale},
    Rule{"strtold", Stands::called, nowhere, kLocale},
    Rule{"atof", Stands::called, nowhere, kLocale},
    Rule{"setlocale", Stands::called, nowhere, kLocale},
    Rule{"localeconv", Stands::called, nowhere, kLocale},
    Rule{"uselocale", Stands::called, nowhere, kLocale},
    Rule{"imbue", Stands::called, nowhere, kLocale},
    Rule{"locale", Stands::after_std, nowhere, kLocale},
    Rule{"thread", Stands::after_std, in_app, kThread},
    Rule{"jthread", Stands::after_std, in_app, kThread},
    Rule{"async", Stands::after_std, in_app, kThread},
    Rule{"pthread_create", Stands::called, in_app, kThread},
    Rule{"cout", Stands::after_std, in_programs, kPrint},
    Rule{"cerr", Stands::after_std, in_programs, kPrint},
    Rule{"exit", Stands::after_std, in_programs, kPrint},
    Rule{"co_await", Stands::anywhere, nowhere, kCoroutine},
    Rule{"co_yield", Stands::anywhere, nowhere, kCoroutine},
    Rule{"co_return", Stands::anywhere, nowhere, kCoroutine},
};

bool is_std(std::string_view before) { return before == "std::" || before == "ranges::" || before == "chrono::"; }
/// A call of the library's function, not of a member or of a function of our own in some namespace.
bool is_free(std::string_view before) { return before.empty() || before == "::" || is_std(before); }

bool matches(const Rule& rule, const Name& name) {
  const bool same = rule.name.front() == '*' ? name.text.ends_with(rule.name.substr(1)) : name.text == rule.name;
  if (!same) return false;
  switch (rule.stands) {
    case Stands::anywhere: return true;
    case Stands::called: return is_free(name.before) && name.after.starts_with('(');
    case Stands::after_std: return is_std(name.before) && !name.after.starts_with("::hardware");
    case Stands::before_now: return name.after.starts_with("::now");
  }
  return false;
}

/// time() is a common word; it is a clock read when it is given what the C function takes.
bool reads_time(const Name& name) {
  constexpr std::array<std::string_view, 5> kGiven = {"(nullptr", "(NULL", "(0)", "(&", "()"};
  if (name.text != "time" || !is_free(name.before)) return false;
  const bool given = std::any_of(kGiven.begin(), kGiven.end(), [&](std::string_view each) { return name.after.starts_with(each); });
  return name.before == "std::" ? name.after.starts_with('(') : given && !name.after.starts_with("()");
}

bool prints_floating(const Name& name, std::string_view line) {
  constexpr std::array<std::string_view, 4> kPrinters = {"printf", "fprintf", "sprintf", "snprintf"};
  if (std::find(kPrinters.begin(), kPrinters.end(), name.text) == kPrinters.end()) return false;
  for (auto at = line.find('%'); at != std::string_view::npos; at = line.find('%', at + 1)) {
    const auto letter = line.find_first_not_of("-+ #0123456789.*lL", at + 1);
    if (letter != std::string_view::npos && std::string_view("aAeEfFgG").find(line[letter]) != std::string_view::npos) return true;
  }
  return false;
}

class ChanceCheck {
 public:
  explicit ChanceCheck(const SourceTree& tree) : tree_(tree) {}

  Findings run() && {
    for (const auto& [path, text] : tree_) {
      if (is_cpp(path)) look_at_source(path, text);
      if (path.ends_with("CMakeLists.txt") || path.ends_with(".cmake") || path == "CMakePresets.json") look_at_flags(path, text);
    }
    return std::move(findings_);
  }

 private:
  void refuse(std::string_view path, int line, std::string what) {
    findings_.push_back({std::string(path), line, std::move(what), Weight::refusal});
  }

  void look_at_source(std::string_view path, std::string_view text) {
    const std::string code = blank_comments_and_literals(text);
    if (path.ends_with(".h")) look_at_using(path, code);
    if (!path.starts_with("src/")) return;
    const std::vector<std::string_view> lines = lines_of(text);
    for (const Name& name : names_in(code)) {
      for (const Rule& rule : kRules) {
        if (matches(rule, name) && !rule.allowed(path)) refuse(path, name.line, name.text + ": " + std::string(rule.said) + ".");
      }
      if (reads_time(name) && !in_clock_home(path)) refuse(path, name.line, "time: " + std::string(kClock) + ".");
      if (prints_floating(name, lines[static_cast<std::size_t>(name.line) - 1])) {
        refuse(path, name.line, name.text + ": " + std::string(kLocale) + ".");
      }
    }
  }

  void look_at_using(std::string_view path, std::string_view code) {
    for (const Name& name : names_in(code)) {
      if (name.text == "using" && name.after.starts_with("namespace ")) {
        refuse(path, name.line, "using namespace in a header. Write the names out.");
      }
    }
  }

  void look_at_flags(std::string_view path, std::string_view text) {
    constexpr std::array<std::string_view, 9> kFlags = {
        "-ffast-math",       "-Ofast",           "-funsafe-math-optimizations", "-fassociative-math", "-freciprocal-math",
        "-ffinite-math-only", "-ffp-contract=fast", "-ffp-contract=on",          "-march=native"};
    int line = 0;
    for (const std::string_view each : lines_of(text)) {
      ++line;
      const std::string_view code = each.substr(0, each.find('#'));
      for (const std::string_view flag : kFlags) {
        if (code.find(flag) != std::string_view::npos) {
          refuse(path, line, std::string(flag) + " changes the digits from machine to machine. Take it out.");
        }
      }
    }
  }

  const SourceTree& tree_;
  Findings findings_;
};

}  // namespace

Findings check_chance(const SourceTree& tree) { return ChanceCheck(tree).run(); }

}  // namespace fettle::house
