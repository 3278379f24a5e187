#include "checks.h"

int main(int argc, char** argv) {
  return fettle::house::run_check(argc, argv, "check_chance", fettle::house::check_chance);
}
