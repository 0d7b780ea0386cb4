#!/bin/sh
# Which size? The envelope says 3 for her waist. I measure the paper and hold it against her.
# I want her laced an inch or two smaller, and two inches open at the back the whole way down
# (body.json says how much at each level). The size whose WAIST gap is nearest two inches is
# the one to start from: bust and hips are easier to change.
set -eu
. "$(dirname "$0")/tool.sh"

for size in 1 2 3; do
  echo "== size $size"
  keep "3-girth-size-$size.txt" girth "$out/2-net-size-$size.svg"
  keep "3-gap-size-$size.txt" gap "$out/2-net-size-$size.svg" --body body.json
done
