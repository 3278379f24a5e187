#include "app/engine_plan_page.h"

#include <algorithm>

#include "app/part_words.h"
#include "catalogue/catalogue.h"

namespace fettle {
namespace {

/// How many places one part of the kind has in this engine.
std::int64_t places_of(const EnginePlan& plan, const std::string& kind) {
  const auto own = std::find_if(plan.layouts.begin(), plan.layouts.end(), [&](const PlannedLayout& each) { return each.kind == kind; });
  const Layout& layout = own == plan.layouts.end() ? catalogue().kind(kind)->layout : own->layout;
  std::int64_t out = 0;
  for (std::size_t cell = 0; cell < layout.cells(); ++cell) out += layout.there(cell) ? 1 : 0;
  return out;
}

bool only_idle(const Problems& problems) {
  return std::all_of(problems.begin(), problems.end(), [](const Problem& each) { return each.code == "engine.question_idle"; });
}

bool is_idle(const Problems& problems, const std::string& question) {
  return std::any_of(problems.begin(), problems.end(), [&](const Problem& each) { return std::any_of(each.arguments.begin(), each.arguments.end(), [&](const Argument& argument) { return argument == verbatim("id", question); }); });
}

void count_part(EnginePlanPage& page, const EnginePlan& plan, const PlannedPart& part, Language language) {
  auto group = std::find_if(page.groups.begin(), page.groups.end(), [&](const auto& each) { return each.kind == part.kind; });
  if (group == page.groups.end()) group = page.groups.insert(group, {part.kind, sentence(group_message(part.kind), language), 0, 0});
  ++group->parts;
  group->places += places_of(plan, part.kind);
}

}  // namespace

Result<EnginePlanPage> engine_plan_page(EngineAnswers answers, Language language) {
  auto plan = plan_engine(answers);
  if (!plan.ok() && only_idle(plan.problems())) {
    std::erase_if(answers, [&](const auto& each) { return is_idle(plan.problems(), each.first); });
    plan = plan_engine(answers);
  }
  if (!plan.ok()) return plan.problems();
  EnginePlanPage out{};
  for (const EngineQuestion& each : engine_data().questions) {
    const auto answer = plan.value().answers.find(each.id);
    if (answer == plan.value().answers.end()) continue;
    EnginePlanPage::Question question{each.id, word_for("engine_question." + each.id, language), {}, each.least, each.most, answer->second, 0};
    if (each.choices.empty()) question.count = std::stoll(answer->second);
    for (const std::string& choice : each.choices) question.choices.push_back({choice, word_for("engine_choice." + choice, language)});
    out.questions.push_back(std::move(question));
  }
  std::int64_t places = 0;
  for (const PlannedPart& each : plan.value().parts) count_part(out, plan.value(), each, language);
  for (const auto& each : out.groups) places += each.places;
  out.head = sentence({"engine_plan.head",
                       {count("parts", static_cast<std::int64_t>(plan.value().parts.size())), count("groups", static_cast<std::int64_t>(out.groups.size())), count("places", places)}},
                      language);
  return out;
}

EngineAnswers answers_in(const std::string& text) {
  EngineAnswers out;
  std::size_t at = 0;
  while (at < text.size()) {
    const std::size_t end = std::min(text.find(',', at), text.size());
    const std::string piece = text.substr(at, end - at);
    const std::size_t colon = std::min(piece.find(':'), piece.size());
    if (!piece.empty()) out[piece.substr(0, colon)] = colon == piece.size() ? "" : piece.substr(colon + 1);
    at = end + 1;
  }
  return out;
}

}  // namespace fettle
