#include "server/page_words.h"

#include <algorithm>
#include <array>
#include <utility>

#include "server/answers.h"

namespace fettle {
namespace {

constexpr std::array<std::pair<std::string_view, std::string_view>, 3> kUmlauts = {{{"ä", "Ä"}, {"ö", "Ö"}, {"ü", "Ü"}}};

char large(char letter) { return letter >= 'a' && letter <= 'z' ? static_cast<char>(letter - 'a' + 'A') : letter; }

}  // namespace

std::string capital(std::string text) {
  for (const auto& [small, big] : kUmlauts) {
    if (text.starts_with(small)) return text.replace(0, small.size(), big);
  }
  if (!text.empty()) text.front() = large(text.front());
  return text;
}

std::string shouted(const std::string& text) {
  constexpr std::string_view kSharp = "ß";
  std::string out;
  for (std::size_t i = 0; i < text.size();) {
    const std::string_view rest = std::string_view(text).substr(i);
    const auto umlaut = std::find_if(kUmlauts.begin(), kUmlauts.end(), [&](const auto& each) { return rest.starts_with(each.first); });
    if (umlaut != kUmlauts.end()) {
      out += umlaut->second;
      i += umlaut->first.size();
    } else if (rest.starts_with(kSharp)) {
      out += "SS";
      i += kSharp.size();
    } else {
      out += large(text[i++]);
    }
  }
  return out;
}

std::string PageWords::title(const Message& message) const { return capital(say(message)); }

std::vector<std::string> PageWords::lines(const std::vector<Message>& messages) const {
  std::vector<std::string> out;
  for (const Message& each : messages) out.push_back(say(each));
  return out;
}

std::string PageWords::joined_line(const std::vector<Message>& messages, const char* between) const {
  std::string out;
  for (const Message& each : messages) out += (out.empty() ? "" : between) + say(each);
  return out;
}

std::optional<std::string> PageWords::line_or_none(const std::vector<Message>& messages) const {
  return messages.empty() ? std::nullopt : std::optional(joined_line(messages));
}

HttpResponse page_refusal(const Problems& problems, Language language) {
  constexpr std::array kNotThere = {"record.no_such_job", "app.round_unknown_part", "app.round_unknown_setting", "app.set_unknown_gauge", "app.set_for_unknown"};
  const bool not_there = std::any_of(problems.begin(), problems.end(), [&](const Problem& each) {
    return std::find(kNotThere.begin(), kNotThere.end(), each.code) != kNotThere.end();
  });
  return refused(not_there ? 404 : 422, problems, language);
}

std::optional<std::string> asked_for(const HttpRequest& request, const std::string& name) {
  const auto found = request.query.find(name);
  if (found == request.query.end() || found->second.empty()) return std::nullopt;
  return found->second;
}

Asking asking_of(const HttpRequest& request, Served& served) { return {asked_for(request, "who").value_or(""), served.clock.now()}; }

std::int64_t position_of(const RecordedJob& recorded) { return recorded.accepted.empty() ? 0 : recorded.accepted.back().position; }

std::optional<std::string> decimal_mark_of(const Job& job) {
  if (!job.opened || !job.opened->value.decimal_mark) return std::nullopt;
  return *job.opened->value.decimal_mark == DecimalMark::point ? "point" : "comma";
}

UnitId shown_unit(const Job& job) { return job.opened ? job.opened->value.shown_unit : UnitId::millimetre; }

}  // namespace fettle
