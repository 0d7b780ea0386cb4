#!/bin/sh
# For the wall of the workroom: the panels as they came and as they are now, and the gap each would leave.
set -eu
. "$(dirname "$0")/tool.sh"

staywright gap "$out/2-net-size-2.svg" --body body.json --json >"$out/6-gap-before.json"
staywright gap "$out/4-altered.svg" --body body.json --json >"$out/6-gap-after.json"
node draw-before-after.js "$out/2-net-size-2.svg" "$out/4-altered.svg" \
  "$out/6-gap-before.json" "$out/6-gap-after.json" >"$out/6-before-after.svg"
