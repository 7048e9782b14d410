#!/usr/bin/env bash
# Installs what the tests use beside npm packages, where it is missing: Chromium for the browser tests,
# LibreOffice Calc for the independent recalculation. Ends with an error if it cannot.
set -euo pipefail

missing() {
  if [ -z "${CHROMIUM:-}" ] && ! command -v chromium chromium-browser google-chrome >/dev/null; then echo chromium; fi
  if [ -z "${SOFFICE:-}" ] && ! command -v soffice >/dev/null; then echo libreoffice-calc; fi
}

mapfile -t packages < <(missing)
if [ ${#packages[@]} -eq 0 ]; then exit 0; fi
if ! command -v apt-get >/dev/null; then
  echo "The tests need ${packages[*]}; this script can install them on Debian and Ubuntu only." >&2
  exit 1
fi
as_root=()
if [ "$(id -u)" -ne 0 ]; then as_root=(sudo); fi
echo "Installing ${packages[*]} from the system's packages"
"${as_root[@]}" apt-get update -q
"${as_root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -y -q --no-install-recommends "${packages[@]}"

if [ -n "$(missing)" ]; then
  echo "Still missing after the installation: $(missing | tr '\n' ' ')" >&2
  exit 1
fi
