#!/usr/bin/env bash
# Installs what is missing, builds everything with warnings as errors, and runs all tests; the runner's summary is last.
set -eu
. "$(dirname "${BASH_SOURCE[0]}")/../demo/set_up.sh"
# shellcheck disable=SC2086
install_missing $packages python3 python3-jsonschema poppler-utils locales
build -DWAYBENCH_BUILD_TESTS=ON -DWAYBENCH_WARNINGS_AS_ERRORS=ON

# A German locale of our own, so that the tests can prove that nothing depends on the decimal sign.
if [ ! -d "$build_folder/locale/de_DE.UTF-8" ]; then
    mkdir -p "$build_folder/locale"
    localedef -i de_DE -f UTF-8 "$build_folder/locale/de_DE.UTF-8" || true
fi
mkdir -p "$build_folder/runtime" && chmod 700 "$build_folder/runtime"
export XDG_RUNTIME_DIR=$build_folder/runtime
cd "$build_folder"
ctest --output-on-failure --parallel 2
