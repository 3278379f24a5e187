#include "catalogue/engine_plan.h"

#include <algorithm>
#include <charconv>

#include "base/joined.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

std::optional<int> whole_of(std::string_view text) {
  int value = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value);
  if (text.empty() || read.ec != std::errc() || read.ptr != end) return std::nullopt;
  return value;
}

std::string numbered(int number) { return std::to_string(number); }

/// "1in 2" -> "1in-2", "A3" -> "a3".
std::string id_of_position(std::string_view position) {
  std::string out;
  for (const char c : position) out += c == ' ' ? '-' : c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
  return out;
}

/// The station roles of a row of n places, like those of the kind: first, inner or middle, last.
std::vector<Station> row_of(const Layout& kind, int n) {
  const std::string& one = kind.stations.front().id;
  const std::string stem = one.substr(0, one.rfind('-') + 1);
  std::vector<Station> out;
  for (int i = 1; i <= n; ++i) {
    Station station = kind.stations.front();
    station.id = stem + numbered(i);
    station.role = i == 1 ? StationRole::first : i == n ? StationRole::last : StationRole::inner;
    out.push_back(std::move(station));
  }
  return out;
}

class Planner {
 public:
  explicit Planner(const EngineAnswers& given) : given_(given) {}

  Result<EnginePlan> run() {
    for (const EngineQuestion& each : engine_data().questions) answer(each);
    unknown_ones();
    if (!problems_.empty()) return std::move(problems_);
    count_scopes();
    if (!problems_.empty()) return std::move(problems_);
    for (const EnginePart& each : engine_data().parts) {
      if (holds(each.when)) plan(each);
    }
    out_.cylinders = number("cylinders");
    return std::move(out_);
  }

 private:
  void add(std::string code, std::vector<Argument> arguments) { problems_.push_back({std::move(code), {}, std::move(arguments)}); }

  [[nodiscard]] bool holds(const std::vector<EngineCondition>& all) const {
    return std::all_of(all.begin(), all.end(), [&](const EngineCondition& each) {
      const auto answer = out_.answers.find(each.question);
      return answer != out_.answers.end() && std::find(each.any_of.begin(), each.any_of.end(), answer->second) != each.any_of.end();
    });
  }

  void answer(const EngineQuestion& question) {
    const auto given = given_.find(question.id);
    const Argument about = word("question", "engine_question." + question.id);
    if (!holds(question.when)) {
      if (given != given_.end()) add("engine.question_idle", {about, verbatim("id", question.id), verbatim("answer", given->second)});
      return;
    }
    std::string said = given != given_.end() ? given->second : usual(question);
    if (!question.choices.empty()) {
      if (std::find(question.choices.begin(), question.choices.end(), said) == question.choices.end()) {
        add("engine.choice_unknown", {about, verbatim("id", question.id), verbatim("answer", said), verbatim("known", joined(question.choices))});
        said = question.choices.front();
      }
    } else {
      const auto count = whole_of(said);
      if (!count || *count < question.least || *count > question.most) {
        add("engine.count_bad", {about, verbatim("id", question.id), verbatim("answer", said), fettle::count("least", question.least), fettle::count("most", question.most)});
        said = numbered(question.least);
      }
    }
    out_.answers[question.id] = std::move(said);
  }

  [[nodiscard]] std::string usual(const EngineQuestion& question) const {
    if (!question.choices.empty()) return question.choices.front();
    const auto fixed = whole_of(question.usual);
    const int base = fixed ? *fixed : question.usual == "cylinder-of-bank" ? per_bank() : number(question.usual);
    return numbered(std::clamp(base + question.usual_more, question.least, question.most));
  }

  [[nodiscard]] int number(const std::string& question) const {
    const auto found = out_.answers.find(question);
    return found == out_.answers.end() ? 0 : whole_of(found->second).value_or(0);
  }
  [[nodiscard]] int per_bank() const { return number("cylinders") / std::max(1, number("banks")); }

  void unknown_ones() {
    const auto& questions = engine_data().questions;
    std::vector<std::string> ids;
    for (const EngineQuestion& each : questions) ids.push_back(each.id);
    for (const auto& [id, said] : given_) {
      if (std::find(ids.begin(), ids.end(), id) == ids.end()) add("engine.question_unknown", {verbatim("id", id), verbatim("known", joined(ids))});
    }
  }

  void count_scopes() {
    const int banks = std::max(1, number("banks"));
    if (number("cylinders") % banks != 0) {
      add("engine.banks_uneven", {count("cylinders", number("cylinders")), count("banks", banks)});
      return;
    }
    scopes_["engine"] = {""};
    for (int bank = 0; bank < banks; ++bank) {
      const std::string letter = banks == 1 ? "" : std::string(1, static_cast<char>('A' + bank));
      if (banks > 1) out_.banks.push_back(letter);
      scopes_["bank"].push_back(letter);
      for (int i = 1; i <= per_bank(); ++i) cylinder(letter + numbered(i), i < per_bank() ? letter + numbered(i) + "/" + letter + numbered(i + 1) : "");
    }
    in_a_row("head", number("heads"));
    in_a_row("main", number("mains"));
    in_a_row("pin", number("pins"));
    in_a_row("camshaft", number("camshafts"));
    if (number("camshafts") > 0) in_a_row("cam-bearing-of-one", number("cam-bearings"));
    const std::vector<std::string> camshafts = scopes_["camshaft"];
    for (const std::string& camshaft : camshafts) {
      for (int i = 1; i <= number("cam-bearings"); ++i) scopes_["cam-bearing"].push_back((camshafts.size() > 1 ? camshaft + "/" : "") + numbered(i));
    }
  }

  void in_a_row(const char* scope, int n) {
    for (int i = 1; i <= n; ++i) scopes_[scope].push_back(numbered(i));
  }

  void cylinder(const std::string& position, const std::string& gap) {
    scopes_["cylinder"].push_back(position);
    if (!gap.empty()) scopes_["gap"].push_back(gap);
    valves(position + "in", "inlet", number("inlets"));
    valves(position + "ex", "exhaust", number("exhausts"));
  }
  void valves(const std::string& position, const char* scope, int n) {
    for (int i = 1; i <= n; ++i) {
      scopes_["valve"].push_back(n == 1 ? position : position + " " + numbered(i));
      scopes_[scope].push_back(scopes_["valve"].back());
    }
  }

  static std::string id_of(const std::string& name, const std::string& position) {
    std::string out = id_of_position(position);
    std::replace(out.begin(), out.end(), '/', '-');
    return out.empty() ? name : name + "-" + out;
  }

  void plan(const EnginePart& part) {
    const std::vector<std::string> positions = scopes_[part.per];
    for (std::size_t i = 0; i < positions.size(); ++i) {
      PlannedPart planned{id_of(part.name, positions[i]), part.kind, positions[i], {}};
      if (!part.mark.empty()) planned.position += planned.position.empty() ? part.mark : " " + part.mark;
      for (const EnginePartMember& member : part.members) planned.members.push_back({member.role, member_part(member, part.per, i)});
      out_.parts.push_back(std::move(planned));
    }
    if (!positions.empty()) lay_out(part);
  }

  /// A gap lies between a cylinder and the next: its members are theirs.
  [[nodiscard]] std::string member_part(const EnginePartMember& member, const std::string& per, std::size_t i) const {
    const std::string& position = scopes_.at(per)[i];
    if (per != "gap") return id_of(member.name, position);
    const std::size_t slash = position.find('/');
    return id_of(member.name, member.next ? position.substr(slash + 1) : position.substr(0, slash));
  }

  void lay_out(const EnginePart& part) {
    const Kind* kind = catalogue().kind(part.kind);
    if (kind == nullptr) return;
    Layout layout = kind->layout;
    if (!part.stations_per.empty()) layout.stations = row_of(kind->layout, static_cast<int>(scopes_[part.stations_per].size()));
    if (!part.only.empty()) {
      std::erase_if(layout.stations, [&](const Station& each) { return std::find(part.only.begin(), part.only.end(), each.id) == part.only.end(); });
    }
    if (layout != kind->layout) out_.layouts.push_back({part.kind, std::move(layout)});
  }

  const EngineAnswers& given_;
  EnginePlan out_;
  std::map<std::string, std::vector<std::string>> scopes_;  ///< by scope the positions, in order
  Problems problems_;
};

}  // namespace

Result<EnginePlan> plan_engine(const EngineAnswers& answers) { return Planner(answers).run(); }

}  // namespace fettle
