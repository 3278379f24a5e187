#pragma once

#include <optional>
#include <string>
#include <vector>

namespace fettle {

// The first page in words, see docs/HTTP.md.

struct GoOnCard {
  std::string job;
  std::string part;
  std::string name;
  std::string where;
  std::optional<std::string> next;
  std::string left;
  std::optional<std::string> warning;
};

struct EngineCard {
  std::string job;
  std::string name;
  std::string line;
  std::string state;
};

struct BenchPage {
  std::optional<GoOnCard> go_on;
  std::vector<EngineCard> engines;
};

/// bench.schema.json
[[nodiscard]] std::string bench_page_json(const BenchPage& page);

struct KindChoice {
  struct DefinitionChoice {
    std::string id;
    std::string name;
    std::vector<std::string> sides;
  };
  std::string id;
  std::string name;
  std::string feature;
  bool usual;
  bool on_page;  ///< some gauge that the page can read measures it
  std::vector<DefinitionChoice> definitions;
  std::optional<std::string> section;  ///< of KindListPage::sections
  bool assembly;                       ///< its figure comes from parts: nobody counts it
};

struct PresetChoice {
  std::string id;
  std::string name;
  std::string sort;
  std::vector<std::string> asks;
};

struct SectionName {
  std::string id;
  std::string name;
};

struct KindListPage {
  std::vector<KindChoice> kinds;
  std::vector<PresetChoice> presets;
  std::vector<SectionName> sections;  ///< in the order of taking an engine apart
};

/// kind-list.schema.json
[[nodiscard]] std::string kind_list_json(const KindListPage& page);

}  // namespace fettle
