#!/usr/bin/env bash
# Installs what the tests use and the machine lacks. Go is taken as present.
set -euo pipefail
cd "$(dirname "$0")/.."

# command or file that shows it is there | Debian package
wanted=(
	"chromium|chromium"                                                    # walks through the page
	"certutil|libnss3-tools"                                               # a browser that trusts us
	"pdftotext|poppler-utils"                                              # reads our PDF back
	"/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf|fonts-dejavu-core"    # text in screenshots
	"/usr/lib/python3/dist-packages/ezdxf|python3-ezdxf"                   # reads our DXF back
	"zbarimg|zbar-tools"                                                   # reads our QR codes
	"glpsol|glpk-utils"                                                    # solves our integer programmes once more
	"/usr/lib/python3/dist-packages/scipy|python3-scipy"                   # a second opinion on numbers
	"/usr/lib/python3/dist-packages/openpyxl|python3-openpyxl"               # reads our workbooks back
	"/usr/lib/python3/dist-packages/icalendar|python3-icalendar"             # reads our calendars back
)

packages=()
for line in "${wanted[@]}"; do
	probe=${line%%|*}
	command -v "$probe" >/dev/null 2>&1 || [ -e "$probe" ] || packages+=("${line##*|}")
done

install() {
	local as=()
	if [ "$(id -u)" -ne 0 ]; then as=(sudo); fi
	"${as[@]}" apt-get update -q
	"${as[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "$@"
}

if [ "${#packages[@]}" -gt 0 ]; then
	if ! command -v apt-get >/dev/null; then
		echo "needs: no apt-get here. Install by hand what these Debian packages hold, then run again: ${packages[*]}" >&2
		exit 1
	fi
	if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null; then
		echo "needs: neither root nor sudo. Have somebody run: apt-get install ${packages[*]}" >&2
		exit 1
	fi
	install "${packages[@]}"
fi

if ! command -v npm >/dev/null; then
	echo "needs: no Node. The page is tested with Node 20 or newer and npm; install them, then run again." >&2
	echo "needs: without them, 'make test-go' runs everything but the page's checks." >&2
	exit 1
fi
# npm leaves a copy of the lock file beside what it installed.
if ! [ web/node_modules/.package-lock.json -nt web/package-lock.json ]; then
	(cd web && npm ci --ignore-scripts --no-audit --no-fund)
fi
