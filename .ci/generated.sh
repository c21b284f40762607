#!/usr/bin/env bash
# Fails when 'go generate' would change a file. It works on a copy, so that neither
# the work tree nor the index is touched.
set -euo pipefail
cd "$(dirname "$0")/.."
copy=$(mktemp -d)
trap 'rm -rf "$copy"' EXIT
tar -c --exclude=./.git --exclude=./bin --exclude=./web/node_modules . | tar -x -C "$copy"
(cd "$copy" && go generate ./...)
if ! diff -r -q --exclude=.git --exclude=bin --exclude=node_modules . "$copy"; then
	echo "generated files are not what their sources give: run make generate" >&2
	exit 1
fi
