// Writes a store with fixed contents, to be frozen as tests/store/old/version-<n>.store. See tests/store/old/README.md.
#include <iostream>

#include "store/old_contents.h"
#include "store/sqlite_maker.h"
#include "store/test_events.h"

int main(int argc, char** argv) {
  if (argc != 3) {
    std::cerr << "write_old_store <file> <schema version>\n";
    return 2;
  }
  fettle::SetClock time;
  const auto store = fettle::open_sqlite(argv[1], time);
  fettle::write_old_contents(*store, time, std::stoi(argv[2]));
  return 0;
}
