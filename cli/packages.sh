# Sourced by the two scripts that people run: what the program needs from Debian 12, and how to get it.

build_packages="g++ cmake ninja-build libsqlite3-dev libyaml-cpp-dev libcli11-dev libfmt-dev \
nlohmann-json3-dev libctemplate-dev libexif-dev libmd-dev libical-dev"

# install_packages NAME... installs those that are missing, as root or through sudo. When nothing is
# missing it does nothing, so a second run needs no network.
install_packages() {
    local missing=() package
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q 'ok installed' ||
            missing+=("$package")
    done
    [ ${#missing[@]} -gt 0 ] || return 0

    local as_root=()
    if [ "$(id -u)" -ne 0 ]; then
        command -v sudo >/dev/null || {
            echo "These Debian packages are missing: ${missing[*]}" >&2
            echo "Install them as root, or install sudo, and run this again." >&2
            return 1
        }
        as_root=(sudo)
    fi
    echo "Installing: ${missing[*]}"
    "${as_root[@]}" apt-get update -qq
    "${as_root[@]}" env DEBIAN_FRONTEND=noninteractive \
        apt-get install -y -qq --no-install-recommends "${missing[@]}" >/dev/null
}
