#!/bin/sh
# Runs its arguments in a network that has nothing but its own two ends. Never skipped: without it nothing is shown.
set -eu
if [ "${FETTLE_OWN_NETWORK:-0}" != 1 ]; then
  if ! unshare -rn true; then
    echo "FAILED: this machine lets no network of its own be made (unshare -rn); the test shows nothing without one"
    exit 1
  fi
  FETTLE_OWN_NETWORK=1 exec unshare -rn "$0" "$@"
fi
ip link set lo up
ip link add shop type veth peer name phone
ip addr add 10.77.0.1/24 dev shop
ip link set shop up
ip link set phone up
exec "$@"
