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

# Which node builds the page: sets node_option to what cmake is told. The distribution's own is too old; where no newer one is there, it
# comes as a package of npm, without install scripts, into build/node. Never an unchecked node: the oldest that will do is 20.19.
node_option=""
node_wanted=22.22.3

node_will_do() {
  command -v "$1" >/dev/null 2>&1 && "$1" -e '
    const [major, minor] = process.versions.node.split(".").map((each) => parseInt(each, 10));
    process.exit(major > 20 || (major === 20 && minor >= 19) ? 0 : 1)' 2>/dev/null
}

find_node() {
  if node_will_do node && command -v npm >/dev/null 2>&1; then
    echo "node $(node --version) is there"
    return 0
  fi
  own=build/node/node_modules/node-$(node_platform)/bin/node
  if ! node_will_do "$own"; then
    # A machine that has npm keeps the one it has.
    command -v npm >/dev/null 2>&1 || install_packages page
    mkdir -p build/node
    npm install --prefix build/node --ignore-scripts --no-audit --no-fund --no-save --loglevel=error "node-$(node_platform)@$node_wanted"
  fi
  node_will_do "$own" || { echo "$own does not run"; return 1; }
  echo "node $("$own" --version) from build/node"
  node_option=-DFETTLE_NODE=$PWD/$own
}

node_platform() {
  case $(uname -m) in
    x86_64) echo linux-x64 ;;
    aarch64) echo linux-arm64 ;;
    *) echo "linux-$(uname -m)" ;;
  esac
}
