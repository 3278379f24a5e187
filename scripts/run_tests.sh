# Read after common.sh: runs a test preset, and says how many tests ran and which did not.

# run_tests <preset> [ctest arguments]: fails if one fails, was skipped, is disabled or did not run.
run_tests() {
  preset=$1
  shift
  log=build/$preset/Testing/Temporary/LastTest.log
  shown=build/$preset/Testing/shown.log
  rm -f "$log" "$shown"
  code=0
  ctest --preset "$preset" --no-tests=error -j "$(jobs_count)" --output-log "$shown" "$@" || code=$?
  count_tests "$preset" "$code"
}

# The programs of ctest hold many tests each; their own counts stand in the log.
count_tests() {
  [ -f "$log" ] || { echo "no tests ran in $1"; return 1; }
  programs=$(grep -E '^ *[0-9]+/[0-9]+ Test +#' "$shown" | grep -cvE '\*\*\*(Not Run|Skipped)' || true)
  cases=$(sed -n 's/^\[==========\] \([0-9]*\) tests\{0,1\} from .* ran\..*/\1/p' "$log" | awk '{ n += $1 } END { print n + 0 }')
  not_run=$(grep -hE '^\[  SKIPPED \] [A-Za-z]|DISABLED TEST|\*\*\*(Not Run|Skipped)|Not Run \(Disabled\)' "$log" "$shown" | sort -u || true)
  echo "tests of $1: $programs ctest entries ran, with $cases GoogleTest cases in them"
  if [ -n "$not_run" ]; then
    echo "DID NOT RUN:"
    echo "$not_run"
    return 1
  fi
  return "$2"
}
