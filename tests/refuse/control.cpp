#include "control.h"

int main() { return fettle::measured().ok() && fettle::kLarger ? 0 : 1; }
