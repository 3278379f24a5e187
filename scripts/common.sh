# Read by the other scripts, not run. Needs: set -eu, and the variable `title` for what is said at the end.

# Everything happens from the root of the repository, whatever folder the script was called from.
cd "$(dirname "$0")/.."
began=$(date +%s)
doing="starting"
hint="Read the lines above."
summary=""
finished=no

# Says the one clear line at the end, however the script ends.
say_end() {
  code=$?
  seconds=$(($(date +%s) - began))
  [ -z "$summary" ] || printf '\n%s' "$summary"
  if [ "$finished" = yes ]; then
    echo "$title: done in $seconds s"
  else
    [ "$code" -ne 0 ] || code=1
    echo "$title: failed: $doing (after $seconds s). $hint"
  fi
  exit "$code"
}
trap say_end EXIT

# step <what> <what to do if it fails> <command ...>: runs it and notes its seconds.
step() {
  doing=$1
  hint=$2
  shift 2
  echo "== $doing"
  step_began=$(date +%s)
  "$@"
  summary="$summary$(printf '%6s s  %s' "$(($(date +%s) - step_began))" "$doing")
"
}

# As many compilers at once as there are processors, but none without 1 GB of its own.
jobs_count() {
  cores=$(nproc)
  free_mb=$(awk '/^MemAvailable:/ { print int($2 / 1024) }' /proc/meminfo 2>/dev/null || echo 0)
  most=$((${free_mb:-0} / 1000))
  if [ "$most" -ge 1 ] && [ "$most" -lt "$cores" ]; then cores=$most; fi
  echo "$cores"
}

# missing_packages <group ...>: those of scripts/packages that are not installed, on one line.
missing_packages() {
  for group in "$@"; do
    sed -n "s/^$group  *\([^ ]*\).*/\1/p" scripts/packages
  done | while read -r package; do
    status=$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null || true)
    [ "$status" = installed ] || printf '%s ' "$package"
  done
}

# install_packages <group ...>: asks nothing, and calls apt only if something is missing.
install_packages() {
  if ! command -v dpkg-query >/dev/null 2>&1; then
    echo "This is no Debian system: the packages of scripts/packages must be there under this system's names."
    return 0
  fi
  missing=$(missing_packages "$@")
  if [ -z "$missing" ]; then
    echo "all packages are there"
    return 0
  fi
  as_root=""
  if [ "$(id -u)" -ne 0 ]; then
    if ! command -v sudo >/dev/null 2>&1 || ! sudo -n true 2>/dev/null; then
      hint="Install these as root, then run this again: apt-get install --no-install-recommends $missing"
      return 1
    fi
    as_root="sudo -n"
  fi
  hint="Look whether this machine can reach its package mirror, then run this again."
  echo "installing: $missing"
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -o Acquire::Retries=3 update
  # shellcheck disable=SC2086  # one word a package
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq -y -o Acquire::Retries=3 -o Dpkg::Use-Pty=0 \
    install --no-install-recommends $missing
}
