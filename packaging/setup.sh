# shellcheck shell=bash
# Brings what the program and its checks stand on. Sourced by run and test, which call
#   set_up [test]
# Everything Python goes into .venv beside the sources; system libraries come by apt where that is
# allowed, and otherwise the one line to run as administrator is printed. Progress goes to stderr,
# so that what the program prints can be piped.

ROOT=$(cd -P "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)
VENV=$ROOT/.venv
PYTHON=$VENV/bin/python
STAMP=$VENV/benchlog-stamp
APT_WANTED=()

say() { printf '%s\n' "$*" >&2; }
stop() { say "$@"; exit 1; }

# Shared library, then the Debian or Ubuntu package that holds it. Tried on bare systems.
QT_LIBRARIES='
libglib-2.0.so.0 libglib2.0-0
libEGL.so.1 libegl1
libGL.so.1 libgl1
libX11.so.6 libx11-6
libdbus-1.so.3 libdbus-1-3
libfontconfig.so.1 libfontconfig1
libxkbcommon.so.0 libxkbcommon0
libxcb-cursor.so.0 libxcb-cursor0
libxcb-icccm.so.4 libxcb-icccm4
libxcb-keysyms.so.1 libxcb-keysyms1
libxcb-shape.so.0 libxcb-shape0
libxcb-xkb.so.1 libxcb-xkb1
libxkbcommon-x11.so.0 libxkbcommon-x11-0
libgssapi_krb5.so.2 libgssapi-krb5-2
libbrotlidec.so.1 libbrotli1
libpulse.so.0 libpulse0
'

# Adds the packages of missing libraries to APT_WANTED. Other systems bring these in their own way.
want_qt_libraries() {
  [ "$(uname -s)" = Linux ] || return 0
  local present library package
  present=$(PATH=$PATH:/sbin:/usr/sbin ldconfig -p 2>/dev/null) || return 0
  while read -r library package; do
    [ -z "$library" ] || [[ $present == *"$library "* ]] || APT_WANTED+=("$package")
  done <<<"$QT_LIBRARIES"
}

# A screen server without a screen, and a window manager, for the real-window tests.
want_screen_server() {
  [ "$(uname -s)" = Linux ] || return 0
  local program package
  while read -r program package; do
    command -v "$program" >/dev/null || APT_WANTED+=("$package")
  done <<<$'Xvfb xvfb\nxvfb-run xvfb\nxauth xauth\nopenbox openbox'
}

is_right_age() {
  "$1" -c 'import sys; sys.exit(not (3, 11) <= sys.version_info[:2] < (3, 16))' 2>/dev/null
}

# Prints the first Python that is neither too old nor too new.
find_python() {
  local name
  for name in python3 python3.15 python3.14 python3.13 python3.12 python3.11; do
    if command -v "$name" >/dev/null && is_right_age "$name"; then
      command -v "$name"
      return
    fi
  done
  return 1
}

want_python() {
  local python
  if python=$(find_python); then
    "$python" -c 'import ensurepip, venv' 2>/dev/null && return
    # The system's own Python takes the plain name; another one beside it has a package of its own.
    [ "$(basename "$python")" = python3 ] && APT_WANTED+=(python3-venv) ||
      APT_WANTED+=("$(basename "$python")-venv")
  elif command -v python3 >/dev/null; then
    stop "Python 3.11 to 3.15 is needed, and this machine's python3 is" \
      "$(python3 -c 'import platform; print(platform.python_version())')." \
      "Install one of those beside it, so that it can be called as python3.11 or the like," \
      "and run this again."
  else
    APT_WANTED+=(python3 python3-venv)
  fi
}

# Installs APT_WANTED by apt where that needs no password; otherwise prints the line and stops.
install_wanted() {
  [ ${#APT_WANTED[@]} -gt 0 ] || return 0
  local admin=() line="apt-get install -y --no-install-recommends ${APT_WANTED[*]}"
  if ! command -v apt-get >/dev/null; then
    stop "This system lacks libraries that go by these names on Debian: ${APT_WANTED[*]}." \
      "Install what holds them here, and run this again."
  fi
  if [ "$(id -u)" != 0 ]; then
    if ! sudo -n true 2>/dev/null; then
      stop "Some system packages are missing. Run this line as administrator, then this again:" \
        $'\n'"  sudo $line"
    fi
    admin=(sudo -n)
  fi
  say "Installing system packages: ${APT_WANTED[*]}"
  # A fresh system has no package lists yet, and old lists name files that are gone.
  apt_quietly "$line" || { apt_quietly "apt-get update" && apt_quietly "$line"; } ||
    stop "$APT_SAID" $'\n'"The system packages could not be installed. Put right what apt says" \
      "above, run this line as administrator, then this again:"$'\n'"  $line"
  APT_WANTED=()
}

apt_quietly() {
  # shellcheck disable=SC2086 # the line is words of our own
  APT_SAID=$(${admin[@]+"${admin[@]}"} env DEBIAN_FRONTEND=noninteractive $1 -q 2>&1 </dev/null)
}

# The stamp says where the environment was made and from what; a moved checkout makes it anew.
expected_stamp() {
  local digest
  digest=$(cat "$ROOT/requirements.lock" "$ROOT/pyproject.toml" |
    if command -v sha256sum >/dev/null; then sha256sum; else shasum -a 256; fi)
  printf '%s\n%s' "$ROOT" "${digest%% *}"
}

make_environment() {
  local python site stamp=$1 began=$SECONDS
  python=$(find_python) || stop "No Python from 3.11 to 3.15 was found."
  if [ ! -x "$PYTHON" ] || ! is_right_age "$PYTHON" ||
    { [ -f "$STAMP" ] && [ "$(head -n 1 "$STAMP")" != "$ROOT" ]; }; then
    say "Making $VENV with $("$python" --version)"
    "$python" -m venv --clear "$VENV"
  fi
  rm -f "$STAMP"
  say "Fetching the packages that requirements.lock names (about 200 MB the first time)"
  install_locked || stop "The packages could not be fetched. Is there a network? Run this again;" \
    "nothing else needs undoing."
  # A path file is all it takes for .venv's Python to find the sources from any folder.
  site=$("$PYTHON" -c 'import sysconfig; print(sysconfig.get_path("purelib"))')
  printf '%s\n' "$ROOT" >"$site/benchlog-checkout.pth"
  printf '%s\n' "$stamp" >"$STAMP"
  say "Ready after $((SECONDS - began)) s"
}

install_locked() {
  local pip=("$PYTHON" -m pip --disable-pip-version-check -q) lock=$ROOT/requirements.lock
  # uv is several times faster, but knows nothing of an index that this site has set for pip.
  if ! "${pip[@]}" config list | grep -qE "^[^.]+\.index-url=" && install_uv &&
    "$VENV/bin/uv" pip sync -q --compile-bytecode --python "$PYTHON" --require-hashes "$lock"; then
    return
  fi
  say "Going on with pip, which takes longer"
  "${pip[@]}" install --require-hashes -r "$lock" >&2
}

# Only uv's own entry of the lock, with its hashes.
install_uv() {
  "${pip[@]}" install --require-hashes -r <(awk '/^[a-z]/ {on = /^uv==/} on' "$lock") >&2
}

set_up() {
  local stamp
  stamp=$(expected_stamp)
  want_qt_libraries
  [ "${1-}" != test ] || want_screen_server
  [ -x "$PYTHON" ] || want_python
  install_wanted
  if [ ! -x "$PYTHON" ] || [ ! -f "$STAMP" ] || [ "$(<"$STAMP")" != "$stamp" ]; then
    make_environment "$stamp"
  fi
}
