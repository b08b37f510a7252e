#!/bin/sh
# SPDX-License-Identifier: MIT
# Installs what building (and, as "tools/setup.sh check", testing) needs on Debian 12. Does nothing
# when everything is there; asks for sudo only where it is not run by root.
set -eu

packages="g++ cmake ninja-build pkg-config ccache
  libfmt-dev libtomlplusplus-dev nlohmann-json3-dev libcli11-dev libboost-dev libeigen3-dev libembree-dev
  libocct-modeling-algorithms-dev libocct-data-exchange-dev
  libnlopt-dev libngspice0-dev libsndfile1-dev
  libcairo2-dev libpango1.0-dev libfontconfig-dev zlib1g-dev"
if [ "${1:-build}" != build ]; then
  packages="$packages libgtest-dev libgmock-dev libbenchmark-dev lib3mf-dev poppler-utils qpdf python3 python3-ezdxf"
fi
if [ "${1:-build}" = tidy ]; then
  packages="$packages clang clang-tidy"
fi

# Those of "$@" that aren't installed.
missing_of() {
  for package in "$@"; do
    dpkg-query -W -f '${Status}' "$package" 2>/dev/null | grep -q 'ok installed' || printf ' %s' "$package"
  done
}

# For the page's tests, which say so and are skipped without; node may stand there already from
# elsewhere, with its npm.
extra=""
if [ "${1:-build}" = check ]; then
  extra="chromium"
  command -v npm >/dev/null || extra="$extra nodejs npm"
fi
# shellcheck disable=SC2086  # one word a package, here and below
missing=$(missing_of $packages)
# shellcheck disable=SC2086
missing_extra=$(missing_of $extra)
[ -n "$missing$missing_extra" ] || exit 0

as_root=""
[ "$(id -u)" -eq 0 ] || as_root=sudo
install() {
  echo "installing: $*"
  $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@"
}
$as_root apt-get update -qq
# shellcheck disable=SC2086
[ -z "$missing" ] || install $missing
# shellcheck disable=SC2086
[ -z "$missing_extra" ] || install $missing_extra ||
  echo "without$missing_extra the tests of the workbench's page are skipped"
