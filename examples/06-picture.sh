#!/bin/sh
# For the wall of the workroom: the panels with their measures, how the back will look when it is
# laced, before and after, and the two versions laid over each other.
set -eu
. "$(dirname "$0")/tool.sh"

staywright picture "$out/4-altered.svg" -o "$out/6-panels.pdf"
staywright picture "$out/2-net-size-2.svg" --girth-plot --body body.json -o "$out/6-laced-before.svg"
staywright picture "$out/4-altered.svg" --girth-plot --body body.json -o "$out/6-laced-after.svg"

# compare ends with 1 where two versions differ, as these should.
keep 6-compare.txt compare "$out/2-net-size-2.svg" "$out/4-altered.svg" -o "$out/6-overlay.svg" || [ $? -eq 1 ]
