#include "wire/json_line.h"

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include "base/document.h"

namespace fettle::json {
namespace {

/// A job.toml of 4 MiB in one remark, every byte of it escaped as \u00XX, still fits.
constexpr std::size_t kLargestMebibytes = 32;
constexpr std::size_t kDeepest = 16;

/// Looks through a value without building it.
class LineCheck : public nlohmann::json_sax<Read> {
 public:
  LineCheck(std::string_view line, const Place& place, Problems& problems)
      : line_(line), place_(place), problems_(problems) {}

  bool null() override { return true; }
  bool boolean(bool) override { return true; }
  bool number_integer(number_integer_t) override { return true; }
  bool number_unsigned(number_unsigned_t) override { return true; }
  bool number_float(number_float_t, const string_t&) override { return true; }
  bool string(string_t&) override { return true; }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override {
    keys_.emplace_back();
    return deeper();
  }
  bool end_object() override {
    keys_.pop_back();
    --depth_;
    return true;
  }
  bool start_array(std::size_t) override { return deeper(); }
  bool end_array() override {
    --depth_;
    return true;
  }
  bool key(string_t& name) override {
    if (!keys_.back().insert(name).second)
      problems_.push_back(Problem{"wire.key_twice", place_, {verbatim("key", name)}});
    return problems_.size() < kMostProblems;
  }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    Place place = place_;
    if (!place.column) place.column = column(position);
    problems_.push_back(Problem{"wire.not_json", place, {}});
    return false;
  }

 private:
  bool deeper() {
    if (++depth_ <= kDeepest) return true;
    problems_.push_back(Problem{"wire.too_deep", place_, {count("most", static_cast<std::int64_t>(kDeepest))}});
    return false;
  }

  /// Characters up to the byte where reading stopped; bytes that carry a character on are not counted.
  [[nodiscard]] int column(std::size_t position) const {
    const std::string_view read = line_.substr(0, position);
    const auto characters = std::count_if(read.begin(), read.end(),
                                          [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; });
    return std::max(1, static_cast<int>(characters));
  }

  std::string_view line_;
  const Place& place_;
  Problems& problems_;
  std::size_t depth_ = 0;
  std::vector<std::set<std::string>> keys_;  ///< of every object that is open
};

}  // namespace

std::optional<Read> read_line(std::string_view line, const Place& place, Problems& problems) {
  if (line.size() > kLargestMebibytes << 20U) {
    problems.push_back(Problem{"wire.too_large", place, {count("most", static_cast<std::int64_t>(kLargestMebibytes))}});
    return std::nullopt;
  }
  if (!is_utf8(line)) {
    problems.push_back(Problem{"wire.not_utf8", place, {}});
    return std::nullopt;
  }
  const std::size_t before = problems.size();
  LineCheck check(line, place, problems);
  const bool whole = Read::sax_parse(line, &check);
  if (!whole || problems.size() > before) return std::nullopt;
  return Read::parse(line);
}

}  // namespace fettle::json
