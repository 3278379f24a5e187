#include "app/example_engine.h"

#include "embedded/example_files.h"

namespace fettle {

FolderTexts example_folder() { return {"curlew-3", std::string(example_files("job.toml")), std::string(example_files("readings.csv"))}; }

Result<std::string> take_example_in(Store& store, const Doing& doing) {
  const auto taken = while_overtaken([&] { return take_in(store, example_folder(), std::nullopt, doing); });
  if (!taken.ok()) return taken.problems();
  return taken.value().job;
}

}  // namespace fettle
