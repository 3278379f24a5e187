#include "checks.h"

int main(int argc, char** argv) {
  return fettle::house::run_check(argc, argv, "check_size", fettle::house::check_size);
}
