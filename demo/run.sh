#!/usr/bin/env bash
# Installs what is missing, builds, and opens the demo rig; with no display it writes the demo's one page as PDF.
set -eu
. "$(dirname "${BASH_SOURCE[0]}")/set_up.sh"
# shellcheck disable=SC2086
install_missing $packages
build -DWAYBENCH_BUILD_TESTS=OFF

rig=$source_folder/demo/hinge_endurance_rig.waybench
if [ -n "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ]; then
    exec "$build_folder/waybench" "$rig"
fi
page=${1:-$source_folder/build/drive_cross_plate.pdf}
"$build_folder/waybench" report "$rig" --part "drive cross-plate" --pdf "$page"
echo "No display: the one-page comparison of the drive cross-plate is in $page"
