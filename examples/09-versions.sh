#!/bin/sh
# The season is over, and the pattern goes into the drawer. What did I do to it, and can I trust
# that the sheet is what the record says? I have it all done again, from the drawing on.
set -eu
. "$(dirname "$0")/tool.sh"

staywright record "$out/7h-trued.svg" -o "$out/9-changes.sh"
keep 9-verify.txt record "$out/7h-trued.svg" --verify drawn-pattern.svg

# What came after the first mock-up, as a script of its own, to try on next year's copy.
keep 9-since-the-mock-up.sh record "$out/7h-trued.svg" --since "$out/4-altered.svg"
