#include "wire/json_line.h"

#include <algorithm>
#include <string>
#include <vector>

#include "base/document.h"

namespace fettle::json {
namespace {

/// A job.toml of 4 MiB in one remark, every byte of it escaped as \u00XX, still fits.
constexpr std::size_t kLargestMebibytes = 32;
constexpr std::size_t kDeepest = 16;

/// Builds a value while it looks through it.
class LineReader : public nlohmann::json_sax<Read> {
 public:
  LineReader(std::string_view line, const Place& place, Problems& problems)
      : line_(line), place_(place), problems_(problems) {}

  [[nodiscard]] Read take() && { return std::move(root_); }

  bool null() override { return put(nullptr); }
  bool boolean(bool value) override { return put(value); }
  bool number_integer(number_integer_t value) override { return put(value); }
  bool number_unsigned(number_unsigned_t value) override { return put(value); }
  bool number_float(number_float_t value, const string_t&) override { return put(value); }
  bool string(string_t& value) override { return put(std::move(value)); }
  bool binary(binary_t&) override { return true; }
  bool start_object(std::size_t) override { return open(Read::object()); }
  bool end_object() override { return close(); }
  bool start_array(std::size_t) override { return open(Read::array()); }
  bool end_array() override { return close(); }
  bool key(string_t& name) override {
    auto& object = open_.back()->get_ref<Read::object_t&>();
    const auto [member, fresh] = object.emplace(name, Read());
    if (!fresh) problems_.push_back(Problem{"wire.key_twice", place_, {verbatim("key", name)}});
    member_ = &member->second;
    return problems_.size() < kMostProblems;
  }
  bool parse_error(std::size_t position, const std::string&, const nlohmann::detail::exception&) override {
    Place place = place_;
    if (!place.column) place.column = column(position);
    problems_.push_back(Problem{"wire.not_json", place, {}});
    return false;
  }

 private:
  /// Where the next value goes: to the member just named, to the end of an open list, or it is all there is.
  Read* put_down(Read&& value) {
    if (open_.empty()) return &(root_ = std::move(value));
    if (open_.back()->is_array()) return &open_.back()->get_ref<Read::array_t&>().emplace_back(std::move(value));
    return &(*member_ = std::move(value));
  }
  bool put(Read&& value) {
    put_down(std::move(value));
    return true;
  }
  bool open(Read&& empty) {
    open_.push_back(put_down(std::move(empty)));
    if (open_.size() <= kDeepest) return true;
    problems_.push_back(Problem{"wire.too_deep", place_, {count("most", static_cast<std::int64_t>(kDeepest))}});
    return false;
  }

  bool close() {
    open_.pop_back();
    return true;
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
  Read root_;
  std::vector<Read*> open_;  ///< objects and lists, from the outermost inwards; a list that is open grows nowhere but at its innermost
  Read* member_ = nullptr;
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
  LineReader reader(line, place, problems);
  const bool whole = Read::sax_parse(line, &reader);
  if (!whole || problems.size() > before) return std::nullopt;
  return std::move(reader).take();
}

}  // namespace fettle::json
