#pragma once

#include "app/bench_list.h"
#include "catalogue/catalogue.h"
#include "text/sentence.h"
#include "wire/bench_page_json.h"

namespace fettle {

/// The first page in words.
[[nodiscard]] BenchPage bench_page(const BenchList& bench, Language language);

/// What a new engine can be made of.
[[nodiscard]] KindListPage kind_list_page(const Catalogue& known, Language language);

/// A sort of gauge, and what a person is asked of one.
[[nodiscard]] PresetChoice preset_choice(const GaugePreset& preset, Language language);

}  // namespace fettle
