#include "app/own_catalogue.h"

#include <filesystem>

#include "app/text_files.h"
#include "catalogue/catalogue.h"

namespace fettle {

Problems use_own_catalogue(const std::string& folder) {
  std::error_code error;
  if (!std::filesystem::is_directory(folder, error)) return {Problem{"app.no_folder", {}, {verbatim("folder", folder)}}};
  Problems problems;
  bool any = false;
  const auto text = [&](const char* name) {
    const std::filesystem::path path = std::filesystem::path(folder) / name;
    if (!std::filesystem::exists(path, error)) return std::string();
    any = true;
    return read_text_file(path.string(), problems).value_or("");
  };
  const std::string materials = text("materials.toml");
  const std::string kinds = text("kinds.toml");
  const std::string gauges = text("gauges.toml");
  const std::string definitions = text("definitions.toml");
  if (!any) return {Problem{"app.no_catalogue", {}, {verbatim("folder", folder)}}};
  if (!problems.empty()) return problems;
  Result<Catalogue> built_in = read_catalogue(built_in_texts());
  FETTLE_ASSERT(built_in.ok(), "the built-in catalogue");
  Result<Catalogue> own = extended(built_in.value(), {materials, kinds, gauges, definitions});
  if (!own.ok()) return own.problems();
  use_catalogue(std::move(own).value());
  return {};
}

}  // namespace fettle
