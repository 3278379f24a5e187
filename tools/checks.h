#pragma once

#include <string>

#include "source_tree.h"

namespace fettle::house {

/// The one-way flow: tools/arrows.txt itself (unknown rooms, rooms twice, loops), every include and every USES under src against
/// it, and the walls round the outside libraries.
[[nodiscard]] Findings check_arrows(const SourceTree& tree);

/// Hidden chance, clock, locale and thread, flags that change sums, printing outside the programs, `using namespace` in headers.
[[nodiscard]] Findings check_chance(const SourceTree& tree);

/// Sentences: English and German hold the same keys with the same arguments; every problem has both its keys, is raised in a
/// source, is named by a test and stands in docs/ERRORS.md.
///
/// A code counts as raised where it stands as a string literal of its own in a source under src that is no test. A code that
/// is put together from pieces is announced by a comment in that file: `// raises: room.code room.other_code`.
[[nodiscard]] Findings check_texts(const SourceTree& tree);

/// What docs/ERRORS.md must hold: one row a problem code, from the English texts.
[[nodiscard]] std::string errors_document(const SourceTree& tree);

/// Files above 600 lines (a warning above 400), tables apart; a README of at most ten lines in every room.
[[nodiscard]] Findings check_size(const SourceTree& tree);

}  // namespace fettle::house
