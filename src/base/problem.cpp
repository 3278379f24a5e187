#include "base/problem.h"

#include <algorithm>

namespace fettle {

void sort_by_place(Problems& problems) {
  std::stable_sort(problems.begin(), problems.end(), [](const Problem& a, const Problem& b) {
    if (a.place != b.place) return a.place < b.place;
    return a.code < b.code;
  });
}

}  // namespace fettle
