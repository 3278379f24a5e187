# Debian packages, sourced by the other scripts. One reason each.
#   g++ cmake ninja-build pkg-config make   build
#   libtomlplusplus-dev   reads job.toml and the catalogue (compiled library)
#   libsodium-dev         event ids and digests
#   nlohmann-json3-dev    JSON output
#   libcli11-dev          command line
#   libeigen3-dev         least squares, covariance weights
#   libboost-dev          Student's t (Boost.Math headers)
BUILD_PACKAGES="g++ cmake ninja-build pkg-config libtomlplusplus-dev libsodium-dev nlohmann-json3-dev libcli11-dev libeigen3-dev libboost-dev"
#   libgtest-dev libgmock-dev   unit tests
#   librapidcheck-dev           property tests
#   python3 python3-jsonschema  the JSON output against its schemas
TEST_PACKAGES="libgtest-dev libgmock-dev librapidcheck-dev python3 python3-jsonschema"
#   clang-14 libclang-rt-14-dev  coverage-guided fuzzing
FUZZ_PACKAGES="clang-14 libclang-rt-14-dev"
#   libbenchmark-dev  benchmarks
BENCH_PACKAGES="libbenchmark-dev"

# install_missing <packages>: installs what dpkg does not have; asks nothing; touches nothing when nothing is missing.
install_missing() {
  missing=""
  for package in "$@"; do
    if ! dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q "install ok installed"; then
      missing="$missing $package"
    fi
  done
  [ -n "$missing" ] || return 0
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1; then
      echo "failed: these packages are missing:$missing. Run this script as root, or install sudo." >&2
      return 1
    fi
    as_root="sudo"
  fi
  echo "installing from the distribution:$missing"
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get update -qq
  # shellcheck disable=SC2086
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

jobs_count() { nproc 2>/dev/null || echo 2; }
