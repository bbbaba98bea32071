# Sourced by demo/run.sh and tests/run.sh: installs what a bare Debian 12 lacks and builds into build/.
# Sets: source_folder, build_folder.
set -eu
source_folder=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
build_folder=${WAYBENCH_BUILD:-$source_folder/build}

packages="g++ cmake ninja-build pkg-config ccache qt6-base-dev qt6-svg-dev libqcustomplot-dev libeigen3-dev
nlohmann-json3-dev catch2 libpolyclipping-dev libocct-data-exchange-dev libtbb-dev fonts-dejavu-core"

install_missing() {
    local missing="" package
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'install ok installed' || missing="$missing $package"
    done
    [ -n "$missing" ] || return 0
    local as_root=""
    if [ "$(id -u)" != 0 ]; then
        command -v sudo >/dev/null || { echo "Please install as root:$missing" >&2; exit 1; }
        as_root=sudo
    fi
    echo "Installing:$missing"
    $as_root apt-get update -qq
    # shellcheck disable=SC2086
    DEBIAN_FRONTEND=noninteractive $as_root apt-get install -y -qq --no-install-recommends $missing >/dev/null
}

build() {
    # "$@": further settings for CMake, then the build itself with all cores
    cmake -S "$source_folder" -B "$build_folder" -G Ninja "$@" >"$build_folder.configure.log" 2>&1 ||
        { cat "$build_folder.configure.log" >&2; exit 1; }
    rm -f "$build_folder.configure.log"
    cmake --build "$build_folder"
}
