#include <algorithm>

#include "catalogue/files.h"
#include "catalogue/table_reader.h"

namespace fettle {
namespace {

constexpr WordTable<Family, 7> kFamilies{{{"size", Family::size},
                                          {"out-of-round", Family::out_of_round},
                                          {"taper", Family::taper},
                                          {"shape", Family::shape},
                                          {"wear", Family::wear},
                                          {"clearance", Family::clearance},
                                          {"figure", Family::figure}}};
constexpr WordTable<Input, 4> kInputs{
    {{"sizes", Input::sizes}, {"standard", Input::standard}, {"nominal", Input::nominal}, {"depths", Input::depths}}};
constexpr WordTable<ResultDimension, 9> kDimensions{{{"length", ResultDimension::length},
                                                     {"ratio", ResultDimension::ratio},
                                                     {"number", ResultDimension::number},
                                                     {"force", ResultDimension::force},
                                                     {"force-per-length", ResultDimension::force_per_length},
                                                     {"volume", ResultDimension::volume},
                                                     {"angle", ResultDimension::angle},
                                                     {"mass", ResultDimension::mass},
                                                     {"pressure", ResultDimension::pressure}}};

template <class E, std::size_t N>
std::vector<E> read_words(TableReader& table, std::string_view key, const WordTable<E, N>& words) {
  std::vector<E> out;
  const auto texts = table.texts(key);
  if (texts.empty()) table.missing(key);
  for (const std::string& text : texts) {
    const auto value = value_of(words, text);
    if (value) {
      out.push_back(*value);
    } else {
      table.unknown_word(key, text, all_words(words));
    }
  }
  return out;
}

std::vector<Input> inputs_of(const ExpressionFacts& facts) {
  std::vector<Input> out{Input::sizes};
  if (facts.uses_standard) out.push_back(Input::standard);
  if (facts.uses_nominal) out.push_back(Input::nominal);
  if (facts.uses_depths) out.push_back(Input::depths);
  return out;
}

bool same_inputs(std::vector<Input> a, std::vector<Input> b) {
  std::sort(a.begin(), a.end());
  std::sort(b.begin(), b.end());
  return a == b;
}

/// What a gauge may show at a place.
bool is_reading(ResultDimension dimension) {
  return dimension != ResultDimension::ratio && dimension != ResultDimension::number && dimension != ResultDimension::force_per_length;
}

/// One expression, and that what the entry says about it is true.
void read_reckoning(const DocumentNode& node, Feature feature, Definition& out, Problems& problems) {
  const auto expression = take(read_expression(node), problems);
  if (!expression) return;
  const auto facts = take(check_expression(*expression, node.place), problems);
  if (!facts) return;
  // A size of a gap or figure may be a mass or a pressure: what is read at its places is known with the kind.
  const bool of_reading = feature == Feature::figure && facts->dimension == ResultDimension::length && is_reading(out.dimension);
  if (!facts->any_dimension && !of_reading && facts->dimension != out.dimension) {
    problems.push_back(Problem{"catalogue.other_dimension", node.place, {verbatim("id", out.id)}});
  }
  if (!same_inputs(inputs_of(*facts), out.inputs)) {
    problems.push_back(Problem{"catalogue.other_inputs", node.place, {verbatim("id", out.id)}});
  }
  out.reckonings.push_back({feature, *expression, facts->sense});
}

/// `expression` serves every feature the definition applies to; `inside` and `outside` serve their own.
void read_reckonings(TableReader& table, Definition& out, Problems& problems) {
  const DocumentNode* common = table.node("expression");
  for (const auto& [name, feature] : kFeatures) {
    const DocumentNode* own = table.node(name);
    const DocumentNode* node = own != nullptr ? own : common;
    if (!out.applies(feature)) {
      if (own != nullptr) problems.push_back(Problem{"catalogue.other_feature", own->place, {verbatim("id", out.id)}});
      continue;
    }
    if (node == nullptr) {
      table.missing("expression");
    } else {
      read_reckoning(*node, feature, out, problems);
    }
  }
}

/// unfit = { say = "...", lengths = [{ name = "edge", of = [...] }] }
std::optional<Unfit> read_unfit(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  Unfit out{table.text("say"), {}};
  for (const DocumentNode* each : table.tables("lengths")) {
    TableReader length(*each, problems);
    const std::string name = length.text("name");
    const DocumentNode* of = length.node("of");
    if (of == nullptr) {
      length.missing("of");
    } else if (const auto expression = take(read_expression(*of), problems)) {
      if (take(check_expression(*expression, of->place), problems)) out.lengths.push_back({name, *expression});
    }
    length.finish();
  }
  table.finish();
  return out;
}

Definition read_definition(const DocumentNode& node, Problems& problems) {
  TableReader table(node, problems);
  Definition out{table.text("id"),
                 table.word("family", kFamilies),
                 table.word("result", kDimensions),
                 read_words(table, "applies_to", kFeatures),
                 {},
                 {table.optional_whole("heights").value_or(1), table.optional_whole("directions").value_or(1)},
                 table.optional_truth("whole_directions").value_or(false),
                 table.texts("needs"),
                 {},
                 table.text("origin"),
                 table.texts("kinds")};
  if (out.judged()) {
    out.inputs = read_words(table, "inputs", kInputs);
    read_reckonings(table, out, problems);
  }
  if (const DocumentNode* unfit = table.node("unfit")) out.unfit = read_unfit(*unfit, problems);
  table.finish();
  return out;
}

}  // namespace

std::vector<Definition> read_definitions(std::string_view text, const std::string& file, Problems& problems) {
  std::vector<Definition> out;
  const auto root = take(read_document(text, file), problems);
  if (!root) return out;
  TableReader table(*root, problems);
  std::vector<std::pair<std::string, Place>> ids;
  for (const DocumentNode* node : table.tables("definition")) {
    out.push_back(read_definition(*node, problems));
    ids.emplace_back(out.back().id, node->place);
  }
  refuse_ids_twice(ids, problems);
  table.finish();
  return out;
}

}  // namespace fettle
