#include <cstddef>
#include <cstdint>
#include <string>

#include "entry/table.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fettle::Problems problems;
  (void)fettle::read_table(std::string(data, data + size), "f", problems);
  return 0;
}
