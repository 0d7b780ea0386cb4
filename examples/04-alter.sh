#!/bin/sh
# Size 2 is right at the waist, too big above it and too small below. So:
# - centre back comes in above the waist, 3/8 inch on each side at the bust, nothing at the waist;
# - the side seam goes out below the waist, 1/4 inch on each of its four lines.
# Then the gap again, to see what that did before I cut any cloth.
set -eu
. "$(dirname "$0")/tool.sh"

staywright take-in "$out/2-net-size-2.svg" --seam cb --above waist --full-at bust --amount 3/8in |
  staywright let-out --seam side --below waist --amount 1/4in -o "$out/4-altered.svg"
keep 4-gap.txt gap "$out/4-altered.svg" --body body.json
